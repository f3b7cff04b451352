// The camera's view of everything that can be seen.
uniform mat4 worldToClip;
uniform vec3 eye;
in vec3 position;
in vec3 normal;
in vec4 coat;
in float object;
#ifdef HAIR
// From root to tip; zero: no hair after all.
in vec3 combed;
out vec3 vCombed;
#endif
#if defined(HAIR) || defined(SKIN)
// Across the strands and along them, mm; and how far they have thinned out.
in vec3 grain;
out vec3 vGrain;
#endif
#if defined(SKIN) || defined(CLOTH)
// Place before any pose, metres.
in vec3 rest;
out vec3 vRest;
#endif
#ifdef CLOTH
// As in src/figure/sculpt/garment.ts.
in vec4 seams;
out vec4 vSeams;
#endif
out vec3 vPosition;
out vec3 vNormal;
out vec4 vCoat;
flat out float vObject;

// Both passes must cover the same pixels.
invariant gl_Position;

#ifdef STRAND
uniform sampler2D objects;
//#include carriage
//#include strand
in vec4 under;
#endif

void main() {
  vPosition = position;
  vNormal = normal;
  vCoat = coat;
#ifdef HAIR
  vCombed = combed;
#endif
#if defined(HAIR) || defined(SKIN)
  vGrain = grain;
#endif
#if defined(SKIN) || defined(CLOTH)
  vRest = rest;
#endif
#ifdef CLOTH
  vSeams = seams;
#endif
  vObject = object;
#ifdef STRAND
  int row = int(object + 0.5);
  vec4 edge = strandEdge(carriedPoint(row, position), carriedDirection(row, strand.xyz), eye, worldToClip);
  vPosition = edge.xyz;
  vNormal = carriedDirection(row, normal);
#ifdef HAIR
  vCombed = carriedDirection(row, combed);
#endif
  // Of laid hairs the gloss is their own: even few of them break that of the skin. A matt line stays so: on the way from gloss to none a
  // lobe would sharpen.
  if (thread >= LAID) vCoat = vec4(mix(under.rgb, coat.rgb, edge.w / vShare), coat.a);
  if (thread < 0.0) vCoat = vec4(mix(under.rgb, coat.rgb, edge.w), coat.a > 0.0 ? mix(under.a, coat.a, edge.w) : 0.0);
#endif
  gl_Position = worldToClip * vec4(vPosition, 1.0);
#ifdef LIT_FACE
  // Sun and sky stand beyond the far plane, and behind all else.
  gl_Position.z = min(gl_Position.z, 0.99999 * gl_Position.w);
#endif
}
