// The camera's view of everything that can be seen.
uniform mat4 worldToClip;
uniform vec3 eye;
in vec3 position;
in vec3 normal;
in vec4 coat;
in float object;
// Of hair, from root to tip; else zero.
in vec3 combed;
in vec2 grain;
out vec3 vPosition;
out vec3 vNormal;
out vec4 vCoat;
out vec3 vCombed;
out vec2 vGrain;
flat out float vObject;

// Both passes must cover the same pixels.
invariant gl_Position;

#ifdef STRAND
//#include strand
in vec4 under;
#endif

void main() {
  vPosition = position;
  vNormal = normal;
  vCoat = coat;
  vCombed = combed;
  vGrain = grain;
  vObject = object;
#ifdef STRAND
  vec4 edge = strandEdge(position, eye, worldToClip);
  vPosition = edge.xyz;
  // A matt strand stays so: on the way from gloss to none a lobe would sharpen.
  if (thread < 0.0) vCoat = vec4(mix(under.rgb, coat.rgb, edge.w), coat.a > 0.0 ? mix(under.a, coat.a, edge.w) : 0.0);
#endif
  gl_Position = worldToClip * vec4(vPosition, 1.0);
}
