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
