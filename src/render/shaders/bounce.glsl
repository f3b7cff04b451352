// Bounced irradiance at a pixel, 1/m²: on sitters as carried by their vertices; on the set, balls and gear bilinear
// between the places of their grids, which lie as solidGrid in rig/solid-grid.ts has them.
vec3 patchAt(int first, int columns, int rows, ivec2 cell, bool isRound) {
  cell.y = clamp(cell.y, 0, rows - 1);
  cell.x = isRound ? (cell.x + columns) % columns : clamp(cell.x, 0, columns - 1);
  return listed(patchBounce, first + cell.y * columns + cell.x).rgb;
}

vec3 gridAt(int first, int columns, int rows, vec2 at, bool isRound) {
  ivec2 base = ivec2(floor(at));
  vec2 f = at - floor(at);
  return mix(mix(patchAt(first, columns, rows, base, isRound), patchAt(first, columns, rows, base + ivec2(1, 0), isRound), f.x),
             mix(patchAt(first, columns, rows, base + ivec2(0, 1), isRound), patchAt(first, columns, rows, base + ivec2(1, 1), isRound), f.x), f.y);
}

// Column and row, a place's own at whole numbers. along, up, aside: in half axes.
vec2 flatPlace(float along, float up, int columns, int rows) {
  return (vec2(along, up) * 0.5 + 0.5) * vec2(columns, rows) - 0.5;
}

vec2 roundPlace(vec3 direction, int columns, int rows) {
  vec3 n = normalize(direction);
  float turn = atan(n.z, n.x) / (2.0 * PI);
  return vec2((turn < 0.0 ? turn + 1.0 : turn) * float(columns), acos(clamp(-n.y, -1.0, 1.0)) / PI * float(rows - 1));
}

// Where a sheet stands on the grid, the places of its other side say nothing of this one's light.
vec2 onOwnSide(vec2 at, int object) {
  vec4 sheet = record(objects, object, OBJECT_ACROSS);
  if (sheet.w == 0.0) return at;
  bool isAcrossColumns = sheet.z > 0.0;
  vec2 way = isAcrossColumns ? at : at.yx;
  vec2 span = record(objects, object, OBJECT_ABOVE).xy;
  if (way.y < span.x || way.y > span.y) return at;
  way.x = way.x < sheet.x ? min(way.x, sheet.y) : max(way.x, sheet.y + 1.0);
  return isAcrossColumns ? way : way.yx;
}

vec3 bounceAt(Seen seen, ivec2 pixel) {
  if (seen.kind == IS_FIGURE) return texelFetch(carried, pixel, 0).rgb;
  vec4 centre = record(objects, seen.object, OBJECT_CENTRE);
  vec4 halfU = record(objects, seen.object, OBJECT_HALF_U);
  vec4 halfV = record(objects, seen.object, OBJECT_HALF_V);
  bool isRound = centre.w < 0.0;
  int columns = int(abs(centre.w) + 0.5), rows = int(halfU.w + 0.5), first = int(halfV.w + 0.5);
  if (columns == 0) return vec3(0.0);
  vec3 from = seen.position - centre.xyz;
  float squared = dot(halfU.xyz, halfU.xyz);
  float along = dot(from, halfU.xyz) / squared, up = dot(from, halfV.xyz) / dot(halfV.xyz, halfV.xyz);
  float aside = dot(from, cross(halfU.xyz, normalize(halfV.xyz))) / squared;
  vec2 at = isRound ? roundPlace(vec3(along, up, aside), columns, rows)
                    : onOwnSide(flatPlace(along, up, columns, rows), seen.object);
  return gridAt(first, columns, rows, at, isRound);
}
