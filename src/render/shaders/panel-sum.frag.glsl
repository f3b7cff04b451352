// Of each place of the sitters: what all of the metal panels' virtual points throw on it if nothing stands in the way; twin:
// addGlossy in src/bounce/panels.ts.
#define VIRTUAL_POINTS
uniform sampler2D placePositions;
uniform sampler2D placeNormals;
uniform sampler2D points;
uniform int pointCount;
out vec4 light;

// Records without what a shadow map needs: panel-sum.ts.
vec4 litAt(int list, int s, int column) {
  return listed(points, s * PANEL_POINT_STRIDE + (column < LIT_STRIDE ? column : column - SAMPLE_GLOSSY + LIT_STRIDE));
}

//#include emission
//#include visibility
//#include arrival

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec3 position = texelFetch(placePositions, pixel, 0).xyz, normal = texelFetch(placeNormals, pixel, 0).xyz;
  vec3 sum = vec3(0.0);
  for (int s = 0; s < pointCount; s++) sum += arrivalOf(0, s, position, normal, normal, 0.0).irradiance;
  light = vec4(sum, 1.0);
}
