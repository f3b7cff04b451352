// The yarn of the top. Twin of src/figure/worn/yarn.ts, where the sizes are.
float streaksTone(vec3 placeMm, float footprintMm, float along, float up, float tone, int seed) {
  return reliefScale(placeMm, footprintMm, up, tone, seed, mat3(up / along, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, up / along)).x;
}

float yarnTone(vec3 placeMm, float footprintMm) {
  // Twin: yarnTone in src/figure/worn/yarn.ts.
  return 1.0 + streaksTone(placeMm, footprintMm, 4.0, 1.1, 0.13, 4) + streaksTone(placeMm, footprintMm, 11.0, 2.4, 0.05, 5);
}
