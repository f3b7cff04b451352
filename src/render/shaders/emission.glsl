// How a lit point shines and what stands in its way. GLSL ES 3.00, no main, no uniforms, no precision statement: needs highp.
// Every function names its TypeScript twin in its first line; tests/browser/glsl-twins.test.ts compares them.

const float EMISSION_PI = 3.141592653589793;
// As END in segments.ts: both ends of a segment are pulled in by this share of its length.
const float SEGMENT_END = 1e-5;

float ggx(vec3 normal, vec3 incident, vec3 direction, float alpha) {
  // Twin: ggx in src/photometry/profiles/lobes.ts.
  float cosI = dot(normal, incident);
  float cosO = dot(normal, direction);
  if (cosI <= 0.0 || cosO <= 0.0) return 0.0;
  float a2 = alpha * alpha, rest = 1.0 - a2;
  // |h|² of the half vector h before it is made a unit; the twin's |n × h|² is |h|² − (n·h)².
  float h2 = 2.0 + 2.0 * dot(incident, direction);
  float nh = cosI + cosO;
  float spread = h2 - rest * nh * nh;
  float masking = cosO * sqrt(a2 + rest * cosI * cosI) + cosI * sqrt(a2 + rest * cosO * cosO);
  return a2 * h2 * h2 / (2.0 * EMISSION_PI * spread * spread * masking);
}

// Twin: STRAND_SPREAD in src/photometry/hair.ts.
const float STRAND_SPREAD = 0.5;

// spread: STRAND_SPREAD, or 0 of what has no strands.
float litCosine(float cosine, float spread) {
  // Twin: strandCosine in src/photometry/hair.ts.
  float raised = max(0.0, cosine + spread);
  return cosine >= spread ? cosine : (0.25 / STRAND_SPREAD) * raised * raised;
}

const vec2 CUTICLE = vec2(0.9990482215818578, 0.043619387365336);

float hairLobe(vec3 normal, vec3 strand, vec3 incident, vec3 direction, float alpha) {
  // Twin: hairLobe in src/photometry/hair.ts. CUTICLE: cosine and sine of CUTICLE_TILT there.
  vec3 n = CUTICLE.x * normal - CUTICLE.y * strand;
  vec3 t = CUTICLE.x * strand + CUTICLE.y * normal;
  float cosI = litCosine(dot(n, incident), STRAND_SPREAD), cosO = litCosine(dot(n, direction), STRAND_SPREAD);
  if (cosI <= 0.0 || cosO <= 0.0) return 0.0;
  float a2 = alpha * alpha, rest = 1.0 - a2;
  vec2 along = vec2(dot(t, incident), dot(t, direction));
  float h2 = 2.0 + 2.0 * dot(incident, direction);
  float nearness = along.x + along.y;
  float spread = a2 * h2 + rest * nearness * nearness;
  vec2 masked = vec2(cosO, cosI) * sqrt(1.0 - rest * along * along);
  return alpha * a2 * h2 * h2 / (2.0 * EMISSION_PI * spread * spread * (masked.x + masked.y));
}

float lobeLuminance(float cosO, float cosH, float cosI, vec4 lobes, vec4 beams) {
  // Twin: luminanceOf in src/photometry/profiles/lobes.ts; cosI, lobes and beams as packLobes there fills them. cosO and
  // cosH: of the direction with the normal and with the way to the lamp.
  if (cosO <= 0.0) return 0.0;
  float luminance = lobes.x;
  if (lobes.y > 0.0) {
    float h2 = 2.0 + 2.0 * cosH, nh = cosI + cosO, rest = 1.0 - lobes.z;
    float spread = h2 - rest * nh * nh;
    float masking = cosO * lobes.w + cosI * sqrt(lobes.z + rest * cosO * cosO);
    luminance += lobes.y * h2 * h2 / (spread * spread * masking);
  }
  if (beams.x > 0.0 && cosH < 0.0) luminance += beams.x * pow(-cosH, beams.y) / cosO;
  if (beams.z > 0.0) luminance += beams.z * pow(cosO, beams.w);
  return luminance;
}

float capRadius(float diameter, float depth) {
  // Twin: capRadius in src/photometry/profiles/segments.ts.
  return (diameter * diameter * 0.25 + depth * depth) / (2.0 * depth);
}

bool insideStretch(float a, float b, float c, out vec2 stretch) {
  // Twin: interval in src/photometry/profiles/segments.ts: where a·t² + 2·b·t + c ≤ 0.
  stretch = vec2(-1e30, 1e30);
  if (a < 1e-12) return c <= 0.0;
  float root = b * b - a * c;
  if (root < 0.0) return false;
  float width = sqrt(root);
  stretch = vec2(-b - width, -b + width) / a;
  return true;
}

bool segmentHitsCylinder(vec3 a, vec3 b, vec3 from, vec3 to, float radius) {
  // Twin: segmentHitsCylinder in src/photometry/profiles/segments.ts.
  vec3 axis = to - from;
  vec3 along = b - a;
  vec3 start = a - from;
  float slope = dot(along, axis) / dot(axis, axis);
  float level = dot(start, axis) / dot(axis, axis);
  vec3 across = along - slope * axis;
  vec3 offset = start - level * axis;
  vec2 stretch;
  if (!insideStretch(dot(across, across), dot(across, offset), dot(offset, offset) - radius * radius, stretch)) return false;
  if (abs(slope) > 1e-9) {
    float t0 = -level / slope;
    float t1 = (1.0 - level) / slope;
    stretch = vec2(max(stretch.x, min(t0, t1)), min(stretch.y, max(t0, t1)));
  } else if (level < 0.0 || level > 1.0) {
    return false;
  }
  return max(stretch.x, SEGMENT_END) <= min(stretch.y, 1.0 - SEGMENT_END);
}

