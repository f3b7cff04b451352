// The fine grain of hair. Twin of src/figure/worn/grain.ts, where the figures are.
uint grainHash(int i, int j) {
  // Twin: hash32 in src/space/sobol.ts.
  uint h = ((uint(i) ^ 0x9e3779b9u) * 0x85ebca6bu) ^ ((uint(j) + 0x165667b1u) * 0xc2b2ae35u);
  h = (h ^ (h >> 16)) * 0x7feb352du;
  h = (h ^ (h >> 15)) * 0x846ca68bu;
  return h ^ (h >> 16);
}

vec3 threeAt(int i, int j) {
  uint h = grainHash(i, j);
  return vec3(uvec3(h, h >> 10, h >> 20) & 1023u) / 511.5 - 1.0;
}

vec3 lockAt(int column, float v, int seed) {
  float from = v + float(grainHash(column, 4096 * seed + 2048) >> 8) / 16777216.0;
  int row = int(floor(from));
  return mix(threeAt(column, row + 4096 * seed), threeAt(column, row + 1 + 4096 * seed), smoothstep(0.0, 1.0, from - float(row)));
}

vec3 grainScale(vec2 placeMm, float footprintMm, vec2 size, vec3 amplitude, int seed) {
  float share = smoothstep(1.0, 2.0, size.x / footprintMm);
  if (share == 0.0) return vec3(0.0);
  vec2 at = placeMm / size;
  int column = int(floor(at.x));
  vec3 lock = mix(lockAt(column, at.y, seed), lockAt(column + 1, at.y, seed), smoothstep(0.0, 1.0, at.x - float(column)));
  return share * amplitude * lock;
}

// Slopes across the strands and along them to the tip, and the factor on the reflectance. placeMm: across, along;
// footprintMm: how much of the way across a pixel takes in.
vec3 hairGrain(vec2 placeMm, float footprintMm) {
  // Twin: hairGrain in src/figure/worn/grain.ts.
  return vec3(0.0, 0.0, 1.0) + grainScale(placeMm, footprintMm, vec2(7.0, 110.0), vec3(0.12, 0.04, 0.12), 0)
    + grainScale(placeMm, footprintMm, vec2(3.2, 80.0), vec3(0.22, 0.1, 0.2), 1)
    + grainScale(placeMm, footprintMm, vec2(1.4, 60.0), vec3(0.28, 0.13, 0.22), 2)
    + grainScale(placeMm, footprintMm, vec2(0.6, 40.0), vec3(0.28, 0.13, 0.22), 3)
    + grainScale(placeMm, footprintMm, vec2(0.25, 30.0), vec3(0.28, 0.13, 0.2), 4);
}
