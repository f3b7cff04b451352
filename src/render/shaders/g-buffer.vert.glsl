// The camera's view of everything that can be seen.
uniform mat4 worldToClip;
in vec3 position;
in vec3 normal;
in vec4 coat;
in float object;
out vec3 vPosition;
out vec3 vNormal;
out vec4 vCoat;
flat out float vObject;

// Both passes must cover the same pixels.
invariant gl_Position;

void main() {
  vPosition = position;
  vNormal = normal;
  vCoat = coat;
  vObject = object;
  gl_Position = worldToClip * vec4(position, 1.0);
}
