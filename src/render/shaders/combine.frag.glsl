// Layers × weights → exposed linear picture → display. The layers' samplers and their sum are written by recombine.ts,
// since GLSL ES 3.00 has no indexing of samplers.
uniform vec3 weights[LAYERS];
uniform float bouncedOnly;
uniform float exposure;
uniform int display;
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
//#sum
  linear *= exposure;
  shown = vec4(display == DISPLAY_LINEAR ? linear : dithered(displayed(linear, display), pixel), 1.0);
}
