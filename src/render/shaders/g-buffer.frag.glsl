// Position and object; shading and flat normal; coat: the three textures that every later pass reads.
uniform vec3 eye;
in vec3 vPosition;
in vec3 vNormal;
in vec4 vCoat;
flat in float vObject;
layout(location = 0) out vec4 gPosition;
layout(location = 1) out vec4 gNormals;
layout(location = 2) out vec4 gCoat;

// Octahedral map (Cigolle et al. 2014): a unit vector in two numbers.
vec2 octahedral(vec3 n) {
  n /= abs(n.x) + abs(n.y) + abs(n.z);
  return n.z >= 0.0 ? n.xy : (1.0 - abs(n.yx)) * vec2(n.x >= 0.0 ? 1.0 : -1.0, n.y >= 0.0 ? 1.0 : -1.0);
}

void main() {
  vec3 towards = eye - vPosition;
  vec3 n = normalize(vNormal);
#ifdef LIT_FACE
  // A lit face is seen from its lit side only, whichever way its triangles wind.
  if (dot(n, towards) <= 0.0) discard;
#endif
  vec3 flatNormal = normalize(cross(dFdx(vPosition), dFdy(vPosition)));
  if (dot(flatNormal, towards) < 0.0) flatNormal = -flatNormal;
  gPosition = vec4(vPosition, vObject);
  gNormals = vec4(octahedral(n), octahedral(flatNormal));
  gCoat = vCoat;
}
