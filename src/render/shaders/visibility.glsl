// What stands between a receiver x and a lit point p: shadow map for the sitters, closed forms for flat and round things.
// blurM: half the side of the patch that p stands for, m; 0 asks for the hard edge.
const float END_M = 2e-4;

// Share of a blurred edge that is covered; inside: signed distance past the edge, m; width of the blur at the occluder.
float covered(float inside, float width) {
  return width > 0.0 ? clamp(0.5 + inside / width, 0.0, 1.0) : step(0.0, inside);
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

// Softened as a capsule; exact where no blur is asked for.
float cylinderCovers(vec3 x, vec3 p, float blurM, vec3 from, vec3 to, float radius) {
  vec3 pull = normalize(p - x) * END_M;
  if (blurM == 0.0) return segmentHitsCylinder(x + pull, p - pull, from, to, radius) ? 1.0 : 0.0;
  vec3 along = p - x, axis = to - from, start = x - from;
  float aa = dot(along, along), bb = dot(axis, axis), ab = dot(along, axis);
  float s = (aa * dot(axis, start) - ab * dot(along, start)) / max(aa * bb - ab * ab, 1e-9);
  vec3 near = from + axis * clamp(s, 0.0, 1.0);
  float t = dot(near - x, along) / aa;
  if (t <= 0.0 || t >= 1.0) return 0.0;
  return covered(radius - length(x + along * t - near), 2.0 * blurM * t);
}

// Softened at the rim and at the sphere's outline; exact where no blur is asked for.
float capCovers(vec3 x, vec3 p, float blurM, vec3 rim, vec3 axis, float diameter, float depth) {
  vec3 along = p - x;
  vec3 pull = normalize(along) * END_M;
  if (blurM == 0.0) return segmentHitsCap(x + pull, p - pull, rim, axis, diameter, depth) ? 1.0 : 0.0;
  float radius = capRadius(diameter, depth);
  vec3 start = x - (rim + axis * (depth - radius));
  float aa = dot(along, along), middle = -dot(along, start) / aa;
  float offAxis = length(start + along * middle);
  float reach = sqrt(max(0.0, radius * radius - offAxis * offAxis) / aa);
  float cover = 0.0;
  for (int side = -1; side <= 1; side += 2) {
    float t = middle + float(side) * reach;
    if (t <= END_M || t >= 1.0 - END_M) continue;
    cover = max(cover, covered(dot(x + along * t - rim, axis), 2.0 * blurM * t));
  }
  return cover * covered(radius - offAxis, 2.0 * blurM * clamp(middle, 0.0, 1.0));
}

float occluderCovers(int row, vec3 x, vec3 p, float blurM) {
  vec4 kind = occluderAt(row, OCCLUDER_KIND);
  int shape = int(kind.x + 0.5);
  vec4 a = occluderAt(row, OCCLUDER_A);
  if (shape == SHAPE_BALL) return ballCovers(x, p, blurM, a);
  vec4 b = occluderAt(row, OCCLUDER_B);
  if (shape == SHAPE_RECTANGLE) return rectangleCovers(x, p, blurM, a.xyz, b, occluderAt(row, OCCLUDER_C), occluderAt(row, OCCLUDER_D).xyz);
  if (shape == SHAPE_DISC) return discCovers(x, p, blurM, a.xyz, b);
  if (shape == SHAPE_CYLINDER) return cylinderCovers(x, p, blurM, a.xyz, b.xyz, a.w);
  return capCovers(x, p, blurM, a.xyz, b.xyz, 2.0 * a.w, b.w);
}

float occludersPass(vec3 x, vec3 p, float blurM) {
  float pass = 1.0;
  for (int i = 0; i < occluderCount && pass > 0.0; i++) pass *= 1.0 - occluderCovers(i, x, p, blurM);
  return pass;
}

float mapDepth(ivec2 tile, ivec2 texel) {
  return texelFetch(shadowMap, tile * tileSize + clamp(texel, ivec2(0), ivec2(tileSize - 1)), 0).r;
}

// 2×2 comparison with bilinear weights, as the hardware's compare mode does it.
float mapCompare(ivec2 tile, vec2 uv, float depth) {
  vec2 at = uv * float(tileSize) - 0.5;
  ivec2 base = ivec2(floor(at));
  vec2 f = at - floor(at);
  vec4 lit = vec4(step(depth, mapDepth(tile, base)), step(depth, mapDepth(tile, base + ivec2(1, 0))),
                  step(depth, mapDepth(tile, base + ivec2(0, 1))), step(depth, mapDepth(tile, base + ivec2(1, 1))));
  return mix(mix(lit.x, lit.y, f.x), mix(lit.z, lit.w, f.x), f.y);
}

float mapMetres(float stored, vec4 map) {
  return map.x * map.y / (map.y - stored * (map.y - map.x));
}

// As mapCompare, for blockers nearer than gapM to the receiver alone.
float mapNear(ivec2 tile, vec2 uv, float depth, float receiverM, float gapM, vec4 map) {
  vec2 at = uv * float(tileSize) - 0.5;
  ivec2 base = ivec2(floor(at));
  vec2 f = at - floor(at);
  vec4 lit;
  for (int i = 0; i < 4; i++) {
    float stored = mapDepth(tile, base + ivec2(i & 1, i >> 1));
    lit[i] = stored < depth && receiverM - mapMetres(stored, map) < gapM ? 0.0 : 1.0;
  }
  return mix(mix(lit.x, lit.y, f.x), mix(lit.z, lit.w, f.x), f.y);
}

const int TAPS = 8;

// Places over the square −1 to 1 (R2 sequence, Roberts 2018), the next eight for the next sample: all of a batch fill it.
vec2 tapAt(int i, int s) {
  return 2.0 * fract(0.5 + float(s * TAPS + i) * vec2(0.7548776662, 0.5698402910)) - 1.0;
}

// Percentage-closer soft shadow of the sample's own patch: blockers' mean distance, then their blur's width (Fernando
// 2005). Blockers nearer than gapM stay sharp: on a face they are its own relief, which blurring would leak through.
float mapFiltered(int s, ivec2 tile, vec2 uv, float depth, float receiverM, float blurM, float gapM, vec4 map) {
  float toUv = blurM / (2.0 * map.z);
  float search = toUv * max(0.0, receiverM - map.x) / (receiverM * map.x);
  float blockers = 0.0, sumM = 0.0;
  for (int i = 0; i < TAPS; i++) {
    vec2 tap = tapAt(i, s) * search;
    float stored = mapDepth(tile, ivec2(floor((uv + tap) * float(tileSize))));
    float storedM = mapMetres(stored, map);
    if (stored >= depth || receiverM - storedM < gapM) continue;
    blockers += 1.0;
    sumM += storedM;
  }
  float near = gapM > 0.0 ? mapNear(tile, uv, depth, receiverM, gapM, map) : 1.0;
  if (blockers == 0.0 || near == 0.0) return near;
  float blockerM = sumM / blockers;
  float radius = toUv * max(0.0, receiverM - blockerM) / (receiverM * blockerM);
  float lit = 0.0;
  for (int i = 0; i < TAPS; i++) {
    vec2 tap = tapAt(i, s) * radius;
    float stored = mapDepth(tile, ivec2(floor((uv + tap) * float(tileSize))));
    lit += stored < depth && receiverM - mapMetres(stored, map) >= gapM ? 0.0 : 1.0;
  }
  return near * lit / float(TAPS);
}

// gapM: blockers nearer than this to the receiver are not blurred.
float mapPass(int s, vec3 x, float blurM, float gapM) {
  vec4 map = sampleAt(s, SAMPLE_MAP);
  if (map.w == 0.0) return 1.0;
  vec4 p = vec4(x, 1.0);
  float w = dot(sampleAt(s, SAMPLE_CLIP_W), p);
  if (w <= map.x) return 1.0;
  vec2 ndc = vec2(dot(sampleAt(s, SAMPLE_CLIP_X), p), dot(sampleAt(s, SAMPLE_CLIP_Y), p)) / w;
  if (max(abs(ndc.x), abs(ndc.y)) >= 1.0) return 1.0;
  // Behind the casters' sphere everything is as far as its far side.
  float depth = min(1.0, dot(sampleAt(s, SAMPLE_CLIP_Z), p) / w * 0.5 + 0.5);
  ivec2 tile = ivec2(s % ATLAS_SIDE, s / ATLAS_SIDE);
  vec2 uv = ndc * 0.5 + 0.5;
  return blurM > 0.0 ? mapFiltered(s, tile, uv, depth, w, blurM, gapM, map) : mapCompare(tile, uv, depth);
}
