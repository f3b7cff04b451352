// Out of the frame of a head into the room. Twin: Carriage in src/figure/types.ts, and what src/figure/pose.ts makes of it.
struct Carriage {
  vec3 pivot;
  vec3 at;
  vec3 head;
  vec3 body;
};

// Turned about an axis, whose length is the angle.
vec3 turnedBy(vec3 by, vec3 v) {
  float angle = length(by);
  if (angle < 1e-6) return v;
  vec3 axis = by / angle;
  float c = cos(angle);
  return v * c + cross(axis, v) * sin(angle) + axis * dot(axis, v) * (1.0 - c);
}

vec3 carryDirection(Carriage carriage, float headWeight, vec3 v) {
  return turnedBy(carriage.body, turnedBy(carriage.head * headWeight, v));
}

vec3 carryPoint(Carriage carriage, float headWeight, vec3 p) {
  vec3 onBody = carriage.pivot + turnedBy(carriage.head * headWeight, p - carriage.pivot);
  return carriage.at + turnedBy(carriage.body, onBody);
}
