// One batch of one source: sixteen lit points (or sixteen virtual points of its panels) shade every pixel, and the
// source's settled bounce is added in the same proportion. RGB: light of the source per 1 cd·s in white; A: luminance
// of the part that bounced. Sums, not means: the reader divides by the number of samples.
uniform sampler2D gPosition;
uniform sampler2D gNormals;
uniform sampler2D gCoat;
uniform sampler2D objects;
uniform sampler2D faceMaps;
uniform sampler2D shadowMap;
uniform sampler2D accumulated;
uniform sampler2D carried;
uniform sampler2D patchBounce;
uniform vec3 eye;
uniform int sampleCount;
uniform int openCount;
uniform int occluderCount;
uniform int emitterCount;
uniform int lensCount;
uniform int tileSize;
uniform int source;
// Holds the points of the batch and their patches.
uniform vec4 ball;
uniform bool isFirst;
uniform bool hasBounce;
uniform bool isCarried;
out vec4 sum;

//#include sampleBlock
layout(std140) uniform Open {
  vec4 openData[OPEN_ROWS * LIT_STRIDE];
};

const int MAPPED = 0, OPEN = 1;

vec4 litAt(int list, int s, int column) {
  return list == MAPPED ? sampleAt(s, column) : openData[s * LIT_STRIDE + column];
}

//#include emitterBlock
//#include emission
//#include seen
//#include visibility
//#include occluders
//#include arrival
//#include shadowMap
//#include bounce
//#include mirror
//#include lens
//#include lenses
//#include eyeOptics
//#include eye

// Skin, and hair, as a matt body under a rough film that takes what it mirrors: filmPass, filmPassDiffuse and underFilm of
// photometry/skinOptics.ts, taken apart: what enters from a light, and what leaves to the eye. 1 for what has no film.
float filmPass(float f0, float roughness, float cosine) {
  float from = 1.0 - roughness;
  float a = min(from * from, exp2(-9.28 * max(0.0, cosine))) * from + 0.0425 - 0.0275 * roughness;
  return 1.0 - (f0 * (1.04 - 0.572 * roughness - 1.04 * a) + 1.04 * a - 0.04 + 0.022 * roughness);
}

bool isFilmed(Seen seen) {
  return seen.coat.a > 0.0 && !seen.isEye;
}

float entersFilm(Seen seen, vec3 towards) {
  return isFilmed(seen) ? filmPass(seen.f0, seen.coat.a, dot(seen.normal, towards)) : 1.0;
}

// Of diffuse light as much enters as the division puts back.
float leavesFilm(Seen seen) {
  if (!isFilmed(seen)) return 1.0;
  float cosine = dot(seen.normal, seen.toEye);
  // A smoothed normal may turn away at an outline; its triangle never does.
  return filmPass(seen.f0, seen.coat.a, cosine > 0.0 ? cosine : dot(seen.flatNormal, seen.toEye));
}

float filmPassDiffuse(Seen seen) {
  if (!isFilmed(seen)) return 1.0;
  const vec4 at = vec4(0.0694318442, 0.3300094782, 0.6699905218, 0.9305681558);
  const vec4 weight = vec4(0.1739274226, 0.3260725774, 0.3260725774, 0.1739274226);
  float sum = 0.0;
  for (int i = 0; i < 4; i++) sum += 2.0 * weight[i] * at[i] * filmPass(seen.f0, seen.coat.a, at[i]);
  return sum;
}

const vec3 LUMINANCE = vec3(0.2126, 0.7152, 0.0722);

// By which a place is lit from behind or not: of a sitter, whose facets are finer than their light, the skin's own normal.
vec3 facetOf(Seen seen) {
  return seen.kind == IS_FIGURE ? seen.normal : seen.flatNormal;
}

// Shadows within a sitter's own relief stay sharp; those from farther off are blurred by the patch.
const float RELIEF_M = 0.06;

// Facets of a sitter stand off the skin that their normals tell of: their places are put so far out along those before the
// map is asked, or each that turns from the light before its skin does would show as a dark tooth at the shadow's edge.
const float LIFT_M = 4e-4;

float passOf(int kind, vec3 position, vec3 normal, int s, Arrival a, bool isHidden) {
  bool isFigure = kind == IS_FIGURE;
  float pass = mapPass(s, isFigure ? position + LIFT_M * normal : position, a.patchM, isFigure ? RELIEF_M : 0.0);
  if (pass > 0.0) pass *= lensesPass(position, a.point);
  return isHidden && pass > 0.0 ? pass * occludersPass(position, a.point, a.patchM) : pass;
}

//#include lookThrough

