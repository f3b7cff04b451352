// Where the top is sewn: a furrow between two low ridges, darker, where little light gets in. Of a triangle a few millimetres wide
// only the distance to the seam is kept, which bends little, so the line is as fine as the pixels. Sizes by eye.
const float SEAM_REACH_MM = 40.0;

struct Sewn {
  // Of the surface, to be taken from a unit normal.
  vec3 slope;
  float tone;
};

// The slope of a seam's profile at a distance of it, mm, and by how much it darkens. What is narrower than a pixel spreads over it.
vec2 seamProfile(float mm, float footprintMm) {
  // Twin: seamProfile in src/figure/worn/sewn.ts.
  float furrow = max(0.7, 0.7 * footprintMm), ridge = max(3.2, footprintMm);
  float deep = exp(-mm * mm / (furrow * furrow)), high = exp(-mm * mm / (ridge * ridge));
  float spread = 0.7 / furrow;
  return vec2(2.0 * mm * (0.4 * spread * deep / (furrow * furrow) - 0.22 * high / (ridge * ridge)), 0.2 * spread * deep);
}

// A seam's own slope on the surface: along the gradient of the distance over the screen (Mikkelsen 2010, Bump mapping
// unparametrized surfaces on the GPU).
void addSeam(inout Sewn sewn, float mm, float share, vec3 alongX, vec3 alongY, float size) {
  vec2 change = vec2(dFdx(mm), dFdy(mm));
  vec2 profile = share * seamProfile(mm, length(change));
  sewn.slope += profile.x * (change.x * alongX + change.y * alongY) / (1000.0 * size);
  sewn.tone *= 1.0 - profile.y;
}

Sewn sewnAt(vec4 seams, vec3 position, vec3 n) {
  vec3 dx = dFdx(position), dy = dFdy(position);
  vec3 alongX = cross(dy, n), alongY = cross(n, dx);
  float size = dot(dx, alongX);
  vec3 mm = seams.xyz * SEAM_REACH_MM;
  Sewn sewn = Sewn(vec3(0.0), 1.0);
  if (abs(size) < 1e-12) return sewn;
  addSeam(sewn, mm.x, 1.0, alongX, alongY, size);
  addSeam(sewn, mm.y, seams.w, alongX, alongY, size);
  addSeam(sewn, mm.z, (1.0 - smoothstep(-3.0, 0.0, mm.x)) * (1.0 - smoothstep(-3.0, 0.0, mm.y)), alongX, alongY, size);
  return sewn;
}
