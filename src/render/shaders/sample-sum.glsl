// What the mapped samples bring.
struct Sum {
#if defined(EYES) && defined(TOGETHER)
  // By source.
  float unshadowed[MAX_SOURCES];
  float passed[MAX_SOURCES];
#elif defined(EYES)
  Light unshadowed;
  Light passed;
#endif
  // Under the film.
  Tinted entered;
#ifdef SCATTER
  // Of what would enter if nothing stood in the way: as it is, and by band as each sample's place of the skin counts.
  Tinted open;
  vec3 openByBand;
  vec3 enteredByBand;
#endif
  vec3 gloss;
#ifdef SUMMED
  // What the points bring that the place faces, in luminance, and what of it shows, past the film.
  float before;
  float open;
#endif
};

#ifdef SCATTER
// The skin's two axes at a pixel, zero off it: shadows are asked for where the light of a sample comes in.
struct Around {
  vec3 u;
  vec3 v;
  vec3 lift;
};

Around aroundOf(Seen seen) {
  if (!seen.isSkin) return Around(vec3(0.0), vec3(0.0), vec3(0.0));
  vec3 u = normalize(cross(seen.matt, abs(seen.matt.y) < 0.9 ? vec3(0.0, 1.0, 0.0) : vec3(1.0, 0.0, 0.0)));
  // Off a hollow's other side.
  return Around(u, cross(seen.matt, u), 0.15 * seen.matt);
}
#endif

// passes: of occludedPasses. While samples are few, the source's own dish and body are counted for the sitters as a whole,
// sample by sample, and put right with the evenness.
#ifdef SCATTER
void addSample(int s, Seen seen, bool glossy, uvec4 passes, Around around, inout Sum sum) {
#else
void addSample(int s, Seen seen, bool glossy, uvec4 passes, inout Sum sum) {
#endif
  if (s >= sampleCount) return;
  Arrival a = arrivalOf(MAPPED, s, seen.position, seen.matt, seen.facet, seen.spread);
#ifdef TOGETHER
  // A lit face is in its own light already.
  if (seen.emitted.g > 0.0 && sourceOf(MAPPED, s) == seen.source) return;
#endif
#ifdef OVER_MIRROR
  a.irradiance *= mirrorPass(seen.position, a.point, a.patchM);
#elif !defined(VIRTUAL_POINTS) && defined(EARLY)
  if (seen.kind == IS_FIGURE) a.irradiance *= a.ownShare;
#endif
  if (dot(vec3(a.irradiance), vec3(1.0)) <= 0.0) return;
#if !defined(VIRTUAL_POINTS) && (!defined(EARLY) || defined(OVER_MIRROR))
  if (ownBlocked(a.emitter, seen.position, a.point, a.towards)) return;
#endif
#if defined(EYES) && defined(TOGETHER)
  sum.unshadowed[sourceOf(MAPPED, s)] += a.irradiance;
#elif defined(EYES)
  sum.unshadowed += a.irradiance;
#endif
#ifdef SUMMED
  float brings = dot(a.irradiance, LUMINANCE);
  sum.before += brings;
#endif
  float enters = filmPass(seen.film, dot(seen.normal, a.towards));
  vec3 from = seen.isHair ? seen.position + INTO_HAIR_M * seen.matt : seen.position;
#ifdef SCATTER
  vec3 aside = litAt(MAPPED, s, SAMPLE_SCATTER).xyz, share = litAt(MAPPED, s, SAMPLE_SCATTER_SHARE).rgb;
  from += around.u * aside.x + around.v * aside.y + around.lift * aside.z;
  Tinted entering = tinted(a.irradiance * enters, MAPPED, s);
  sum.open += entering;
  sum.openByBand += share * entering;
#endif
  float hidden = occludedPass(passes, s);
  if (hidden == 0.0) return;
  float pass = hidden * sittersPass(seen.kind, from, seen.matt, s, a);
#ifdef SUMMED
  sum.open += brings * pass * enters;
  if (glossy) sum.gloss += brings * pass * glossOf(seen, a.towards, a.patchM * a.perMetre);
#else
  Light passed = a.irradiance * pass;
#if defined(EYES) && defined(TOGETHER)
  sum.passed[sourceOf(MAPPED, s)] += passed;
#elif defined(EYES)
  sum.passed += passed;
#endif
  Tinted arrived = tinted(passed, MAPPED, s);
  sum.entered += arrived * enters;
#ifdef SCATTER
  sum.enteredByBand += share * (arrived * enters);
#endif
  if (glossy) sum.gloss += arrived * glossOf(seen, a.towards, a.patchM * a.perMetre);
#endif
}
