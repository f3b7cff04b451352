// What a wet eye or a lens mirrors of this source: the luminance of its faces where the mirrored ray meets them, per 1 cd·s in
// white. Layout of a face map: face-map.ts.
float faceTexel(int e, ivec2 at) {
  if (min(at.x, at.y) < 0 || max(at.x, at.y) >= FACE_MAP) return 0.0;
  return texelFetch(faceMaps, ivec2(at.x, e * FACE_MAP + at.y), 0).r;
}

float faceLuminance(int e, vec2 uv) {
  vec2 at = (uv * 0.5 + 0.5) * float(FACE_MAP) - 0.5;
  ivec2 base = ivec2(floor(at));
  vec2 f = at - floor(at);
  return mix(mix(faceTexel(e, base), faceTexel(e, base + ivec2(1, 0)), f.x),
             mix(faceTexel(e, base + ivec2(0, 1)), faceTexel(e, base + ivec2(1, 1)), f.x), f.y);
}

// ray: unit, from a place of the mirror.
float faceOn(int e, vec3 position, vec3 ray) {
  vec4 face = emitterAt(e, EMITTER_FACE);
  if (face.z == 0.0) return 0.0;
  vec3 axisZ = emitterAt(e, EMITTER_AXIS_Z).xyz;
  vec3 from = position - emitterAt(e, EMITTER_ORIGIN).xyz;
  float height = dot(from, axisZ), fall = dot(ray, axisZ);
  if (height <= 0.0 || fall >= 0.0) return 0.0;
  vec3 at = from - ray * (height / fall);
  vec2 uv = vec2(dot(at, emitterAt(e, EMITTER_AXIS_X).xyz), dot(at, emitterAt(e, EMITTER_AXIS_Y).xyz)) / face.xy;
  return faceLuminance(e, uv);
}

float mirroredFrom(vec3 position, vec3 ray) {
  float luminance = 0.0;
#ifdef SKY
  // All round, it has no face to map.
  luminance = overcastPass(ray.y);
#endif
  for (int e = 0; e < emitterCount; e++) luminance += faceOn(e, position, ray);
  return luminance;
}

// Share of the light from where it mirrors that it throws to the eye: Schlick's.
float mirrorsAt(Seen seen) {
  float cosine = max(0.0, dot(seen.normal, seen.toEye));
  return seen.f0 + (1.0 - seen.f0) * pow(1.0 - cosine, 5.0);
}

// What a wet eye mirrors, past what hides the samples of each source. passed: what of them passed, unshadowed: what they would bring.
#ifdef TOGETHER
vec3 mirrored(Seen seen, float passed[MAX_SOURCES], float unshadowed[MAX_SOURCES]) {
  vec3 luminance = vec3(0.0);
  for (int e = 0; e < emitterCount; e++) {
    vec4 tint = emitterAt(e, EMITTER_TINT);
    int of = int(tint.w);
    if (passed[of] > 0.0)
      luminance += tint.rgb * (emitterAt(e, EMITTER_FACE).w * faceOn(e, seen.position, reflect(-seen.toEye, seen.normal)) *
                               passed[of] / unshadowed[of]);
  }
  return luminance * mirrorsAt(seen);
}
#else
float mirrored(Seen seen, float passed, float unshadowed) {
  if (passed <= 0.0) return 0.0;
  return mirroredFrom(seen.position, reflect(-seen.toEye, seen.normal)) * mirrorsAt(seen) * passed / unshadowed;
}
#endif
