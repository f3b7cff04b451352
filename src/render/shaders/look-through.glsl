// What stands before a pixel's place as the eye sees it: the share of its light that the lenses let through, and what they
// mirror of this source and of the set in its light, for as many samples as a batch has.
struct Before {
  float through;
  float glare;
  // Of the set that the source lights.
  vec3 set;
};

#ifdef LENSES
#ifndef VIRTUAL_POINTS
// Share of the batch's light that gets to a place of a lens past heads, gear and walls: as of an eye's catchlight, for the
// mirrored part of a face the whole stands in.
float litShare(vec3 position, vec3 normal, uint hidden) {
  float unshadowed = 0.0, passed = 0.0;
  for (int s = 0; s < sampleCount; s++) {
    Arrival a = arrivalOf(MAPPED, s, position, normal, normal, 0.0);
    if (a.irradiance <= 0.0) continue;
    unshadowed += a.irradiance;
    passed += a.irradiance * passOf(IS_FIGURE, position, normal, s, a, hidden);
  }
  return unshadowed > 0.0 ? passed / unshadowed : 0.0;
}
#endif

Before lookThrough(vec3 place) {
  Before before = Before(1.0, 0.0, vec3(0.0));
  vec3 ray = normalize(place - eye);
  for (int i = 0; i < lensCount; i++) {
    LensMeet met = meetLens(lensOf(i), eye, place);
    if (met.share <= 0.0) continue;
    vec3 normal = dot(met.normal, ray) > 0.0 ? -met.normal : met.normal;
    float reflectance = lensReflectance(-dot(normal, ray), isCoated(i));
#ifndef VIRTUAL_POINTS
    vec3 at = mix(eye, place, met.share);
    vec3 onwards = reflect(ray, normal);
    int eyeRow = int(lensAt(i, LENS_EYE).x + 0.5);
    if (hasBounce) before.set += before.through * reflectance * float(BATCH) * setTowards(eyeRow, ballAt(eyeRow), onwards);
    float luminance = mirroredFrom(at, onwards);
    if (luminance > 0.0)
      before.glare += before.through * reflectance * luminance * float(BATCH) * litShare(at, normal, mayBeHidden(at, ball, 0));
#endif
    before.through *= 1.0 - reflectance;
  }
  return before;
}
#else
#define lookThrough(place) Before(1.0, 0.0, vec3(0.0))
#endif
