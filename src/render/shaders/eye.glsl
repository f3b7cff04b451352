// An eyeball's frame in the world, from its row of the object table, and the light on the iris behind its cornea.
const float MM = 1000.0;

struct Ball {
  vec3 centre;
  // World to the ball's own axes.
  mat3 toLocal;
  vec3 irisColour;
};

Ball ballAt(int object) {
  vec4 centre = record(objects, object, OBJECT_CENTRE), sight = record(objects, object, OBJECT_HALF_U),
       up = record(objects, object, OBJECT_HALF_V);
  return Ball(centre.xyz, transpose(mat3(cross(up.xyz, sight.xyz), up.xyz, sight.xyz)), vec3(centre.w, sight.w, up.w));
}

vec3 onBall(Ball ball, vec3 world) {
  return ball.toLocal * (world - ball.centre) * MM;
}

// How much of what the pixel shows lies behind the clear cornea.
float clearOf(Ball ball, vec3 world) {
  vec3 p = onBall(ball, world);
  return p.z > 0.0 ? clearAt(length(p.xy)) : 0.0;
}

// The place of the iris that shows through the cornea's point, of unit normal and with the eye in a direction: all world.
vec3 irisSeen(Ball ball, vec3 world, vec3 normal, vec3 toEye) {
  return irisBehind(onBall(ball, world), ball.toLocal * normal, ball.toLocal * -toEye);
}
