#if defined(EYES) && !defined(OVER_MIRROR)
// Of what a smooth film mirrors, at a distance from the axis: over the white it lies on uneven skin, which breaks the image up. By eye.
float filmOver(float fromAxis) {
  return mix(1.0, 0.25, smoothstep(5.6, 6.5, fromAxis));
}

// What the samples bring to the place of the iris that the pixel shows, bent by the cornea where they enter.
Light onIris(Seen seen, Ball ball, bool isHidden) {
  vec3 q = irisSeen(ball, seen.position, seen.normal, seen.toEye), irisNormal = ball.toLocal * seen.matt;
  mat3 toWorld = transpose(ball.toLocal);
  vec3 world = ball.centre + toWorld * q / MM;
  Light sum = Light(0.0);
  for (int s = 0; s < sampleCount; s++) {
    Entry entry = entryTo(q, ball.toLocal * normalize(litAt(MAPPED, s, SAMPLE_POINT).xyz - world), irisNormal);
    if (entry.share == 0.0) continue;
    vec3 at = ball.centre + toWorld * entry.at / MM, normal = toWorld * entry.normal;
    Arrival a = arrivalOf(MAPPED, s, at, normal, normal);
#if !defined(VIRTUAL_POINTS) && defined(EARLY)
    a.irradiance *= a.ownShare;
#endif
    if (dot(vec3(a.irradiance), vec3(1.0)) <= 0.0) continue;
#if !defined(VIRTUAL_POINTS) && !defined(EARLY)
    if (ownBlocked(a.emitter, at, a.point, a.towards)) continue;
#endif
    sum += a.irradiance * entry.share * passOf(seen.kind, at, normal, s, a, isHidden);
  }
  return sum;
}

// Of a unit normal in the eye's frame: its place in the map of what the cornea mirrors, -1 to 1. view: unit, to the eye that looks.
// Twin: eyeMapWay in src/rig/eye-view.ts, whose look comes along the sight.
vec2 eyeMapAt(vec3 normal, vec3 view) {
  vec3 halfway = normalize(reflect(-view, normal) + vec3(0.0, 0.0, 1.0));
  return clamp(halfway.xy / EYE_MAP_REACH, -1.0, 1.0);
}

// Luminance of what shows in the cornea of a set and sitters that the source lights, as settled for bounce, 1/m².
vec3 mirroredSet(Seen seen, Ball ball) {
  vec4 map = record(objects, seen.object, OBJECT_EYE_MAP);
  int cells = int(map.y + 0.5);
  if (cells == 0) return vec3(0.0);
  vec2 at = (eyeMapAt(ball.toLocal * seen.normal, ball.toLocal * seen.toEye) * 0.5 + 0.5) * float(cells) - 0.5;
  vec3 place = onHead(seen.object, ball, (seen.position - ball.centre) * MM);
  vec3 way = onHead(seen.object, ball, reflect(-seen.toEye, seen.normal));
  vec2 turns = lidTurns(seen.object);
  return gridAt(int(map.x + 0.5), cells, cells, at, false) * lidPass(place, way, turns.x, turns.y);
}
#endif
