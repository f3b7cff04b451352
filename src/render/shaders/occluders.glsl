#ifndef OCCLUDERS
#define occludersPass(x, p, blurM) 1.0
#define firstPass(count, x, p, blurM) 1.0
#define mayBeHidden(x, ball) false
#else
layout(std140) uniform Occluders {
  vec4 occluderData[MAX_OCCLUDERS * OCCLUDER_COLUMNS];
};

vec4 occluderAt(int row, int column) {
  return occluderData[row * OCCLUDER_COLUMNS + column];
}

float occluderCovers(int row, vec3 x, vec3 p, float blurM) {
  if (!mayCover(occluderAt(row, OCCLUDER_BOUND), x, p, blurM)) return 0.0;
  vec4 a = occluderAt(row, OCCLUDER_A), b = occluderAt(row, OCCLUDER_B), d = occluderAt(row, OCCLUDER_D);
  int shape = int(d.w + 0.5);
  if (shape == SHAPE_BALL) return ballCovers(x, p, blurM, a);
  if (shape == SHAPE_RECTANGLE) return rectangleCovers(x, p, blurM, a.xyz, b, occluderAt(row, OCCLUDER_C), d.xyz);
  if (shape == SHAPE_DISC) return discCovers(x, p, blurM, a.xyz, b);
  if (shape == SHAPE_CYLINDER) return cylinderCovers(x, p, blurM, a.xyz, b.xyz, a.w);
  return capCovers(x, p, blurM, a.xyz, b.xyz, 2.0 * a.w, b.w);
}

// Past the first so many.
float firstPass(int count, vec3 x, vec3 p, float blurM) {
  float pass = 1.0;
  for (int i = 0; i < count && pass > 0.0; i++) pass *= 1.0 - occluderCovers(i, x, p, blurM);
  return pass;
}

float occludersPass(vec3 x, vec3 p, float blurM) {
  return firstPass(occluderCount, x, p, blurM);
}

// May anything stand between x and a ball of lit points? Asked once a pixel, since mostly nothing does.
bool mayBeHidden(vec3 x, vec4 ball) {
  for (int i = 0; i < occluderCount; i++) {
    vec4 d = occluderAt(i, OCCLUDER_D);
    if (int(d.w + 0.5) == SHAPE_RECTANGLE) {
      // With both on one side of it, a flat thing hides nothing.
      vec3 centre = occluderAt(i, OCCLUDER_A).xyz;
      float from = dot(x - centre, d.xyz), to = dot(ball.xyz - centre, d.xyz);
      if (from * to > 0.0 && abs(to) > ball.w) continue;
    }
    if (mayCover(occluderAt(i, OCCLUDER_BOUND), x, ball.xyz, ball.w)) return true;
  }
  return false;
}
#endif
