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
uniform sampler2D figureBounce;
uniform sampler2D patchBounce;
uniform vec3 eye;
uniform int sampleCount;
uniform int steadyCount;
uniform int occluderCount;
uniform int emitterCount;
uniform int tileSize;
uniform int source;
uniform bool isFirst;
uniform bool hasBounce;
out vec4 sum;

//#include sampleBlock
//#include blocks
//#include emission
//#include seen
//#include visibility
//#include shadowMap
//#include bounce
//#include mirror

const vec3 LUMINANCE = vec3(0.2126, 0.7152, 0.0722);

// Luminance of a sample towards the receiver x, before visibility. An emitter's is the same in all bands; a virtual
// point's is not, and the type is chosen accordingly: Light.
#ifdef VIRTUAL_POINTS
#define Light vec3
vec3 sent(bool steady, int s, vec4 normal, vec4 patchSize, vec3 p, vec3 x, vec3 towards) {
  vec4 matt = litAt(steady, s, SAMPLE_INCIDENT);
  vec3 radiance = matt.rgb;
  for (int i = 0; i < int(matt.w + 0.5); i++) {
    vec3 incident = litAt(steady, s, SAMPLE_GLOSSY + 2 * i).xyz;
    radiance += litAt(steady, s, SAMPLE_GLOSSY + 2 * i + 1).rgb * ggx(normal.xyz, incident, -towards, normal.w);
  }
  return radiance;
}
#else
#define Light float
// The gate as the receiver x looks through it. direction: p to x. An opening is never softened: no point lies outside
// its own, so a blur at the rim would only take light away. That of a cap is blurred by the patch while samples are few.
float gateShare(bool steady, int s, int e, int kind, vec3 p, vec3 x, vec3 direction, float blurM) {
  if (kind == GATE_OPENING)
    return openingPass(litAt(steady, s, SAMPLE_OPENING), litAt(steady, s, SAMPLE_OPENING_FROM), direction);
  vec4 a = emitterAt(e, EMITTER_GATE_A), b = emitterAt(e, EMITTER_GATE_B);
  if (kind == GATE_PAST_CAP) return 1.0 - capCovers(x, p, blurM, a.xyz, b.xyz, a.w, b.w);
  mat3 toLocal = transpose(mat3(emitterAt(e, EMITTER_AXIS_X).xyz, emitterAt(e, EMITTER_AXIS_Y).xyz,
                                emitterAt(e, EMITTER_AXIS_Z).xyz));
  vec3 along = toLocal * direction;
  if (kind == GATE_HONEYCOMB || kind == GATE_CELLS) return gatePass(kind, a, b, vec3(0.0), along);
  return gatePass(kind, a, b, toLocal * (p - emitterAt(e, EMITTER_ORIGIN).xyz), along);
}

float sent(bool steady, int s, vec4 normal, vec4 patchSize, vec3 p, vec3 x, vec3 towards) {
  vec4 incident = litAt(steady, s, SAMPLE_INCIDENT);
  float luminance = lobeLuminance(-dot(normal.xyz, towards), -dot(incident.xyz, towards), incident.w,
                                  litAt(steady, s, SAMPLE_LOBES), litAt(steady, s, SAMPLE_BEAMS));
  int kind = int(patchSize.z + 0.5);
  if (luminance <= 0.0 || kind == GATE_OPEN) return luminance;
  return luminance * gateShare(steady, s, int(normal.w + 0.5), kind, p, x, -towards, patchSize.x);
}
#endif

float ownBlockersPass(int s, int e, vec3 x, vec3 p, vec3 towards, float blurM) {
  vec4 ball = sampleAt(s, SAMPLE_OWN_BALL);
  float along = -dot(ball.xyz, towards);
  if (ball.w > 0.0 && (along <= 0.0 || along * along < ball.w)) return 1.0;
  float pass = 1.0;
  for (int i = 0; i < MAX_BLOCKERS && pass > 0.0; i++) {
    vec4 from = emitterAt(e, EMITTER_BLOCKER0_FROM + 2 * i);
    if (from.w == 0.0) break;
    vec4 to = emitterAt(e, EMITTER_BLOCKER0_TO + 2 * i);
    if (mayCover(vec4(0.5 * (from.xyz + to.xyz), to.w), x, p, blurM))
      pass *= 1.0 - cylinderCovers(x, p, blurM, from.xyz, to.xyz, from.w);
  }
  return pass;
}

