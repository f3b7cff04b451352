// Every stride-th pixel of a layer, from the middle of its square.
uniform sampler2D layer;
uniform int stride;
out vec4 value;

void main() {
  value = texelFetch(layer, ivec2(gl_FragCoord.xy) * stride + stride / 2, 0);
}
