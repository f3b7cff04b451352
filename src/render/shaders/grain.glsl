// The fine grain of hair, and where its strands end. Twin of src/figure/worn/grain.ts, where the figures are.
struct Grain {
  // Across the strands and along them to the tip.
  vec2 slope;
  float tone;
  float reach;
  // Squared while it is summed.
  float blur;
};

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

void addLock(inout Grain grain, inout vec2 placeMm, float footprintMm, vec2 size, vec4 amplitude, int seed) {
  float share = smoothstep(1.0, 2.0, size.x / footprintMm), spread = 0.42 * amplitude.w;
  grain.blur += (1.0 - share) * spread * spread;
  if (share == 0.0) return;
  vec2 at = placeMm / size;
  int column = int(floor(at.x));
  vec3 lock = mix(lockAt(column, at.y, seed), lockAt(column + 1, at.y, seed), smoothstep(0.0, 1.0, at.x - float(column)));
  vec4 part = share * amplitude * lock.xyzz;
  grain.slope += part.xy;
  grain.tone += part.z;
  grain.reach += part.w;
  placeMm.x += 0.3 * size.x * lock.x;
}

// placeMm: across the strands, along them; footprintMm: how much of the way across a pixel takes in.
Grain hairGrain(vec2 placeMm, float footprintMm) {
  // Twin: hairGrain in src/figure/worn/grain.ts.
  Grain grain = Grain(vec2(0.0), 1.0, 0.0, 0.0);
  addLock(grain, placeMm, footprintMm, vec2(7.0, 70.0), vec4(0.11, 0.03, 0.12, 0.5), 0);
  addLock(grain, placeMm, footprintMm, vec2(3.2, 52.0), vec4(0.25, 0.09, 0.24, 0.5), 1);
  addLock(grain, placeMm, footprintMm, vec2(1.4, 38.0), vec4(0.36, 0.11, 0.3, 0.55), 2);
  addLock(grain, placeMm, footprintMm, vec2(0.6, 28.0), vec4(0.34, 0.09, 0.2, 0.6), 3);
  addLock(grain, placeMm, footprintMm, vec2(0.25, 20.0), vec4(0.28, 0.08, 0.12, 0.5), 4);
  grain.blur = sqrt(grain.blur);
  return grain;
}

// Share of a pixel that strands cover which have thinned out to that growth.
float hairCover(float growth, Grain grain) {
  // Twin: hairCover in src/figure/worn/grain.ts.
  float soft = 0.16 + 1.9 * grain.blur;
  return smoothstep(-soft, soft, growth + grain.reach);
}

// Of hair as a mass, which from a growth on hides all.
const float DENSE = 1.8;

float massCover(float growth, Grain grain) {
  // Twin: massCover in src/figure/worn/grain.ts.
  grain.blur *= 0.35;
  return hairCover(1.8 * growth - 0.7, grain);
}
