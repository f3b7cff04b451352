// The sitters again, carrying each vertex's bounced irradiance of one source instead of a colour.
uniform mat4 worldToClip;
uniform sampler2D vertexBounce;
in vec3 position;
out vec3 vBounce;

void main() {
  vBounce = listed(vertexBounce, gl_VertexID).rgb;
  gl_Position = worldToClip * vec4(position, 1.0);
}
