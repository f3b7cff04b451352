#if defined(EYES) && !defined(OVER_MIRROR)
// Of what a smooth film mirrors, at a distance from the axis: over the white it lies on uneven skin, which breaks the image up. By eye.
float filmOver(float fromAxis) {
  return mix(1.0, 0.25, smoothstep(5.6, 6.5, fromAxis));
}

// What the samples bring to the place of the iris that the pixel shows, bent by the cornea where they enter.
Tinted onIris(Seen seen, Ball ball, uint hidden) {
  vec3 q = irisSeen(ball, seen.position, seen.normal, seen.toEye), irisNormal = ball.toLocal * seen.matt;
  mat3 toWorld = transpose(ball.toLocal);
  vec3 world = ball.centre + toWorld * q / MM;
  Tinted sum = Tinted(0.0);
  for (int s = 0; s < sampleCount; s++) {
    Entry entry = entryTo(q, ball.toLocal * normalize(litAt(MAPPED, s, SAMPLE_POINT).xyz - world), irisNormal);
    if (entry.share == 0.0) continue;
    vec3 at = ball.centre + toWorld * entry.at / MM, normal = toWorld * entry.normal;
    Arrival a = arrivalOf(MAPPED, s, at, normal, normal, 0.0);
#if !defined(VIRTUAL_POINTS) && defined(EARLY)
    a.irradiance *= a.ownShare;
#endif
    if (dot(vec3(a.irradiance), vec3(1.0)) <= 0.0) continue;
#if !defined(VIRTUAL_POINTS) && !defined(EARLY)
    if (ownBlocked(a.emitter, at, a.point, a.towards)) continue;
#endif
    sum += tinted(a.irradiance * entry.share * passOf(seen.kind, at, normal, s, a, hidden), MAPPED, s);
  }
  return sum;
}

// Luminance of what shows in the cornea of a set and sitters that the source lights, 1/m².
vec3 mirroredSet(Seen seen, Ball ball) {
  vec3 way = reflect(-seen.toEye, seen.normal);
  vec3 place = onHead(seen.object, ball, (seen.position - ball.centre) * MM);
  vec2 turns = lidTurns(seen.object);
  return setTowards(seen.object, ball, way) * lidPass(place, onHead(seen.object, ball, way), turns.x, turns.y);
}
#endif
