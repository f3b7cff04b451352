// A lit point as a receiver meets it. Needs: vec4 litAt(int list, int s, int column), the lists being the including shader's.
// Luminance of a sample towards the receiver, before gate and visibility. An emitter's is the same in all bands; a virtual
// point's is not, and the type is chosen accordingly: Light.
#ifdef VIRTUAL_POINTS
#define Light vec3
vec3 sent(int list, int s, vec4 normal, vec3 towards) {
  vec4 matt = litAt(list, s, SAMPLE_INCIDENT);
  vec3 radiance = matt.rgb;
  for (int i = 0; i < int(matt.w + 0.5); i++) {
    vec3 incident = litAt(list, s, SAMPLE_GLOSSY + 2 * i).xyz;
    radiance += litAt(list, s, SAMPLE_GLOSSY + 2 * i + 1).rgb * ggx(normal.xyz, incident, -towards, normal.w);
  }
  return radiance;
}
#else
#define Light float
#ifdef INTENSITIES
// Of a measured lamp: intensities.ts.
uniform sampler2D intensities;
#endif

#if defined(GATES) || defined(INTENSITIES)
mat3 toLocalOf(int e) {
  return transpose(mat3(emitterAt(e, EMITTER_AXIS_X).xyz, emitterAt(e, EMITTER_AXIS_Y).xyz,
                        emitterAt(e, EMITTER_AXIS_Z).xyz));
}
#endif

// Kinds of gates that few sources have. p: of the emitter; direction: to the receiver.
float rareGatePass(int e, int kind, vec3 p, vec3 direction) {
#ifdef INTENSITIES
  if (kind == GATE_INTENSITIES)
    return intensityPass(intensities, emitterAt(e, EMITTER_GATE_A), emitterAt(e, EMITTER_GATE_B),
                         toLocalOf(e) * direction);
#endif
#ifdef GATES
  mat3 toLocal = toLocalOf(e);
  return gatePass(kind, emitterAt(e, EMITTER_GATE_A), emitterAt(e, EMITTER_GATE_B),
                  toLocal * (p - emitterAt(e, EMITTER_ORIGIN).xyz), toLocal * direction);
#else
  return 1.0;
#endif
}

float sent(int list, int s, vec4 normal, vec3 towards) {
  vec4 incident = litAt(list, s, SAMPLE_INCIDENT);
  return lobeLuminance(-dot(normal.xyz, towards), -dot(incident.xyz, towards), incident.w,
                       litAt(list, s, SAMPLE_LOBES), litAt(list, s, SAMPLE_BEAMS));
}

// Does the source's own dish or body stand between x and p? towards: x to p, unit.
bool ownBlocked(int e, vec3 x, vec3 p, vec3 towards) {
  vec4 ball = emitterAt(e, EMITTER_OWN_BALL);
  vec3 from = ball.xyz - p;
  float along = -dot(from, towards);
  if (ball.w == 0.0 || dot(from, from) - along * along > ball.w * ball.w) return false;
  for (int i = 0; i < MAX_BLOCKERS; i++) {
    vec4 start = emitterAt(e, EMITTER_BLOCKER0_FROM + 2 * i);
    if (start.w == 0.0) return false;
    if (segmentHitsCylinder(p, x, start.xyz, emitterAt(e, EMITTER_BLOCKER0_TO + 2 * i).xyz, start.w)) return true;
  }
  return false;
}
#endif

// What arrives, in the colour in which it is drawn.
#if defined(TOGETHER) || defined(VIRTUAL_POINTS)
#define Tinted vec3
#else
#define Tinted float
#endif

// Several sources are drawn as one (TOGETHER): of which one a sample is.
#ifdef TOGETHER
#define sourceOf(list, s) int(litAt(list, s, SAMPLE_TINT).w)
#define tinted(light, list, s) ((light) * litAt(list, s, SAMPLE_TINT).rgb)
#else
#define sourceOf(list, s) 0
#define tinted(light, list, s) (light)
#endif

// Where a sample is, and the irradiance that it would bring if nothing stood in the way.
struct Arrival {
  vec3 point;
  vec3 towards;
  float perMetre;
  float patchM;
  int emitter;
  // Of what it sends to the sitters, the share that the source's own dish and body let through.
  float ownShare;
  // Before its gate, and past it.
  Light ungated;
  Light irradiance;
};

// x: receiver with its shading normal, and the normal of its triangle. spread: of hair, STRAND_SPREAD; else 0.
Arrival arrivalOf(int list, int s, vec3 x, vec3 shading, vec3 flatNormal, float spread) {
  Arrival a;
  a.irradiance = a.ungated = Light(0.0);
  vec4 point = litAt(list, s, SAMPLE_POINT);
  vec4 normal = litAt(list, s, SAMPLE_NORMAL);
  vec3 along = point.xyz - x;
  float squared = dot(along, along);
  a.point = point.xyz;
  a.perMetre = inversesqrt(squared);
  a.towards = along * a.perMetre;
  float cosSeen = litCosine(dot(shading, a.towards), spread);
  float cosSent = -dot(normal.xyz, a.towards);
  if (min(min(cosSeen, cosSent), dot(flatNormal, a.towards) + spread) <= 0.0) return a;
  vec4 patchSize = litAt(list, s, SAMPLE_PATCH);
  a.patchM = patchSize.x;
  a.ownShare = patchSize.w;
  a.emitter = int(normal.w + 0.5);
  // Of a virtual point: a disc's irradiance on its axis, so that a near one does not burn a spot; a lit point has no disc.
  float share = cosSeen * cosSent * point.w / (squared + patchSize.y / PI);
  a.ungated = a.irradiance = sent(list, s, normal, a.towards) * share;
#ifndef VIRTUAL_POINTS
  // An opening is never softened: no point lies outside its own, so a blur at the rim would only take light away.
#ifdef EARLY
  float blur = 2.0 * a.patchM;
#else
  float blur = 0.0;
#endif
  a.irradiance *= circlePass(litAt(list, s, SAMPLE_CIRCLE_PLANE), litAt(list, s, SAMPLE_CIRCLE), -a.towards, squared * a.perMetre, blur) *
                  rareGatePass(a.emitter, int(patchSize.z + 0.5), point.xyz, -a.towards);
#endif
  return a;
}
