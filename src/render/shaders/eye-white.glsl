// The white of an eye, and how lids shade an eyeball, in millimetres. Twin of src/figure/eye-white.ts, where the figures are.
// Needs eye-optics.
const vec3 CORNER = vec3(0.94, 0.83, 0.8), VESSEL = vec3(0.9, 0.42, 0.38), LIMBUS = vec3(0.635, 0.62, 0.6);

float lineAt(float v, float halfWidth) {
  return 1.0 - smoothstep(0.0, halfWidth, abs(v - 0.5));
}

float vessels(float turn, float r) {
  float wander = 0.03 * (ringNoise(turn, 19, r * 0.9, 8) - 0.5);
  float coarse = lineAt(ringNoise(turn + wander, 26, r * 0.3, 9), 0.07);
  float fine = lineAt(ringNoise(turn - wander, 61, r * 0.55, 10), 0.1);
  return min(1.0, 0.8 * coarse * smoothstep(0.4, 0.6, ringNoise(turn, 7, r * 0.3, 11)) + 0.35 * fine);
}

// p: on the ball, along its axes.
vec3 whiteTint(vec3 p, float footprintMm) {
  if (p.z <= 0.0) return CORNER;
  float r = length(p.xy);
  float towardsCorner = smoothstep(0.4, 0.95, abs(p.x) / max(r, 1e-3));
  float redness = smoothstep(5.8, 9.4, r) * mix(0.3, 1.0, towardsCorner);
  float drawn = 1.0 - smoothstep(0.08, 0.2, footprintMm);
  float covered = mix(0.12, drawn > 0.0 ? vessels(turnOf(p.xy), r) : 0.0, drawn) * smoothstep(6.4, 10.0, r) * mix(0.35, 0.9, towardsCorner);
  vec3 dusk = mix(vec3(1.0), LIMBUS, smoothstep(7.4, 5.6, r));
  return dusk * mix(vec3(1.0), CORNER, redness) * mix(vec3(1.0), VESSEL, covered);
}

// How far a place lies in the fold in a corner. p: on the ball, along its axes, x away from the nose.
float foldShare(vec3 p) {
  float r = p.z > 0.0 ? length(p.xy) : 11.8;
  return (p.x < 0.0 ? 1.0 : 0.2) * smoothstep(6.6, 11.8, r) * smoothstep(0.4, 0.95, abs(p.x) / max(r, 1e-3));
}

// t^a (1 − t)^b with a greatest value of 1.
float lidCurve(float t, float a, float b) {
  if (t <= 0.0 || t >= 1.0) return 0.0;
  float top = a / (a + b);
  return pow(t / top, a) * pow((1.0 - t) / (1.0 - top), b);
}

// Heights of the upper and lower margin. Twin: lidMargins in src/figure/sculpt/eye.ts.
vec2 lidMargins(float x) {
  float t = (x + 15.2) / 28.8, base = -1.3 + 2.3 * t;
  return vec2(base + 4.7 * lidCurve(t, 0.72, 0.8) - 0.15, base - 5.05 * lidCurve(t, 0.95, 0.66) + 0.15);
}

float stripShare(float inside, float height) {
  return 0.5 * (1.0 - inside / sqrt(inside * inside + height * height));
}

float heightAtRest(vec3 p, float turn) {
  return p.y * cos(turn) - p.z * sin(turn);
}

// p: from the ball's middle along the axes of the head, x away from the nose; how far each lid has turned up with the eye, radians; lid: what
// it throws back.
vec3 lidShade(vec3 p, float upper, float lower, vec3 lid) {
  vec2 margins = lidMargins(p.x);
  float under = max(0.0, margins.x - heightAtRest(p, upper)), over = max(0.0, heightAtRest(p, lower) - margins.y);
  float strips = min(1.0, stripShare(under, 2.2) + stripShare(over, 0.9));
  return 1.0 - strips * (1.0 - 0.25 * strips * strips * strips) * (1.0 - lid);
}

float overEdge(float distance, float height, float outwards, float along) {
  return along > 0.0 ? smoothstep(0.5 * height, 1.5 * height, distance * outwards / along) : 1.0;
}

// Share of what the film mirrors that lies past the lids. ray: unit, where the look goes on; else as lidShade.
float lidPass(vec3 p, vec3 ray, float upper, float lower) {
  vec2 margins = lidMargins(p.x);
  float under = max(0.0, margins.x - heightAtRest(p, upper)), over = max(0.0, heightAtRest(p, lower) - margins.y);
  vec3 normal = normalize(p);
  float outwards = dot(ray, normal), up = ray.y - outwards * normal.y;
  return overEdge(under, 2.2, outwards, up) * overEdge(over, 0.9, outwards, -up);
}
