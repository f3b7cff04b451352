// An eye behind its cornea, in millimetres of the ball's own frame: origin its centre, z its line of sight. Twin of
// src/figure/iris.ts, where each figure has its source.
const float CORNEA_CENTRE = 5.35, CORNEA_RADIUS = 7.8, AQUEOUS = 1.336;
const float IRIS_Z = 9.55, IRIS_RISE = 0.01, PUPIL_RADIUS = 1.55;

// 1 behind the clear cornea, 0 on the white.
float clearAt(float fromAxis) {
  return 1.0 - smoothstep(5.2, 6.1, fromAxis);
}

// p: on the cornea, with its normal; ray: unit, inwards. Seen from behind the iris: straight under p.
vec3 irisBehind(vec3 p, vec3 normal, vec3 ray) {
  vec3 d = refract(ray, normal, 1.0 / AQUEOUS);
  float a = IRIS_RISE * dot(d.xy, d.xy), b = 2.0 * IRIS_RISE * dot(p.xy, d.xy) - d.z;
  float c = min(0.0, IRIS_Z + IRIS_RISE * dot(p.xy, p.xy) - p.z);
  if (b <= 0.05) return vec3(p.xy, IRIS_Z + IRIS_RISE * dot(p.xy, p.xy));
  return p - d * (2.0 * c / (b + sqrt(b * b - 4.0 * a * c)));
}

struct Entry {
  vec3 at;
  vec3 normal;
  // Irradiance of the iris as a multiple of the cornea's there.
  float share;
};

// Where light from a far place enters on its way to q of the iris. towards: unit, to the light.
Entry entryTo(vec3 q, vec3 towards) {
  Entry entry;
  vec3 bent = -towards, from = q - vec3(0.0, 0.0, CORNEA_CENTRE);
  for (int i = 0; i < 3; i++) {
    float along = dot(from, bent);
    entry.at = q - bent * (along + sqrt(max(0.0, along * along - dot(from, from) + CORNEA_RADIUS * CORNEA_RADIUS)));
    entry.normal = (entry.at - vec3(0.0, 0.0, CORNEA_CENTRE)) / CORNEA_RADIUS;
    if (dot(entry.normal, towards) <= 0.0) break;
    bent = refract(-towards, entry.normal, 1.0 / AQUEOUS);
  }
  vec3 irisNormal = normalize(vec3(-2.0 * IRIS_RISE * q.xy, 1.0));
  float inwards = -dot(bent, entry.normal);
  entry.share = 0.0;
  if (dot(entry.normal, towards) > 0.0 && inwards > 0.0 && entry.at.z > IRIS_Z)
    entry.share = clearAt(length(entry.at.xy)) * max(0.0, -dot(bent, irisNormal)) / inwards;
  return entry;
}

// hash32 of space/sobol.ts, as a number from 0 to 1.
float latticeAt(int i, int j) {
  uint a = uint(i), b = uint(j);
  uint h = ((a ^ 0x9e3779b9u) * 0x85ebca6bu) ^ ((b + 0x165667b1u) * 0xc2b2ae35u);
  h = (h ^ (h >> 16)) * 0x7feb352du;
  h = (h ^ (h >> 15)) * 0x846ca68bu;
  return float((h ^ (h >> 16)) >> 8) / 16777216.0;
}

// Smooth noise round a circle: so many cells a turn, others at each whole v.
float ringNoise(float turn, int cells, float v, int seed) {
  float x = turn * float(cells);
  ivec2 base = ivec2(floor(vec2(x, v)));
  vec2 f = vec2(x, v) - vec2(base);
  f = f * f * (3.0 - 2.0 * f);
  int left = ((base.x % cells) + cells) % cells, right = (left + 1) % cells, row = base.y + 64 * seed;
  return mix(mix(latticeAt(left, row), latticeAt(right, row), f.x),
             mix(latticeAt(left, row + 1), latticeAt(right, row + 1), f.x), f.y);
}

// Reflectance of a place of the iris as a multiple of its colour: pupil, fibres, collarette, dark rim. footprintMm: of a
// pixel, below which nothing is drawn.
float irisTone(vec2 q, float footprintMm) {
  float r = length(q);
  float turn = atan(q.y, q.x) / (2.0 * PI) + 0.5;
  float sway = 0.012 * (ringNoise(turn, 13, r * 0.7, 1) - 0.5);
  float cellMm = 2.0 * PI * r / 88.0;
  float fine = smoothstep(1.0, 2.5, cellMm / footprintMm);
  float coarse = ringNoise(turn + sway, 36, r * 0.45, 2) - 0.5;
  float threads = (ringNoise(turn + sway, 88, r * 0.6, 3) - 0.5) * fine;
  float frill = 2.75 + 0.7 * (ringNoise(turn, 21, 0.5, 4) - 0.5);
  float off = (r - frill) / 0.42;
  float collar = exp(-off * off);
  float hollow = smoothstep(0.62, 0.8, ringNoise(turn, 15, r * 0.8, 5)) * smoothstep(0.0, 0.5, r - frill);
  float inner = mix(0.82, 1.0, smoothstep(-0.5, 0.3, r - frill));
  float tone = inner * (1.0 + 0.75 * coarse + 0.8 * threads) + 0.4 * collar - 0.3 * hollow;
  float ruff = smoothstep(PUPIL_RADIUS, PUPIL_RADIUS + 0.35, r);
  float rim = mix(1.0, 0.2, smoothstep(4.5, 5.75, r));
  return max(0.05, tone) * mix(0.35, 1.0, ruff) * rim * smoothstep(PUPIL_RADIUS - 0.08, PUPIL_RADIUS + 0.08, r);
}
