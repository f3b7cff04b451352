// One batch of one source: sixteen lit points (or sixteen virtual points of its panels) shade every pixel, and the
// source's settled bounce is added in the same proportion. Eyes are left to a program of their own (EYES): the optics of a
// few hundred pixels would slow down all. RGB: light of the source per 1 cd·s in white; A: luminance
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
#ifdef TOGETHER
// Of each source by its index, negative where it is none of them; and how its own luminance counts.
uniform vec4 balls[MAX_SOURCES];
uniform vec3 tints[MAX_SOURCES];
#else
uniform vec4 ball;
#endif
// Bits of the sources in whose light anything but the sitters may stand before them.
uniform int beforeSitters;
uniform float liftM;
uniform bool isFirst;
uniform bool hasBounce;
uniform bool isCarried;
out vec4 sum;

// Light goes some way in skin before it comes out; the first pictures leave that out, as a moving hand waits for them.
#if !defined(EARLY) && !defined(VIRTUAL_POINTS) && !defined(EYES) && !defined(OVER_MIRROR)
#define SCATTER
#endif

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
//#include film
//#include seen
//#include visibility
//#include occluders
//#include overMirror
//#include arrival
//#include shadowMap
//#include bounce
//#include mirror
//#include lens
//#include lenses
#if defined(EYES) || defined(LENSES)
//#include eyeOptics
//#include eyeWhite
//#include eye
//#include eyeMap
#endif

const vec3 LUMINANCE = vec3(0.2126, 0.7152, 0.0722);

// Shadows within a sitter's own relief stay sharp; those from farther off are blurred by the patch.
const float RELIEF_M = 0.06;
// Light gets in between strands: a lock darkens another only from farther above it than this. By eye.
const float INTO_HAIR_M = 0.004;

float sittersPass(int kind, vec3 position, vec3 normal, int s, Arrival a) {
  bool isFigure = kind == IS_FIGURE;
  vec3 from = isFigure ? position + liftM * normal : position;
  float reliefM = isFigure ? RELIEF_M : 0.0;
#ifdef OVER_MIRROR
  vec3 met = mirrorMeets(position, a.point);
  float pass = mapPass(s + MIRRORED_ROW, from, a.patchM, reliefM);
  return pass > 0.0 ? pass * mapPass(s, met, a.patchM, 0.0) * lensesPass(imageOf(position), met) : pass;
#else
  float pass = mapPass(s, from, a.patchM, reliefM);
  return pass > 0.0 ? pass * lensesPass(position, a.point) : pass;
#endif
}

//#include hidden

//#include lookThrough

//#include irisLight

//#include sampleSum

#ifdef SUMMED
// Of what all points of the panels bring, the share that these few say shows; its gloss comes as from them.
void asCarried(ivec2 pixel, inout Sum sum) {
  vec3 share = sum.before > 0.0 ? texelFetch(carried, pixel, 0).rgb / sum.before : vec3(0.0);
  sum.entered = share * sum.open;
  sum.gloss *= share;
}
#endif

// Light of the mapped samples. evenness: what many samples bring unshadowed, as a multiple of what these bring.
vec3 mappedLight(Seen seen, ivec2 pixel, float evenness) {
  bool glossy = isGlossy(seen);
  bool isFigure = seen.kind == IS_FIGURE;
  uint hidden = hiddenFrom(seen.position, isFigure);
  uvec4 passes = hidden != 0u ? occludedPasses(seen.position, hidden, isFigure) : uvec4(~0u);
  Sum sum;
#if defined(EYES) && defined(TOGETHER)
  for (int i = 0; i < MAX_SOURCES; i++) sum.unshadowed[i] = sum.passed[i] = 0.0;
#elif defined(EYES)
  sum.unshadowed = sum.passed = Light(0.0);
#endif
  sum.entered = Tinted(0.0);
  sum.gloss = vec3(0.0);
#ifdef SUMMED
  sum.before = sum.open = 0.0;
#endif
#ifdef SCATTER
  sum.open = Tinted(0.0);
  sum.openByBand = sum.enteredByBand = vec3(0.0);
  Around around = aroundOf(seen);
#define ADD_ONE(s) addSample(s, seen, glossy, passes, around, sum);
#else
#define ADD_ONE(s) addSample(s, seen, glossy, passes, sum);
#endif
#ifdef UNROLLED
  // Written out, what is the same for all pixels is read from constant places: a quarter faster on a graphics card.
  ADD_ONE(0) ADD_ONE(1) ADD_ONE(2) ADD_ONE(3) ADD_ONE(4) ADD_ONE(5) ADD_ONE(6) ADD_ONE(7)
  ADD_ONE(8) ADD_ONE(9) ADD_ONE(10) ADD_ONE(11) ADD_ONE(12) ADD_ONE(13) ADD_ONE(14) ADD_ONE(15)
#else
  for (int s = 0; s < sampleCount; s++) ADD_ONE(s)
#endif
#ifdef SUMMED
  asCarried(pixel, sum);
#endif
#if defined(EYES) && !defined(OVER_MIRROR)
  Ball ball = ballAt(seen.object);
  float clear = clearOf(ball, seen.position);
  if (clear > 0.0) sum.entered = mix(sum.entered, onIris(seen, ball, hidden), clear);
#endif
#ifdef SCATTER
  // Where all samples are in the light every band has the whole of it: what is scattered away comes back from beside.
  vec3 entered = seen.isSkin ? sum.open * sum.enteredByBand / max(sum.openByBand, vec3(1e-30)) : vec3(sum.entered);
  vec3 light = (mattUnder(seen) * entered + sum.gloss) * evenness;
#else
  vec3 light = (mattUnder(seen) * sum.entered + sum.gloss) * evenness;
#endif
#if defined(EYES) && !defined(VIRTUAL_POINTS) && !defined(OVER_MIRROR)
  light += mirrored(seen, sum.passed, sum.unshadowed) * filmOver(length(onBall(ball, seen.position).xy)) * float(BATCH);
#endif
  return light;
}

