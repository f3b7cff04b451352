// What vertices carry to the pixels: bounced irradiance of a sitter's vertices, and evenness (see evenness.frag.glsl); or instead
// light of metal panels, which stands by place as evenness does (see panel-sum.frag.glsl).
uniform mat4 worldToClip;
uniform sampler2D vertexBounce;
uniform sampler2D ofPlaces;
uniform bool hasBounce;
uniform bool isOfPanels;
uniform int firstPlace;
in vec3 position;
out vec4 vCarried;
#ifdef FIGURE
// Between three places.
in vec3 corners;
in vec3 weights;
#endif
#ifdef STRAND
uniform vec3 eye;
uniform sampler2D objects;
//#include carriage
//#include strand
in float object;
// Vertex of the skin whose light it takes.
in float root;
#endif

vec3 atPlace(int place) {
  return listed(ofPlaces, place).rgb;
}

#ifdef HAIR
in vec3 grain;
out vec3 vGrain;
#endif

// Both passes must cover the same pixels.
invariant gl_Position;

void main() {
#ifdef HAIR
  vGrain = grain;
#endif
#ifdef STRAND
  int lightVertex = int(root + 0.5);
#else
  int lightVertex = gl_VertexID;
#endif
#ifdef FIGURE
  vec3 between = weights.x * atPlace(int(corners.x)) + weights.y * atPlace(int(corners.y)) + weights.z * atPlace(int(corners.z));
  vCarried = isOfPanels ? vec4(between, 1.0) : vec4(hasBounce ? listed(vertexBounce, lightVertex).rgb : vec3(0.0), between.r);
#else
  vCarried = vec4(vec3(0.0), isOfPanels ? 1.0 : atPlace(firstPlace + gl_VertexID).r);
#endif
#ifdef STRAND
  int row = int(object + 0.5);
  vec3 tangent = carriedDirection(row, strand.xyz);
  gl_Position = worldToClip * vec4(strandEdge(carriedPoint(row, position), tangent, eye, worldToClip).xyz, 1.0);
#else
  gl_Position = worldToClip * vec4(position, 1.0);
#endif
}
