// What of the samples' light gets past flat and round things. Needs: sittersPass.
// hidden: bits of the sources whose light something may hide.
float passOf(int kind, vec3 position, vec3 normal, int s, Arrival a, uint hidden) {
  float pass = sittersPass(kind, position, normal, s, a);
  int of = sourceOf(MAPPED, s);
  return (hidden & (1u << of)) != 0u && pass > 0.0 ? pass * occludersPass(position, a.point, a.patchM, of) : pass;
}

uint hiddenFrom(vec3 x, bool isFigure) {
#ifndef OVER_MIRROR
  if (isFigure && beforeSitters == 0) return 0u;
#endif
#ifdef TOGETHER
  uint bits = 0u;
  for (int i = 0; i < MAX_SOURCES; i++)
    if (balls[i].w >= 0.0 && (!isFigure || (beforeSitters & (1 << i)) != 0)) bits |= mayBeHidden(x, balls[i], i);
  return bits;
#elif defined(OVER_MIRROR)
  return 1u;
#else
  return mayBeHidden(x, ball, 0);
#endif
}

// What of the mapped samples gets past the occluders to x, in steps of 1/255, four a number. Asked before the
// loop over the samples, which holds enough.
uvec4 occludedPasses(vec3 x, uint hidden, bool isFigure) {
  uvec4 passes = uvec4(0u);
  for (int s = 0; s < sampleCount; s++) {
    int of = sourceOf(MAPPED, s);
    bool isClear = (hidden & (1u << of)) == 0u;
#ifndef OVER_MIRROR
    isClear = isClear || (isFigure && sampleAt(s, SAMPLE_SCATTER_SHARE).w == 0.0);
#endif
    if (isClear) {
      passes[s >> 2] |= 255u << (8 * (s & 3));
      continue;
    }
    vec3 p = litAt(MAPPED, s, SAMPLE_POINT).xyz;
    float blurM = litAt(MAPPED, s, SAMPLE_PATCH).x;
#ifdef OVER_MIRROR
    vec3 met = mirrorMeets(x, p);
    float pass = occludersPass(imageOf(x), met, blurM, of);
    if (pass > 0.0) pass *= rowsPass(ivec2(0, otherOccluders), met, p, blurM);
#else
    float pass = occludersPass(x, p, blurM, of);
#endif
    passes[s >> 2] |= uint(pass * 255.0 + 0.5) << (8 * (s & 3));
  }
  return passes;
}

float occludedPass(uvec4 passes, int s) {
  return float((passes[s >> 2] >> (8 * (s & 3))) & 255u) / 255.0;
}