#ifndef VIRTUAL_POINTS
vec3 openLight(Seen seen) {
  bool glossy = isGlossy(seen);
  vec3 light = vec3(0.0), matt = mattUnder(seen);
  for (int s = 0; s < openCount; s++) {
    Arrival a = arrivalOf(OPEN, s, seen.position, seen.matt, seen.facet, seen.spread);
    if (a.irradiance <= 0.0 || ownBlocked(a.emitter, seen.position, a.point, a.towards)) continue;
#ifdef TOGETHER
    if (seen.emitted.g > 0.0 && sourceOf(OPEN, s) == seen.source) continue;
#endif
    Tinted arrived = tinted(a.irradiance * occludersPass(seen.position, a.point, a.patchM, sourceOf(OPEN, s)), OPEN, s);
    light += arrived * filmPass(seen.film, dot(seen.normal, a.towards)) * matt;
    if (glossy) light += arrived * glossOf(seen, a.towards, a.patchM * a.perMetre);
  }
  return light;
}
#endif

void addMirrored(Before before) {
  sum += vec4(vec3(before.glare) + before.set, dot(before.set, LUMINANCE));
}

//#include coarse
void main() {
  ivec2 pixel = stride * ivec2(gl_FragCoord.xy);
  sum = isFirst ? vec4(0.0) : texelFetch(accumulated, pixel, 0);
  Seen seen = seenAt(pixel);
#ifdef EYES
  if (seen.object == 0 || !seen.isEye) discard;
#else
  if (seen.object == 0 || seen.isEye) return;
#endif
#ifdef OVER_MIRROR
  if (seen.kind == IS_EMISSIVE) return;
#endif
#ifdef VIRTUAL_POINTS
  // Patches hold the panels' light already; only the sitters' vertices leave it to the points.
  if (seen.kind != IS_FIGURE) return;
#endif
#ifdef EARLY
  bool isSet = seen.kind == IS_SURFACE;
  if (stride > 1 && !isSet) return;
  vec4 even;
  if (hasCoarse && isSet && isEvenlyLit(pixel, seen.object, even)) {
    sum += even;
    return;
  }
#endif
  Before before = lookThrough(seen.position);
#ifdef TOGETHER
  if (seen.emitted.g > 0.0) sum.rgb += float(BATCH) * seen.emitted * tints[seen.source] * before.through;
#endif
  if (seen.kind == IS_EMISSIVE) {
    if (seen.source == source) sum.rgb += float(BATCH) * seen.coat.rgb * before.through;
    addMirrored(before);
    return;
  }
#ifdef VIRTUAL_POINTS
  vec3 light = mappedLight(seen, pixel, 1.0) * before.through;
  sum += vec4(light, dot(light, LUMINANCE));
#elif defined(OVER_MIRROR)
  vec3 light = mappedLight(imageSeen(seen), pixel, 1.0) * mirrorSide(seen.position) * before.through;
  sum += vec4(light, dot(light, LUMINANCE));
#else
  // Gear and lit faces carry none; zero where the two passes disagree on a pixel of an outline.
  float evenness = isCarried && seen.source < 0 ? texelFetch(carried, pixel, 0).a : 1.0;
  vec3 light = mappedLight(seen, pixel, evenness > 0.0 ? evenness : 1.0) + openLight(seen);
  vec3 bounced = vec3(0.0);
  if (hasBounce) {
    // Dark hair throws back as much by its strands' gloss: by what they mirror straight on, for grazing ones mirror what is behind.
    vec3 mirrors = seen.isHair ? seen.open * (1.0 - filmPass(seen.film, 1.0)) : vec3(0.0);
    bounced = bounceAt(seen, pixel) * (seen.coat.rgb * leavesFilm(seen) + mirrors) * (float(BATCH) / PI);
#ifdef EYES
    Ball ball = ballAt(seen.object);
    float film = mirrorsAt(seen) * filmOver(length(onBall(ball, seen.position).xy));
    bounced += mirroredSet(seen, ball) * (film * float(BATCH));
#endif
  }
  sum += vec4((light + bounced) * before.through, dot(bounced, LUMINANCE) * before.through);
  addMirrored(before);
#endif
}
