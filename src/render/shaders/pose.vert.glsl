// Vertices of one sitter, from the frame of the head into the room: kept, not drawn.
//#include carriage
uniform vec3 pivot;
uniform vec3 at;
uniform vec3 head;
uniform vec3 body;
in vec3 position;
in vec3 normal;
in vec3 combed;
in float headWeight;
out vec3 posedPosition;
out vec3 posedNormal;
out vec3 posedCombed;

void main() {
  Carriage carriage = Carriage(pivot, at, head, body);
  posedPosition = carryPoint(carriage, headWeight, position);
  posedNormal = carryDirection(carriage, headWeight, normal);
  posedCombed = carryDirection(carriage, headWeight, combed);
  gl_Position = vec4(0.0, 0.0, 0.0, 1.0);
  gl_PointSize = 1.0;
}
