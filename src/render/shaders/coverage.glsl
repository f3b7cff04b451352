// Of what is thinner than a pixel every look shows all or nothing, so often that the mean over looks is its share. Twin:
// coverage.ts.
uniform float lookShift;

// Ordered thresholds of 4 × 4 pixels (Bayer 1973), from 0 to 1, moved on by a shift.
float thresholdAt(ivec2 pixel, float shift) {
  int x = pixel.x & 3, y = pixel.y & 3, d = x ^ y;
  int rank = (d & 1) << 3 | (y & 1) << 2 | d & 2 | y >> 1;
  return fract((float(rank) + 0.5) / 16.0 + shift);
}

#ifdef STRAND
flat in float vThread;
in float vShare;

bool isCovered() {
  return thresholdAt(ivec2(gl_FragCoord.xy), vThread + lookShift) < vShare;
}
#elif defined(HAIR)
bool isGrown(float growth, Grain grain) {
  return growth > DENSE || thresholdAt(ivec2(gl_FragCoord.xy), lookShift) < massCover(growth, grain);
}
#endif
