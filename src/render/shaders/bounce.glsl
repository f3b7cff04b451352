// Bounced irradiance at a pixel, 1/m²: on sitters as drawn by the bounce pass; on the set bilinear between patches;
// on gear and balls, which keep no bounce of their own, the room's mean (entry 0 of the list).
vec3 patchAt(int first, int columns, int rows, ivec2 cell) {
  cell = clamp(cell, ivec2(0), ivec2(columns - 1, rows - 1));
  return listed(patchBounce, 1 + first + cell.y * columns + cell.x).rgb;
}

vec3 bounceAt(Seen seen, ivec2 pixel) {
  if (seen.kind == IS_FIGURE) return texelFetch(figureBounce, pixel, 0).rgb;
  vec3 mean = listed(patchBounce, 0).rgb;
  if (seen.kind != IS_SURFACE) return mean;
  vec4 centre = record(objects, seen.object, OBJECT_CENTRE);
  vec4 halfU = record(objects, seen.object, OBJECT_HALF_U);
  vec4 halfV = record(objects, seen.object, OBJECT_HALF_V);
  int columns = int(centre.w + 0.5), rows = int(halfU.w + 0.5), first = int(halfV.w + 0.5);
  if (columns == 0) return mean;
  vec3 from = seen.position - centre.xyz;
  vec2 uv = vec2(dot(from, halfU.xyz) / dot(halfU.xyz, halfU.xyz), dot(from, halfV.xyz) / dot(halfV.xyz, halfV.xyz));
  vec2 at = (uv * 0.5 + 0.5) * vec2(columns, rows) - 0.5;
  ivec2 base = ivec2(floor(at));
  vec2 f = at - floor(at);
  return mix(mix(patchAt(first, columns, rows, base), patchAt(first, columns, rows, base + ivec2(1, 0)), f.x),
             mix(patchAt(first, columns, rows, base + ivec2(0, 1)), patchAt(first, columns, rows, base + ivec2(1, 1)), f.x), f.y);
}
