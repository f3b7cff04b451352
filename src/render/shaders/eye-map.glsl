// What a set and sitters that the source lights look like from an eye, as settled for bounce.

// A unit direction in the eye's frame as a place of its map, -1 to 1. Twin: eyeMapWay in src/rig/eye-view.ts.
vec2 eyeMapAt(vec3 way) {
  return clamp(normalize(way + vec3(0.0, 0.0, 1.0)).xy / EYE_MAP_REACH, -1.0, 1.0);
}

// Luminance, 1/m². way: unit, world.
vec3 setTowards(int object, Ball ball, vec3 way) {
  vec4 map = record(objects, object, OBJECT_EYE_MAP);
  int cells = int(map.y + 0.5);
  if (cells == 0) return vec3(0.0);
  vec2 at = (eyeMapAt(ball.toLocal * way) * 0.5 + 0.5) * float(cells) - 0.5;
  return gridAt(int(map.x + 0.5), cells, cells, at, false);
}
