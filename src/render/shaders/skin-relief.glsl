// The fine relief and tone of skin. Twin of src/figure/skin-relief.ts, where the figures are.
vec3 tiltAt(ivec3 at, int seed) {
  // Twin: hash32 in src/space/sobol.ts.
  uint h = ((uint(at.x + 1024 * at.y) ^ 0x9e3779b9u) * 0x85ebca6bu) ^ ((uint(at.z + 4096 * seed) + 0x165667b1u) * 0xc2b2ae35u);
  h = (h ^ (h >> 16)) * 0x7feb352du;
  h = (h ^ (h >> 15)) * 0x846ca68bu;
  h ^= h >> 16;
  return vec3(uvec3(h, h >> 10, h >> 20) & 1023u) / 511.5 - 1.0;
}

vec3 reliefScale(vec3 placeMm, float footprintMm, float width, float tilt, int seed, mat3 askew) {
  float share = smoothstep(1.0, 2.0, width / footprintMm);
  if (share == 0.0) return vec3(0.0);
  vec3 p = placeMm * askew / width, t = smoothstep(0.0, 1.0, fract(p));
  ivec3 i = ivec3(floor(p));
  ivec2 o = ivec2(0, 1);
  vec3 low = mix(mix(tiltAt(i, seed), tiltAt(i + o.yxx, seed), t.x), mix(tiltAt(i + o.xyx, seed), tiltAt(i + o.yyx, seed), t.x), t.y);
  vec3 high = mix(mix(tiltAt(i + o.xxy, seed), tiltAt(i + o.yxy, seed), t.x), mix(tiltAt(i + o.xyy, seed), tiltAt(i + o.yyy, seed), t.x), t.y);
  return share * tilt * mix(low, high, t.z);
}

const float PORE_CELL = 1.1, PORE_HALF = 0.22;

// xyz: from a pore's middle along the lattice, mm; w: how deep in it. A pore lies within its cell, so one is asked.
vec4 poreAt(vec3 placeMm, mat3 askew) {
  vec3 p = placeMm * askew / PORE_CELL, i = floor(p);
  vec3 aside = tiltAt(ivec3(i), 3), from = (p - i - 0.5 - 0.27 * aside) * PORE_CELL;
  float off = dot(from, from) / (PORE_HALF * PORE_HALF);
  return vec4(from, (0.55 + 0.45 * aside.z) * exp(-off) * (1.0 - smoothstep(1.0, 2.2, off)));
}

float poresShare(float footprintMm) {
  return smoothstep(1.0, 2.0, 2.0 * PORE_HALF / footprintMm);
}

// The wall of a pore turns towards its middle.
vec3 pore(vec3 placeMm, float footprintMm, mat3 askew) {
  const float TILT = 0.6;
  float share = poresShare(footprintMm);
  if (share == 0.0) return vec3(0.0);
  vec4 at = poreAt(placeMm, askew);
  return -share * TILT * at.w * (askew * at.xyz);
}

// Each scale's lattice stands askew to the face and to the others. A vector times a matrix: its columns, written here as rows, are the axes.
const mat3 ASKEW_A = mat3(2.0, -1.0, 2.0, 2.0, 2.0, -1.0, -1.0, 2.0, 2.0) / 3.0;
const mat3 ASKEW_B = mat3(2.0, 3.0, 6.0, 6.0, 2.0, -3.0, -3.0, 6.0, -2.0) / 7.0;
const mat3 ASKEW_C = mat3(1.0, 8.0, -4.0, 4.0, -4.0, -7.0, 8.0, 1.0, 4.0) / 9.0;
const mat3 ASKEW_D = mat3(6.0, 6.0, 7.0, -9.0, 2.0, 6.0, 2.0, -9.0, 6.0) / 11.0;

// To be added to a unit normal. placeMm: before any pose; footprintMm: what a pixel takes in.
vec3 skinRelief(vec3 placeMm, float footprintMm) {
  // Twin: skinRelief in src/figure/skin-relief.ts.
  return reliefScale(placeMm, footprintMm, 2.6, 0.034, 0, ASKEW_A) + reliefScale(placeMm, footprintMm, 1.2, 0.03, 1, ASKEW_B)
    + reliefScale(placeMm, footprintMm, 0.55, 0.015, 2, ASKEW_C) + pore(placeMm, footprintMm, ASKEW_D);
}

// Factor on the reflectance.
vec3 skinClouds(vec3 placeMm, float footprintMm) {
  // Twin: skinClouds in src/figure/skin-relief.ts.
  vec3 place = vec3(abs(placeMm.x), placeMm.yz);
  vec3 cloud = reliefScale(place, footprintMm, 5.5, 0.5, 6, ASKEW_A) + reliefScale(place, footprintMm, 2.1, 1.0, 7, ASKEW_B)
    + reliefScale(place, footprintMm, 0.9, 0.7, 8, ASKEW_C);
  float share = poresShare(footprintMm);
  float open = share == 0.0 ? 1.0 : 1.0 - share * (0.22 * poreAt(placeMm, ASKEW_D).w - 0.0028);
  return open * (1.0 + vec3(0.01, 0.06, 0.056) * cloud.x + vec3(0.03, 0.042, 0.05) * cloud.y);
}