// What the samples bring to the place of the iris that the pixel shows, bent by the cornea where they enter.
Light onIris(Seen seen, Ball ball, bool isHidden) {
  vec3 q = irisSeen(ball, seen.position, seen.normal, seen.toEye);
  mat3 toWorld = transpose(ball.toLocal);
  vec3 world = ball.centre + toWorld * q / MM;
  Light sum = Light(0.0);
  for (int s = 0; s < sampleCount; s++) {
    Entry entry = entryTo(q, ball.toLocal * normalize(litAt(MAPPED, s, SAMPLE_POINT).xyz - world));
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

// Light of the mapped samples. evenness: what many samples bring unshadowed, as a multiple of what these bring. While
// samples are few, the source's own dish and body are counted for the sitters as a whole, sample by sample, and put right
// with the evenness.
vec3 mappedLight(Seen seen, float evenness) {
  bool glossy = isGlossy(seen), isHidden = mayBeHidden(seen.position, ball);
  Light unshadowed = Light(0.0), passed = Light(0.0), entered = Light(0.0);
  vec3 gloss = vec3(0.0);
  for (int s = 0; s < sampleCount; s++) {
    Arrival a = arrivalOf(MAPPED, s, seen.position, seen.normal, facetOf(seen));
#if !defined(VIRTUAL_POINTS) && defined(EARLY)
    if (seen.kind == IS_FIGURE) a.irradiance *= a.ownShare;
#endif
    if (dot(vec3(a.irradiance), vec3(1.0)) <= 0.0) continue;
#if !defined(VIRTUAL_POINTS) && !defined(EARLY)
    if (ownBlocked(a.emitter, seen.position, a.point, a.towards)) continue;
#endif
    unshadowed += a.irradiance;
    Light arrived = a.irradiance * passOf(seen.kind, seen.position, seen.normal, s, a, isHidden);
    passed += arrived;
    entered += arrived * entersFilm(seen, a.towards);
    if (glossy) gloss += arrived * glossOf(seen, a.towards, a.patchM * a.perMetre);
  }
  Light matt = entered;
  if (seen.isEye) {
    Ball ball = ballAt(seen.object);
    float clear = clearOf(ball, seen.position);
    if (clear > 0.0) matt = mix(passed, onIris(seen, ball, isHidden), clear);
  }
  vec3 light = (mattOf(seen) * (leavesFilm(seen) / filmPassDiffuse(seen)) * matt + gloss) * evenness;
#ifndef VIRTUAL_POINTS
  if (seen.isEye && passed > 0.0) light += mirrored(seen) * float(BATCH) * passed / unshadowed;
#endif
  return light;
}

#ifndef VIRTUAL_POINTS
vec3 openLight(Seen seen) {
  bool glossy = isGlossy(seen);
  vec3 light = vec3(0.0), matt = mattOf(seen) * (leavesFilm(seen) / filmPassDiffuse(seen));
  for (int s = 0; s < openCount; s++) {
    Arrival a = arrivalOf(OPEN, s, seen.position, seen.normal, facetOf(seen));
    if (a.irradiance <= 0.0 || ownBlocked(a.emitter, seen.position, a.point, a.towards)) continue;
    float arrived = a.irradiance * occludersPass(seen.position, a.point, a.patchM);
    light += arrived * entersFilm(seen, a.towards) * matt;
    if (glossy) light += arrived * glossOf(seen, a.towards, a.patchM * a.perMetre);
  }
  return light;
}
#endif

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  sum = isFirst ? vec4(0.0) : texelFetch(accumulated, pixel, 0);
  Seen seen = seenAt(pixel);
  if (seen.object == 0) return;
#ifdef VIRTUAL_POINTS
  // Patches hold the panels' light already; only the sitters' vertices leave it to the points.
  if (seen.kind != IS_FIGURE) return;
#endif
  Before before = lookThrough(seen.position);
  if (seen.kind == IS_EMISSIVE) {
    if (seen.source == source) sum.rgb += float(BATCH) * seen.coat.rgb * before.through;
    sum.rgb += before.glare;
    return;
  }
#ifdef VIRTUAL_POINTS
  vec3 light = mappedLight(seen, 1.0) * before.through;
  sum += vec4(light, dot(light, LUMINANCE));
#else
  // Gear and lit faces carry none; zero where the two passes disagree on a pixel of an outline.
  float evenness = isCarried && seen.source < 0 ? texelFetch(carried, pixel, 0).a : 1.0;
  vec3 light = mappedLight(seen, evenness > 0.0 ? evenness : 1.0) + openLight(seen);
  vec3 bounced = vec3(0.0);
  if (hasBounce) bounced = bounceAt(seen, pixel) * seen.coat.rgb * (leavesFilm(seen) * float(BATCH) / PI);
  sum += vec4((light + bounced) * before.through + before.glare, dot(bounced, LUMINANCE) * before.through);
#endif
}
