// The yarn of the top. Twin of src/figure/worn/yarn.ts, where the sizes are.
float streaksTone(vec3 placeMm, float footprintMm, float along, float up, float tone, int seed) {
  return reliefScale(placeMm, footprintMm, up, tone, seed, mat3(up / along, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, up / along)).x;
}

float yarnTone(vec3 placeMm, float footprintMm) {
  // Twin: yarnTone in src/figure/worn/yarn.ts.
  return 1.0 + streaksTone(placeMm, footprintMm, 2.4, 0.8, 0.15, 4) + streaksTone(placeMm, footprintMm, 5.5, 1.7, 0.06, 5);
}
