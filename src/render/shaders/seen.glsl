// What a pixel sees, unpacked from the G-buffer, and how it scatters light.
struct Seen {
  vec3 position;
  vec3 normal;
  vec3 flatNormal;
  vec3 toEye;
  vec4 coat;
  int object;
  int kind;
  int source;
  float f0;
  Film film;
  bool isEye;
  bool isHair;
  bool isSkin;
  vec3 strand;
  // Of hair, per band: what of its gloss shows past the locks beside it, as its tone tells, in the colour that strands give it.
  vec3 open;
  // By which its matt body is lit, the facet that must look to the light as well, and how far strands face other ways.
  vec3 matt;
  vec3 facet;
  float spread;
#ifdef TOGETHER
  // Luminance of a lit face itself, per 1 cd·s.
  vec3 emitted;
#endif
};

vec3 fromOctahedral(vec2 e) {
  vec3 n = vec3(e, 1.0 - abs(e.x) - abs(e.y));
  if (n.z < 0.0) n.xy = (1.0 - abs(n.yx)) * vec2(n.x >= 0.0 ? 1.0 : -1.0, n.y >= 0.0 ? 1.0 : -1.0);
  return normalize(n);
}

float hairOpen(float painted, float reflectance) {
  // Twin: hairOpen in src/photometry/hair.ts.
  return 0.5 * min(1.8, painted / (0.72 * reflectance));
}

vec3 hairGlossTint(vec3 reflectance) {
  // Twin: hairGlossTint in src/photometry/hair.ts.
  return mix(vec3(1.0), reflectance / max(reflectance.r, max(reflectance.g, reflectance.b)), 0.5);
}

Seen seenAt(ivec2 pixel) {
  Seen seen;
  vec4 place = texelFetch(gPosition, pixel, 0);
  seen.object = int(place.w + 0.5);
  if (seen.object == 0) return seen;
  vec4 normals = texelFetch(gNormals, pixel, 0);
  vec4 kind = record(objects, seen.object, OBJECT_KIND);
  seen.position = place.xyz;
  seen.normal = fromOctahedral(normals.xy);
  seen.flatNormal = fromOctahedral(normals.zw);
  seen.toEye = normalize(eye - place.xyz);
  seen.coat = texelFetch(gCoat, pixel, 0);
  seen.kind = int(kind.x + 0.5);
  seen.f0 = kind.y;
  seen.source = int(floor(kind.z + 0.5));
  seen.isEye = kind.w > 0.5 && kind.w < 1.5;
  seen.isHair = kind.w < -1.5;
  seen.isSkin = kind.w > 1.5;
  // Of hair the strand stands in the place of the flat normal.
  seen.strand = seen.flatNormal;
  seen.open = vec3(1.0);
  if (seen.isHair) {
    seen.flatNormal = seen.normal;
    vec3 hair = record(objects, seen.object, OBJECT_HAIR).rgb;
    seen.open = hairOpen(seen.coat.g, hair.g) * hairGlossTint(hair);
  }
  // Facets of a sitter are finer than their light; skin and eyes keep their matt body's normal in that place.
  bool isSitter = seen.kind == IS_FIGURE;
  seen.matt = isSitter && kind.w > 0.5 ? seen.flatNormal : seen.normal;
  seen.spread = seen.isHair ? STRAND_SPREAD : 0.0;
  seen.facet = isSitter ? seen.matt : seen.flatNormal;
#ifdef TOGETHER
  seen.emitted = seen.kind == IS_EMISSIVE ? seen.coat.rgb : vec3(0.0);
#endif
  if (seen.kind == IS_EMISSIVE && seen.source != source) {
    // In another source's light a lit face is the cloth on which it lies.
    seen.kind = IS_OTHER;
    seen.coat = vec4(vec3(kind.y), min(kind.w, 0.0));
    seen.f0 = 0.0;
  }
  seen.film = NO_FILM;
  if (seen.coat.a > 0.0 && !seen.isEye) seen.film = filmOf(seen.f0, seen.coat.a);
  return seen;
}

// Reflected radiance per irradiance, 1/sr. Matt: albedo/π. Skin: the same plus F·D·G/(4 cos cos), Schlick's F. Hair: likewise,
// by the strand and not by the normal. Metal:
// F·D·G/(4 cos cos), RGB being F: F0 at every angle, as in the meter and at bounce's points (silver rises near grazing only). An eye's gloss is left to mirror.glsl.
vec3 mattOf(Seen seen) {
  return seen.coat.a < 0.0 ? vec3(0.0) : seen.coat.rgb / PI;
}

float leavesFilm(Seen seen) {
  // A smoothed normal may turn away at an outline, by about as much as its triangle does not.
  return filmPass(seen.film, abs(dot(seen.normal, seen.toEye)));
}

// The same under the film, of light that has entered it: as much enters of diffuse light as the division puts back.
vec3 mattUnder(Seen seen) {
  return mattOf(seen) * (leavesFilm(seen) / filmPassDiffuse(seen.film));
}

bool isGlossy(Seen seen) {
  return seen.coat.a != 0.0 && !seen.isEye && dot(seen.normal, seen.toEye) > 0.0;
}

// angularPatch: half the angle under which the receiver sees the patch that a sample stands for; the lobe is widened by
// half of it (the half vector turns half as far), so that few samples show no dots; it shrinks as samples come in.
vec3 glossOf(Seen seen, vec3 towards, float angularPatch) {
  float alpha = seen.coat.a * seen.coat.a;
  float widened = min(1.0, sqrt(alpha * alpha + 0.25 * angularPatch * angularPatch));
  float reflected = seen.isHair ? hairLobe(seen.normal, seen.strand, towards, seen.toEye, widened)
                                : ggx(seen.normal, towards, seen.toEye, widened);
  if (seen.coat.a < 0.0) return reflected * seen.coat.rgb;
  // Cosine of half the angle between two unit vectors: √((1 + cos)/2).
  float away = 1.0 - sqrt(max(0.0, 0.5 + 0.5 * dot(towards, seen.toEye)));
  float squared = away * away;
  return seen.open * (reflected * (seen.f0 + (1.0 - seen.f0) * squared * squared * away));
}
