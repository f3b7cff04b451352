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

// What the lids leave of the light on a place of the ball.
vec3 lidsOver(int object, Ball ball, vec3 world) {
  vec4 across = record(objects, object, OBJECT_ACROSS), above = record(objects, object, OBJECT_ABOVE);
  vec3 from = (world - ball.centre) * MM, ahead = cross(across.xyz, above.xyz);
  float forward = dot(from, ahead) * sign(dot(ball.toLocal * ahead, vec3(0.0, 0.0, 1.0)));
  return lidShade(vec3(dot(from, across.xyz), dot(from, above.xyz), forward), across.w, above.w, record(objects, object, OBJECT_HAIR).rgb);
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
