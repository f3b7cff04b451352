#ifndef OCCLUDERS
#define occludersPass(x, p, blurM, source) 1.0
#define rowsPass(rows, x, p, blurM) 1.0
#define mayBeHidden(x, ball, source) 0u
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

// Which may stand in the light of a source: all, or of several sources drawn as one each has its own.
#ifdef TOGETHER
uniform vec2 standing[MAX_SOURCES];
#define standingFor(source) ivec2(standing[source])
#else
#define standingFor(source) ivec2(0, occluderCount)
#endif

// Past those from a first up to a last.
float rowsPass(ivec2 rows, vec3 x, vec3 p, float blurM) {
  float pass = 1.0;
  for (int i = rows.x; i < rows.y && pass > 0.0; i++) pass *= 1.0 - occluderCovers(i, x, p, blurM);
  return pass;
}

float occludersPass(vec3 x, vec3 p, float blurM, int source) {
  return rowsPass(standingFor(source), x, p, blurM);
}

// May anything stand between x and a ball of the source's lit points? Its bit, or none. Asked once a pixel, since mostly nothing does.
uint mayBeHidden(vec3 x, vec4 ball, int source) {
  ivec2 rows = standingFor(source);
  for (int i = rows.x; i < rows.y; i++) {
    vec4 d = occluderAt(i, OCCLUDER_D);
    if (int(d.w + 0.5) == SHAPE_RECTANGLE) {
      // With both on one side of it, a flat thing hides nothing.
      vec3 centre = occluderAt(i, OCCLUDER_A).xyz;
      float from = dot(x - centre, d.xyz), to = dot(ball.xyz - centre, d.xyz);
      if (from * to > 0.0 && abs(to) > ball.w) continue;
    }
    if (mayCover(occluderAt(i, OCCLUDER_BOUND), x, ball.xyz, ball.w)) return 1u << source;
  }
  return 0u;
}
#endif
