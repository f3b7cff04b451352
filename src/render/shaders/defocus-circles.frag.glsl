// Twin of blurDiameter (camera/depthOfField.ts): the sharp picture, and in A the radius of each pixel's disc, pixels; negative: nearer
// than the focus. Nothing at all is taken as endlessly far.
uniform sampler2D sharp;
uniform sampler2D places;
uniform vec3 eye;
uniform vec3 axis;
uniform float focus;
uniform float farRadius;
uniform float tile;
out vec4 disc;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec4 place = texelFetch(places, pixel, 0);
  float depth = dot(place.xyz - eye, axis);
  float radius = place.a > 0.5 ? farRadius * (depth - focus) / max(depth, 1e-3) : farRadius;
  disc = vec4(texelFetch(sharp, pixel, 0).rgb, clamp(radius, -tile, tile));
}
