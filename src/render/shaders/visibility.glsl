// What stands between a receiver x and a lit point p: shadow map for the sitters, closed forms for flat and round things.
// half: half the side of the patch that p stands for, m; 0 asks for the hard edge.
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

float rectangleCovers(vec3 x, vec3 p, float half_, vec3 centre, vec4 u, vec4 v) {
  float t = planeShare(x, p, centre, cross(u.xyz, v.xyz));
  if (t < 0.0) return 0.0;
  vec3 hit = mix(x, p, t) - centre;
  float width = 2.0 * half_ * t;
  return covered(u.w - abs(dot(hit, u.xyz)) / u.w, width) * covered(v.w - abs(dot(hit, v.xyz)) / v.w, width);
}

float discCovers(vec3 x, vec3 p, float half_, vec3 centre, vec4 normal) {
  float t = planeShare(x, p, centre, normal.xyz);
  if (t < 0.0) return 0.0;
  return covered(normal.w - length(mix(x, p, t) - centre), 2.0 * half_ * t);
}

float ballCovers(vec3 x, vec3 p, float half_, vec4 ball) {
  vec3 along = p - x;
  float t = dot(ball.xyz - x, along) / dot(along, along);
  if (t <= 0.0 || t >= 1.0) return 0.0;
  // A point of the ball itself is shaded by its own horizon.
  if (abs(length(x - ball.xyz) - ball.w) < END_M + 1e-3 * ball.w) return 0.0;
  return covered(ball.w - length(x + along * t - ball.xyz), 2.0 * half_ * t);
}

float occluderCovers(int row, vec3 x, vec3 p, float half_) {
  vec4 kind = record(occluders, row, OCCLUDER_KIND);
  int shape = int(kind.x + 0.5);
  vec4 a = record(occluders, row, OCCLUDER_A);
  if (shape == SHAPE_BALL) return ballCovers(x, p, half_, a);
  vec4 b = record(occluders, row, OCCLUDER_B);
  if (shape == SHAPE_RECTANGLE) return rectangleCovers(x, p, half_, a.xyz, b, record(occluders, row, OCCLUDER_C));
  if (shape == SHAPE_DISC) return discCovers(x, p, half_, a.xyz, b);
  vec3 along = normalize(p - x) * END_M;
  if (shape == SHAPE_CYLINDER) return segmentHitsCylinder(x + along, p - along, a.xyz, b.xyz, a.w) ? 1.0 : 0.0;
  return segmentHitsCap(x + along, p - along, a.xyz, b.xyz, 2.0 * a.w, b.w) ? 1.0 : 0.0;
}

float occludersPass(vec3 x, vec3 p, float half_) {
  float pass = 1.0;
  for (int i = 0; i < occluderCount && pass > 0.0; i++) pass *= 1.0 - occluderCovers(i, x, p, half_);
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

// Percentage-closer soft shadow of the sample's own patch: blockers' mean distance, then their blur's width (Fernando 2005).
float mapFiltered(int s, ivec2 tile, vec2 uv, float depth, float receiverM, float half_, vec4 map) {
  float toUv = half_ / (2.0 * map.z);
  float search = toUv * max(0.0, receiverM - map.x) / (receiverM * map.x);
  float blockers = 0.0, sumM = 0.0;
  vec2 shift = fract(vec2(s) * vec2(0.7548776662, 0.5698402910)) - 0.5;
  for (int i = 0; i < 16; i++) {
    vec2 tap = (vec2(i & 3, i >> 2) - 1.5 + shift) * 0.5 * search;
    float stored = mapDepth(tile, ivec2(floor((uv + tap) * float(tileSize))));
    if (stored < depth) {
      blockers += 1.0;
      sumM += map.x * map.y / (map.y - stored * (map.y - map.x));
    }
  }
  if (blockers == 0.0) return 1.0;
  float blockerM = sumM / blockers;
  float radius = toUv * max(0.0, receiverM - blockerM) / (receiverM * blockerM);
  float lit = 0.0;
  for (int i = 0; i < 16; i++) {
    vec2 tap = (vec2(i & 3, i >> 2) - 1.5 + shift) * 0.5 * radius;
    lit += mapCompare(tile, uv + tap, depth);
  }
  return lit / 16.0;
}

float mapPass(int s, vec3 x, float half_) {
  vec4 map = record(samples, s, SAMPLE_MAP);
  if (map.w == 0.0) return 1.0;
  vec4 p = vec4(x, 1.0);
  float w = dot(record(samples, s, SAMPLE_CLIP_W), p);
  if (w <= map.x) return 1.0;
  vec2 ndc = vec2(dot(record(samples, s, SAMPLE_CLIP_X), p), dot(record(samples, s, SAMPLE_CLIP_Y), p)) / w;
  if (max(abs(ndc.x), abs(ndc.y)) >= 1.0) return 1.0;
  // Behind the casters' sphere everything is as far as its far side.
  float depth = min(1.0, dot(record(samples, s, SAMPLE_CLIP_Z), p) / w * 0.5 + 0.5);
  ivec2 tile = ivec2(s % ATLAS_SIDE, s / ATLAS_SIDE);
  vec2 uv = ndc * 0.5 + 0.5;
  return half_ > 0.0 ? mapFiltered(s, tile, uv, depth, w, half_, map) : mapCompare(tile, uv, depth);
}
