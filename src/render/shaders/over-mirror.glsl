// Light over the set's mirror, unfolded: lit points stay where they are, and what they light stands where the mirror shows it.
// Twins: mirrorMeets and reflectedPoint in src/rig/mirror.ts (tests/browser/mirror-twin.test.ts). x: such an image; its own place is imageOf(x) again.
#ifdef OVER_MIRROR
uniform vec3 mirrorCentre;
uniform vec3 mirrorNormal;
// Half edges over their squares, with their lengths.
uniform vec4 mirrorU;
uniform vec4 mirrorV;
// Reflectance of each side; black: no mirror.
uniform vec3 mirrorFront;
uniform vec3 mirrorBack;
// Occluders that are not the source's own gear: that is in its emission on the way to the mirror, and in the way from there.
uniform int otherOccluders;

vec3 turned(vec3 direction) {
  return direction - 2.0 * dot(direction, mirrorNormal) * mirrorNormal;
}

vec3 imageOf(vec3 place) {
  return place - 2.0 * dot(place - mirrorCentre, mirrorNormal) * mirrorNormal;
}

Seen imageSeen(Seen seen) {
  seen.position = imageOf(seen.position);
  seen.normal = turned(seen.normal);
  seen.flatNormal = turned(seen.flatNormal);
  seen.toEye = turned(seen.toEye);
  seen.strand = turned(seen.strand);
  seen.matt = turned(seen.matt);
  seen.facet = turned(seen.facet);
  return seen;
}

vec3 mirrorSide(vec3 place) {
  return dot(place - mirrorCentre, mirrorNormal) > 0.0 ? mirrorFront : mirrorBack;
}

// Does the mirror show the lit point? Its outline is softened as any edge is.
float mirrorPass(vec3 x, vec3 p, float blurM) {
  return rectangleCovers(x, p, blurM, mirrorCentre, mirrorU, mirrorV, mirrorNormal);
}

vec3 mirrorMeets(vec3 x, vec3 p) {
  return mix(x, p, clamp(planeShare(x, p, mirrorCentre, mirrorNormal), 0.0, 1.0));
}
#endif