bool segmentHitsCap(vec3 a, vec3 b, vec3 rimCentre, vec3 axis, float diameter, float depth) {
  // Twin: segmentHitsCap in src/photometry/profiles/segments.ts. axis: unit, from the rim plane to the apex.
  float radius = capRadius(diameter, depth);
  vec3 along = b - a;
  vec3 start = a - (rimCentre + axis * (depth - radius));
  vec2 both;
  if (!insideStretch(dot(along, along), dot(along, start), dot(start, start) - radius * radius, both)) return false;
  float level = dot(a - rimCentre, axis);
  float slope = dot(along, axis);
  bool near = both.x > SEGMENT_END && both.x < 1.0 - SEGMENT_END && level + both.x * slope >= 0.0;
  bool far = both.y > SEGMENT_END && both.y < 1.0 - SEGMENT_END && level + both.y * slope >= 0.0;
  return near || far;
}

const int GATE_OPEN = 0;
const int GATE_HONEYCOMB = 1;
const int GATE_CELLS = 2;
const int GATE_OPENING = 3;
const int GATE_WINDOW = 4;
const int GATE_PAST_CAP = 5;
const int GATE_PAST_WINDOW = 6;
const int GATE_LAMP_BEHIND = 7;
const int GATE_INTENSITIES = 8;
const int GATE_OVERCAST = 9;

float circlePass(vec4 plane, vec4 from, vec3 direction, float reach, float blur) {
  // Twin: gatePass in src/photometry/profiles/gates.ts, for what has to do with a circle. plane: normal and heightM, from: from and
  // radiusM of packCircle there. reach: of the way, m; the edge of what is lost is as wide as blur at the way's start.
  float rise = dot(plane.xyz, direction);
  float way = plane.w / max(rise, 1e-6);
  float inside = abs(from.w) - length(from.xyz + direction * way);
  bool isLost = from.w < 0.0;
  float width = isLost ? max(blur * (1.0 - way / reach), 1e-6) : 1e-6;
  float within = rise > 0.0 && (way < reach || !isLost) ? clamp(0.5 + inside / width, 0.0, 1.0) : 0.0;
  return isLost ? 1.0 - within : within;
}

float overcastPass(float sine) {
  // Twin: overcastLuminance in src/photometry/sky.ts; sine: of the elevation of the place of the sky.
  return sine > 0.0 ? (1.0 + 2.0 * sine) / 3.0 : 0.0;
}

float gatePass(int kind, vec4 a, vec4 b, vec3 point, vec3 direction) {
  // Twin: gatePass in src/photometry/profiles/gates.ts; kind, a and b as packGate there fills them. Circles: circlePass.
  if (kind == GATE_OPEN || kind == GATE_OPENING || kind == GATE_PAST_CAP) return 1.0;
  if (kind == GATE_OVERCAST) return overcastPass(direction.z);
  bool isPast = kind == GATE_PAST_WINDOW;
  if (direction.z <= 0.0) return isPast ? 1.0 : 0.0;
  vec2 slope = direction.xy / direction.z;
  if (kind == GATE_HONEYCOMB) {
    float x = length(slope) * a.x;
    return x < 1.0 ? a.y * (2.0 / EMISSION_PI) * (acos(x) - x * sqrt(1.0 - x * x)) : 0.0;
  }
  if (kind == GATE_CELLS) {
    vec2 open = max(vec2(0.0), 1.0 - abs(slope) * a.x);
    return open.x * open.y;
  }
  vec2 at = point.xy + slope * (a.x - point.z);
  if (kind == GATE_LAMP_BEHIND) return dot(at, at) <= a.y * a.y ? 1.0 : 0.0;
  if (point.z > a.x) return isPast ? 1.0 : 0.0;
  return (abs(at.x) <= 0.5 * a.y && abs(at.y) <= 0.5 * a.z) != isPast ? 1.0 : 0.0;
}

float intensityPass(sampler2D table, vec4 a, vec4 b, vec3 direction) {
  // Twin: intensityPass in src/photometry/intensityGrid.ts; a and b as packIntensities there fills them, the values in red, a
  // row a plane.
  float t = (atan(length(direction.xy), a.w * direction.z) - a.x) * a.y;
  if (t < 0.0 || t > a.z) return 0.0;
  float p = fract(atan(direction.y, a.w * direction.x) / (2.0 * EMISSION_PI)) * b.x;
  ivec2 at = ivec2(min(t, a.z - 1.0), min(p, b.x - 1.0));
  vec2 near = vec2(texelFetch(table, at, 0).r, texelFetch(table, at + ivec2(0, 1), 0).r);
  vec2 far = vec2(texelFetch(table, at + ivec2(1, 0), 0).r, texelFetch(table, at + ivec2(1, 1), 0).r);
  vec2 along = mix(near, far, t - float(at.x));
  return mix(along.x, along.y, p - float(at.y));
}
