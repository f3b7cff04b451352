// An eye behind its cornea, in millimetres of the ball's own frame: origin its centre, z its line of sight. Twin of
// src/figure/iris.ts, where each figure has its source.
const float CORNEA_CENTRE = 5.35, CORNEA_RADIUS = 7.8, AQUEOUS = 1.336;
const float IRIS_Z = 9.55, IRIS_RISE = 0.01, PUPIL_RADIUS = 1.55;

// 1 behind the clear cornea, 0 on the white.
float clearAt(float fromAxis) {
  return 1.0 - smoothstep(5.0, 6.2, fromAxis);
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

// The iris without its relief; unit.
vec3 irisNormalAt(vec2 q) {
  return normalize(vec3(-2.0 * IRIS_RISE * q, 1.0));
}

struct Way {
  vec3 at;
  vec3 normal;
  vec3 bent;
};

// Where light from a far place enters on its way to q, and its direction inside. towards: unit, to the light.
Way wayTo(vec3 q, vec3 towards) {
  Way way;
  way.bent = -towards;
  vec3 from = q - vec3(0.0, 0.0, CORNEA_CENTRE);
  for (int i = 0; i < 3; i++) {
    float along = dot(from, way.bent);
    way.at = q - way.bent * (along + sqrt(max(0.0, along * along - dot(from, from) + CORNEA_RADIUS * CORNEA_RADIUS)));
    way.normal = (way.at - vec3(0.0, 0.0, CORNEA_CENTRE)) / CORNEA_RADIUS;
    if (dot(way.normal, towards) <= 0.0) break;
    way.bent = refract(-towards, way.normal, 1.0 / AQUEOUS);
  }
  return way;
}

// Where light from a far place enters on its way to q of the iris, whose normal there, relief and all, is given.
Entry entryTo(vec3 q, vec3 towards, vec3 irisNormal) {
  const float APART = 0.1;
  Way way = wayTo(q, towards);
  Entry entry = Entry(way.at, way.normal, 0.0);
  vec3 smoothNormal = irisNormalAt(q.xy);
  float facing = -dot(way.bent, smoothNormal);
  if (dot(way.normal, towards) <= 0.0 || dot(way.bent, way.normal) >= 0.0 || way.at.z <= IRIS_Z || facing <= 0.05) return entry;
  // What enters by a patch of the cornea is spread over the patch of the iris that it comes to.
  vec3 aside = wayTo(q + vec3(APART, 0.0, 0.0), towards).at, above = wayTo(q + vec3(0.0, APART, 0.0), towards).at;
  float patchShare = length(cross(aside - way.at, above - way.at)) / (APART * APART);
  float relief = min(3.0, max(0.0, -dot(way.bent, irisNormal)) / facing);
  entry.share = clearAt(length(way.at.xy)) * min(4.0, patchShare) * smoothNormal.z * relief;
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

// 0 in a gap, 1 on a fibre.
float fibre(float turn, int cells, float v, int seed) {
  return 1.0 - abs(2.0 * ringNoise(turn, cells, v, seed) - 1.0);
}

float turnOf(vec2 q) {
  return atan(q.y, q.x) / (2.0 * PI) + 0.5;
}

float swayOf(float turn, float r) {
  return 0.014 * (ringNoise(turn, 11, r * 0.6, 1) - 0.5);
}

// How far out from the frill that parts the pupil's zone and the outer one, in its half widths.
float offFrill(float turn, float r) {
  return (r - 2.7 - 0.6 * (ringNoise(turn, 17, 0.5, 4) - 0.5) - 0.2 * (ringNoise(turn, 43, 0.5, 6) - 0.5)) / 0.35;
}

float hollowAt(float turn, float r, float off) {
  return smoothstep(0.62, 0.8, ringNoise(turn, 19, r * 0.8, 5)) * smoothstep(0.0, 0.5, off);
}

// Height of the iris's relief, mm; footprintMm: of a pixel, below which nothing is drawn.
float irisHeight(vec2 q, float footprintMm) {
  float r = length(q), turn = turnOf(q), fibres = turn + swayOf(turn, r), off = offFrill(turn, r);
  float share = 1.0 - smoothstep(0.06, 0.16, footprintMm);
  return share * (0.05 * fibre(fibres, 52, r * 0.3, 2) + 0.022 * fibre(fibres, 120, r * 0.45, 3)) + 0.1 * exp(-off * off)
    - 0.09 * hollowAt(turn, r, off);
}

// The same as slopes, without the iris's own rise.
vec2 irisSlopes(vec2 q, float footprintMm) {
  const float SLOPE_STEP = 0.03;
  float here = irisHeight(q, footprintMm);
  return vec2(irisHeight(q + vec2(SLOPE_STEP, 0.0), footprintMm) - here,
              irisHeight(q + vec2(0.0, SLOPE_STEP), footprintMm) - here) / SLOPE_STEP;
}

// Reflectance of a place of the iris as a multiple of its colour: pupil, fibres, frill, dark rim.
float irisTone(vec2 q, float footprintMm) {
  float r = length(q), turn = turnOf(q), fibres = turn + swayOf(turn, r), off = offFrill(turn, r);
  float share = 1.0 - smoothstep(0.06, 0.16, footprintMm);
  float coarse = fibre(fibres, 52, r * 0.3, 2) - 0.5;
  float threads = share * (fibre(fibres, 120, r * 0.45, 3) - 0.5);
  float blotch = ringNoise(turn, 9, r * 0.5, 7) - 0.5;
  float inner = mix(0.86, 1.0, smoothstep(-1.0, 1.0, off));
  float tone = inner * (0.96 + 0.5 * coarse + 0.5 * threads + 0.35 * blotch) + 0.22 * exp(-off * off) - 0.3 * hollowAt(turn, r, off);
  float ruff = smoothstep(PUPIL_RADIUS, PUPIL_RADIUS + 0.3, r);
  float rim = mix(1.0, 0.22, smoothstep(4.2, 5.7, r));
  return max(0.08, tone) * mix(0.35, 1.0, ruff) * rim * smoothstep(PUPIL_RADIUS - 0.08, PUPIL_RADIUS + 0.08, r);
}
