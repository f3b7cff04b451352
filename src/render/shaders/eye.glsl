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

// Where the head of the ball faces.
vec3 aheadOf(int object, Ball ball) {
  vec3 ahead = cross(record(objects, object, OBJECT_ACROSS).xyz, record(objects, object, OBJECT_ABOVE).xyz);
  return ahead * sign(dot(ball.toLocal * ahead, vec3(0.0, 0.0, 1.0)));
}

// A direction or a place from the ball's middle along the axes of its head, x away from the nose.
vec3 onHead(int object, Ball ball, vec3 from) {
  vec3 across = record(objects, object, OBJECT_ACROSS).xyz, above = record(objects, object, OBJECT_ABOVE).xyz;
  return vec3(dot(from, across), dot(from, above), dot(from, aheadOf(object, ball)));
}

// How far the upper and the lower lid have turned up with the eye.
vec2 lidTurns(int object) {
  return vec2(record(objects, object, OBJECT_ACROSS).w, record(objects, object, OBJECT_ABOVE).w);
}

// What the lids leave of the light on a place of the ball.
vec3 lidsOver(int object, Ball ball, vec3 world) {
  vec2 turns = lidTurns(object);
  return lidShade(onHead(object, ball, (world - ball.centre) * MM), turns.x, turns.y, record(objects, object, OBJECT_HAIR).rgb);
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
