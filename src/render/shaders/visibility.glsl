// What stands between a receiver x and a lit point p: shadow map for the sitters, closed forms for flat and round things.
// In the first batches (EARLY) edges are blurred by the patch that p stands for; blurM: half its side, m. Later they are
// hard: a program of its own, since what the blur needs would slow all later batches down.
const float END_M = 2e-4;

// Share of an edge that is covered; inside: signed distance past the edge, m; width of the blur at the occluder, m.
float covered(float inside, float width) {
#ifdef EARLY
  return clamp(0.5 + inside / width, 0.0, 1.0);
#else
  return step(0.0, inside);
#endif
}

// May anything within the sphere (centre, radius) touch the way from x to p, or its blur?
bool mayCover(vec4 sphere, vec3 x, vec3 p, float blurM) {
  vec3 along = p - x, from = sphere.xyz - x;
  vec3 off = from - along * clamp(dot(from, along) / dot(along, along), 0.0, 1.0);
  float reach = sphere.w + blurM;
  return dot(off, off) <= reach * reach;
}

float planeShare(vec3 x, vec3 p, vec3 centre, vec3 normal) {
  vec3 along = p - x;
  float end = END_M / length(along);
  float t = dot(centre - x, normal) / dot(along, normal);
  return t > end && t < 1.0 - end ? t : -1.0;
}

// u, v: half edges over their squares, with their lengths; normal: unit.
float rectangleCovers(vec3 x, vec3 p, float blurM, vec3 centre, vec4 u, vec4 v, vec3 normal) {
  float t = planeShare(x, p, centre, normal);
  if (t < 0.0) return 0.0;
  vec3 hit = mix(x, p, t) - centre;
  float width = 2.0 * blurM * t;
  float alongU = u.w * (1.0 - abs(dot(hit, u.xyz))), alongV = v.w * (1.0 - abs(dot(hit, v.xyz)));
  if (min(alongU, alongV) < -width) return 0.0;
  return covered(alongU, width) * covered(alongV, width);
}

float discCovers(vec3 x, vec3 p, float blurM, vec3 centre, vec4 normal) {
  float t = planeShare(x, p, centre, normal.xyz);
  if (t < 0.0) return 0.0;
  return covered(normal.w - length(mix(x, p, t) - centre), 2.0 * blurM * t);
}

float ballCovers(vec3 x, vec3 p, float blurM, vec4 ball) {
  vec3 along = p - x;
  float t = dot(ball.xyz - x, along) / dot(along, along);
  if (t <= 0.0 || t >= 1.0) return 0.0;
  // A point of the ball itself is shaded by its own horizon.
  if (abs(length(x - ball.xyz) - ball.w) < END_M + 1e-3 * ball.w) return 0.0;
  return covered(ball.w - length(x + along * t - ball.xyz), 2.0 * blurM * t);
}

// Softened as a capsule, by no more than half its radius: a blur wider than the thing covers more than the thing does,
// and a lamp head in its own umbrella's light took a seventh of the first frame.
float cylinderCovers(vec3 x, vec3 p, float blurM, vec3 from, vec3 to, float radius) {
  vec3 along = p - x;
#ifdef EARLY
  vec3 axis = to - from, start = x - from;
  vec3 beside = start - axis * clamp(dot(start, axis) / dot(axis, axis), 0.0, 1.0);
  // A place of the cylinder itself: a capsule would shade its own ends.
  if (dot(beside, beside) < 1.05 * radius * radius) {
    vec3 pull = normalize(along) * END_M;
    return segmentHitsCylinder(x + pull, p - pull, from, to, radius) ? 1.0 : 0.0;
  }
  float aa = dot(along, along), bb = dot(axis, axis), ab = dot(along, axis);
  float s = (aa * dot(axis, start) - ab * dot(along, start)) / max(aa * bb - ab * ab, 1e-9);
  vec3 near = from + axis * clamp(s, 0.0, 1.0);
  float t = dot(near - x, along) / aa;
  if (t <= 0.0 || t >= 1.0) return 0.0;
  return covered(radius - length(x + along * t - near), min(2.0 * blurM * t, 0.5 * radius));
#else
  vec3 pull = normalize(along) * END_M;
  return segmentHitsCylinder(x + pull, p - pull, from, to, radius) ? 1.0 : 0.0;
#endif
}

// Softened at the rim and at the sphere's outline.
float capCovers(vec3 x, vec3 p, float blurM, vec3 rim, vec3 axis, float diameter, float depth) {
  vec3 along = p - x;
#ifdef EARLY
  float radius = capRadius(diameter, depth);
  vec3 start = x - (rim + axis * (depth - radius));
  float aa = dot(along, along), middle = -dot(along, start) / aa;
  float offAxis = length(start + along * middle);
  float outline = covered(radius - offAxis, 2.0 * blurM * clamp(middle, 0.0, 1.0));
  if (outline == 0.0) return 0.0;
  float reach = sqrt(max(0.0, radius * radius - offAxis * offAxis) / aa);
  float cover = 0.0;
  for (int side = -1; side <= 1; side += 2) {
    float t = middle + float(side) * reach;
    if (t <= END_M || t >= 1.0 - END_M) continue;
    cover = max(cover, covered(dot(x + along * t - rim, axis), 2.0 * blurM * t));
  }
  return cover * outline;
#else
  vec3 pull = normalize(along) * END_M;
  return segmentHitsCap(x + pull, p - pull, rim, axis, diameter, depth) ? 1.0 : 0.0;
#endif
}