// One sample as a receiver meets it: where it is, and the irradiance that it would bring if nothing stood in the way.
struct Arrival {
  vec3 point;
  vec3 towards;
  float perMetre;
  float patchM;
  int emitter;
  Light irradiance;
};

Arrival arrivalOf(bool steady, int s, Seen seen) {
  Arrival a;
  a.irradiance = Light(0.0);
  vec4 point = litAt(steady, s, SAMPLE_POINT);
  vec4 normal = litAt(steady, s, SAMPLE_NORMAL);
  vec3 along = point.xyz - seen.position;
  float squared = dot(along, along);
  a.point = point.xyz;
  a.perMetre = inversesqrt(squared);
  a.towards = along * a.perMetre;
  float cosSeen = dot(seen.normal, a.towards);
  float cosSent = -dot(normal.xyz, a.towards);
  if (min(min(cosSeen, cosSent), dot(seen.flatNormal, a.towards)) <= 0.0) return a;
  vec4 patchSize = litAt(steady, s, SAMPLE_PATCH);
  a.patchM = patchSize.x;
  a.emitter = int(normal.w + 0.5);
  // Of a virtual point: a disc's irradiance on its axis, so that a near one does not burn a spot; a lit point has no disc.
  float share = cosSeen * cosSent * point.w / (squared + patchSize.y / PI);
  a.irradiance = sent(steady, s, normal, patchSize, point.xyz, seen.position, a.towards) * share;
  return a;
}

// Shadows within a sitter's own relief stay sharp; those from farther off are blurred by the patch.
const float RELIEF_M = 0.06;

float passOf(Seen seen, int s, Arrival a) {
  float pass = mapPass(s, seen.position, a.patchM, seen.kind == IS_FIGURE ? RELIEF_M : 0.0);
  if (pass > 0.0) pass *= occludersPass(seen.position, a.point, a.patchM);
#ifndef VIRTUAL_POINTS
  if (pass > 0.0) pass *= ownBlockersPass(s, a.emitter, seen.position, a.point, a.towards, a.patchM);
#endif
  return pass;
}

// Light of the batch. While samples are few, what this batch's points would bring unshadowed is scaled to what a pair of
// batches brings: the cheap half of the estimate is then as even as after 32 samples.
vec3 lightOn(Seen seen) {
  bool glossy = isGlossy(seen);
  Light unshadowed = Light(0.0), passed = Light(0.0);
  vec3 gloss = vec3(0.0);
  for (int s = 0; s < sampleCount; s++) {
    Arrival a = arrivalOf(false, s, seen);
    if (dot(vec3(a.irradiance), vec3(1.0)) <= 0.0) continue;
    unshadowed += a.irradiance;
    Light arrived = a.irradiance * passOf(seen, s, a);
    passed += arrived;
    if (glossy) gloss += arrived * glossOf(seen, a.towards, a.patchM * a.perMetre);
  }
  vec3 light = mattOf(seen) * passed + gloss;
#ifndef VIRTUAL_POINTS
  if (passed == 0.0) return vec3(0.0);
  float mirror = seen.isEye ? mirrored(seen) * float(BATCH) * passed / unshadowed : 0.0;
#ifdef EARLY
  float steady = unshadowed;
  for (int s = 0; s < steadyCount; s++) steady += arrivalOf(true, s, seen).irradiance;
  light *= steady / (float(STEADY_BATCHES) * unshadowed);
#endif
  light += mirror;
#endif
  return light;
}

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  sum = isFirst ? vec4(0.0) : texelFetch(accumulated, pixel, 0);
  Seen seen = seenAt(pixel);
  if (seen.object == 0) return;
#ifdef VIRTUAL_POINTS
  // Patches hold the panels' light already; only the sitters' vertices leave it to the points.
  if (seen.kind != IS_FIGURE) return;
#endif
  if (seen.kind == IS_EMISSIVE) {
    if (seen.source == source) sum.rgb += float(BATCH) * seen.coat.rgb;
    return;
  }
  vec3 light = lightOn(seen);
#ifdef VIRTUAL_POINTS
  sum += vec4(light, dot(light, LUMINANCE));
#else
  vec3 bounced = vec3(0.0);
  if (hasBounce) bounced = bounceAt(seen, pixel) * seen.coat.rgb * (float(BATCH) / PI);
  sum += vec4(light + bounced, dot(bounced, LUMINANCE));
#endif
}
