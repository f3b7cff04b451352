// One batch of one source: sixteen lit points (or sixteen virtual points of its panels) shade every pixel, and the
// source's settled bounce is added in the same proportion. RGB: light of the source per 1 cd·s in white; A: luminance
// of the part that bounced. Sums, not means: the reader divides by the number of samples.
uniform sampler2D gPosition;
uniform sampler2D gNormals;
uniform sampler2D gCoat;
uniform sampler2D objects;
uniform sampler2D samples;
uniform sampler2D emitters;
uniform sampler2D occluders;
uniform sampler2D shadowMap;
uniform sampler2D accumulated;
uniform sampler2D figureBounce;
uniform sampler2D patchBounce;
uniform vec3 eye;
uniform int sampleCount;
uniform int occluderCount;
uniform int tileSize;
uniform int source;
uniform bool isFirst;
uniform bool filterPatches;
uniform bool hasBounce;
out vec4 sum;

//#include emission
//#include seen
//#include visibility
//#include bounce

const vec3 LUMINANCE = vec3(0.2126, 0.7152, 0.0722);

// From here to main: radiance per irradiance × irradiance of one sample, before visibility.
#ifdef VIRTUAL_POINTS
vec3 sent(int s, vec4 normal, vec3 p, vec3 direction) {
  vec4 matt = record(samples, s, SAMPLE_INCIDENT);
  vec3 radiance = matt.rgb;
  for (int i = 0; i < int(matt.w + 0.5); i++) {
    vec3 incident = record(samples, s, SAMPLE_GLOSSY + 2 * i).xyz;
    radiance += record(samples, s, SAMPLE_GLOSSY + 2 * i + 1).rgb * ggx(normal.xyz, incident, direction, normal.w);
  }
  return radiance;
}
#else
vec3 sent(int s, vec4 normal, vec3 p, vec3 direction) {
  vec3 incident = record(samples, s, SAMPLE_INCIDENT).xyz;
  float luminance = lobeLuminance(normal.xyz, incident, record(samples, s, SAMPLE_STRENGTHS), record(samples, s, SAMPLE_SHAPES), direction);
  if (luminance <= 0.0) return vec3(0.0);
  int e = int(normal.w + 0.5);
  vec3 axisX = record(emitters, e, EMITTER_AXIS_X).xyz;
  vec3 axisY = record(emitters, e, EMITTER_AXIS_Y).xyz;
  vec3 axisZ = record(emitters, e, EMITTER_AXIS_Z).xyz;
  mat3 toLocal = transpose(mat3(axisX, axisY, axisZ));
  vec4 gate = record(emitters, e, EMITTER_GATE);
  vec3 local = toLocal * (p - record(emitters, e, EMITTER_ORIGIN).xyz);
  return vec3(luminance * gatePass(int(gate.x + 0.5), record(emitters, e, EMITTER_GATE_A),
                                   record(emitters, e, EMITTER_GATE_B), local, toLocal * direction));
}
#endif

float ownBlockersPass(int e, vec3 x, vec3 p) {
  for (int i = 0; i < MAX_BLOCKERS; i++) {
    vec4 from = record(emitters, e, EMITTER_BLOCKER0_FROM + 2 * i);
    if (from.w == 0.0) break;
    if (segmentHitsCylinder(p, x, from.xyz, record(emitters, e, EMITTER_BLOCKER0_TO + 2 * i).xyz, from.w)) return 0.0;
  }
  return 1.0;
}

vec3 lightOf(Seen seen, int s) {
  vec4 point = record(samples, s, SAMPLE_POINT);
  vec4 normal = record(samples, s, SAMPLE_NORMAL);
  vec3 along = point.xyz - seen.position;
  float squared = dot(along, along);
  vec3 towards = along * inversesqrt(squared);
  float cosSeen = dot(seen.normal, towards);
  float cosSent = -dot(normal.xyz, towards);
  if (min(cosSeen, cosSent) <= 0.0 || dot(seen.flatNormal, towards) <= 0.0) return vec3(0.0);
  vec3 radiance = sent(s, normal, point.xyz, -towards);
  if (max(radiance.r, max(radiance.g, radiance.b)) <= 0.0) return vec3(0.0);
  vec2 patchSize = record(samples, s, SAMPLE_PATCH).xy;
  float patchM = patchSize.x;
  // The sitter's own shadows are finest as they are; on the set, far behind, each point's silhouette would show.
  float blurM = filterPatches && seen.kind != IS_FIGURE ? patchM : 0.0;
  float pass = mapPass(s, seen.position, blurM);
  if (pass > 0.0) pass *= occludersPass(seen.position, point.xyz, filterPatches ? patchM : 0.0);
#ifndef VIRTUAL_POINTS
  if (pass > 0.0) pass *= ownBlockersPass(int(normal.w + 0.5), seen.position, point.xyz);
#endif
  if (pass <= 0.0) return vec3(0.0);
  // Of a virtual point: a disc's irradiance on its axis, so that a near one does not burn a spot; a lit point has no disc.
  float irradiance = cosSeen * cosSent * point.w / (squared + patchSize.y / PI);
  return radiance * scattered(seen, towards, patchM * inversesqrt(squared)) * (irradiance * pass);
}

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  sum = isFirst ? vec4(0.0) : texelFetch(accumulated, pixel, 0);
  Seen seen = seenAt(pixel);
  if (seen.object == 0) return;
  if (seen.kind == IS_EMISSIVE) {
#ifndef VIRTUAL_POINTS
    if (seen.source == source) sum.rgb += float(BATCH) * seen.coat.rgb;
#endif
    return;
  }
  vec3 light = vec3(0.0);
  for (int s = 0; s < sampleCount; s++) light += lightOf(seen, s);
#ifdef VIRTUAL_POINTS
  sum += vec4(light, dot(light, LUMINANCE));
#else
  vec3 bounced = vec3(0.0);
  if (hasBounce) bounced = bounceAt(seen, pixel) * seen.coat.rgb * (float(BATCH) / PI);
  sum += vec4(light + bounced, dot(bounced, LUMINANCE));
#endif
}
