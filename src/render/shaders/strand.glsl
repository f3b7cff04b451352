// A strand is a ribbon that faces the camera. Thinner than a pixel it would break up into dots: it is drawn a little wider
// than one, and shares it with the skin at its root by its own width.
uniform float widthPx;
in vec4 strand;
const float LEAST_PX = 0.55;

// At an edge of the ribbon about a point of its middle line; w: the strand's share of what is drawn.
vec4 strandEdge(vec3 middle, vec3 eye, mat4 worldToClip) {
  vec3 across = vec3(worldToClip[0].x, worldToClip[1].x, worldToClip[2].x);
  float pixelM = 2.0 * (worldToClip * vec4(middle, 1.0)).w / (length(across) * widthPx);
  float own = abs(strand.w), drawn = max(own, LEAST_PX * pixelM);
  vec3 aside = cross(strand.xyz, eye - middle);
  return vec4(middle + aside * (sign(strand.w) * drawn / max(length(aside), 1e-6)), own / drawn);
}
