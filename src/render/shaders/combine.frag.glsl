// Layers × weights → exposed linear picture → display. The layers' samplers and their sum are written by recombine.ts,
// since GLSL ES 3.00 has no indexing of samplers.
uniform vec3 weights[LAYERS];
uniform float bouncedOnly;
uniform float exposure;
uniform int display;
#ifdef DARK_BAND
// What flash does not reach, as a line in the picture; there only what burns on is summed.
uniform vec3 steady[LAYERS];
uniform vec3 dark;
uniform vec2 size;
#endif
out vec4 shown;
//#layers

//#include display

// A layer's light, or of its bounced part the luminance alone.
vec3 lightOf(vec4 layer) {
  return mix(layer.rgb, vec3(layer.a), bouncedOnly);
}

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec3 linear = vec3(0.0);
#ifdef DARK_BAND
  bool isDark = dot(dark, vec3(2.0 * gl_FragCoord.xy / size - 1.0, 1.0)) > 0.0;
#endif
//#sum
  linear *= exposure;
  shown = vec4(display == DISPLAY_LINEAR ? linear : dithered(displayed(linear, display), pixel), 1.0);
}
