// Twin of displayFromLinear and srgbFromLinear (camera/displayTransform.ts): exposed linear → what the screen gets.
float srgb(float linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * pow(linear, 1.0 / 2.4) - 0.055;
}

float shoulder(float x) {
  return x <= SHOULDER_KNEE ? x : SHOULDER_KNEE + (1.0 - SHOULDER_KNEE) * (1.0 - exp((SHOULDER_KNEE - x) / (1.0 - SHOULDER_KNEE)));
}

vec3 displayed(vec3 linear, int display) {
  vec3 c = display == DISPLAY_SHOULDER ? vec3(shoulder(linear.r), shoulder(linear.g), shoulder(linear.b)) : linear;
  c = clamp(c, 0.0, 1.0);
  return vec3(srgb(c.r), srgb(c.g), srgb(c.b));
}

// Twin of ditheredCode in src/camera/dither.ts, for values from 0 to 1 of three bands.
vec3 dithered(vec3 shown, ivec2 pixel) {
  // Twin: hash32 in src/space/sobol.ts.
  uint h = ((uint(pixel.x) ^ 0x9e3779b9u) * 0x85ebca6bu) ^ ((uint(pixel.y) + 0x165667b1u) * 0xc2b2ae35u);
  h = (h ^ (h >> 16)) * 0x7feb352du;
  h = (h ^ (h >> 15)) * 0x846ca68bu;
  h ^= h >> 16;
  uvec3 bits = uvec3(h, h >> 10, h >> 20);
  vec3 noise = vec3((bits & 31u) + ((bits >> 5) & 31u) + 1u) / 32.0 - 1.0;
  vec3 codes = 255.0 * shown;
  return (codes + noise * min(vec3(1.0), min(codes, 255.0 - codes))) / 255.0;
}
