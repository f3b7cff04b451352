// Share of a lit point's patch that a receiver x sees past the sitters, by the point's shadow map.
// Depths here are as stored, d = A·(w - near)/w with w in m along the map's axis: linear in 1/w, as the width of a blur is. So
// neither a blocker's distance nor its blur's width needs a division, and blockers' depths may be averaged as they are.
struct MapView {
  vec2 low;
  vec2 high;
  vec2 at;
};

float mapDepth(MapView view, vec2 at) {
  return texelFetch(shadowMap, ivec2(clamp(at, view.low, view.high)), 0).r;
}

// 2×2 comparison with bilinear weights, as the hardware's compare mode does it. Blocked: from `from` up to `to`.
float mapClear(MapView view, float from, float to) {
  vec2 at = clamp(view.at, view.low, view.high) - 0.5;
  ivec2 base = ivec2(at);
  vec2 f = at - vec2(base);
  vec4 stored = vec4(texelFetch(shadowMap, base, 0).r, texelFetchOffset(shadowMap, base, 0, ivec2(1, 0)).r,
                     texelFetchOffset(shadowMap, base, 0, ivec2(0, 1)).r, texelFetchOffset(shadowMap, base, 0, ivec2(1, 1)).r);
#ifdef EARLY
  vec4 clear = 1.0 - step(from, stored) * (1.0 - step(to, stored));
#else
  vec4 clear = step(to, stored);
#endif
  return mix(mix(clear.x, clear.y, f.x), mix(clear.z, clear.w, f.x), f.y);
}

#ifdef EARLY
// Percentage-closer soft shadow of the sample's own patch: blockers' mean depth, then their blur's width (Fernando 2005).
// Places of the taps: layouts.ts. spread: texels of blur for each unit of depth between blocker and receiver.
float mapFiltered(int s, MapView view, float limit, float depth, float spread) {
  float search = spread * depth;
  float blockers = 0.0, sum = 0.0;
  for (int i = 0; i < SEARCH_TAPS; i += 2) {
    vec4 taps = sampleAt(s, SAMPLE_TAP + i / 2) * search;
    vec2 stored = vec2(mapDepth(view, view.at + taps.xy), mapDepth(view, view.at + taps.zw));
    vec2 blocked = 1.0 - step(limit, stored);
    blockers += blocked.x + blocked.y;
    sum += dot(blocked, stored);
  }
  if (blockers == 0.0) return 1.0;
  float radius = spread * (depth - sum / blockers);
  float lit = 0.0;
  for (int i = 0; i < TAPS; i += 2) {
    vec4 taps = sampleAt(s, SAMPLE_TAP + i / 2) * radius;
    lit += step(limit, mapDepth(view, view.at + taps.xy)) + step(limit, mapDepth(view, view.at + taps.zw));
  }
  return lit / float(TAPS);
}
#endif

// gapM: blockers nearer than this to the receiver are not blurred: on a face they are its own relief, which blurring
// would leak through.
float mapPass(int s, vec3 x, float blurM, float gapM) {
  vec4 map = sampleAt(s, SAMPLE_MAP);
  if (map.x == 0.0) return 1.0;
  vec4 place = vec4(x, 1.0);
  // Past the near plane, not from the point: from the sun the one is a metre, the other a thousand.
  float past = dot(sampleAt(s, SAMPLE_CLIP_W), place);
  if (past <= 0.0) return 1.0;
  float perW = 1.0 / (past + map.x);
  vec2 inTile = vec2(dot(sampleAt(s, SAMPLE_CLIP_X), place), dot(sampleAt(s, SAMPLE_CLIP_Y), place)) * perW;
  if (max(abs(inTile.x), abs(inTile.y)) >= 1.0) return 1.0;
  float depth = map.y * past * perW;
  // Behind the casters' sphere everything is as far as its far side.
  float far = min(1.0, depth);
  float halfTile = 0.5 * float(tileSize);
  vec2 middle = (vec2(s % ATLAS_SIDE, s / ATLAS_SIDE) * 2.0 + 1.0) * halfTile;
  MapView view = MapView(middle - halfTile + 0.5, middle + halfTile - 0.5, middle + inTile * halfTile);
#ifdef EARLY
  float spread = blurM * map.w * halfTile;
  if (gapM == 0.0) return mapFiltered(s, view, far, depth, spread);
  float before = max(past - gapM, 0.0);
  float limit = min(far, map.y * before / (before + map.x));
  float near = mapClear(view, limit, far);
  return near == 0.0 || limit <= 0.0 ? near : near * mapFiltered(s, view, limit, depth, spread);
#else
  return mapClear(view, 0.0, far);
#endif
}
