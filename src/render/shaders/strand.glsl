// A strand is a ribbon that faces the camera. Thinner than a pixel it would break up into dots: it is drawn a little wider
// than one. Hairs then cover that by their own share, look by look; lines along the skin share it with the skin at their root.
// Hairs that are laid on what is under them do a part of both: they cover it more often, the more mixed with that.
uniform float widthPx;
in vec4 strand;
// Of a hair from 0 to 1, any number of its own, so that hairs do not hide behind each other, 2 more if laid; negative: a line.
in float thread;
flat out float vThread;
out float vShare;
const float LEAST_PX = 0.55, LAID = 2.0, OFTENER = 5.0;

// Strands come in the frame of the head: how far a point follows it. Their carriage (figure/types.ts) is in the object table.
in float headWeight;

Carriage carriageOf(int row) {
  vec4 pivot = record(objects, row, OBJECT_CENTRE), at = record(objects, row, OBJECT_HALF_U),
       head = record(objects, row, OBJECT_HALF_V);
  return Carriage(pivot.xyz, at.xyz, head.xyz, vec3(pivot.w, at.w, head.w));
}

#define carriedPoint(row, p) carryPoint(carriageOf(row), headWeight, p)
#define carriedDirection(row, v) carryDirection(carriageOf(row), headWeight, v)

// At an edge of the ribbon about a point of its middle line; w: the strand's share of what is drawn.
vec4 strandEdge(vec3 middle, vec3 tangent, vec3 eye, mat4 worldToClip) {
  vec3 across = vec3(worldToClip[0].x, worldToClip[1].x, worldToClip[2].x);
  float pixelM = 2.0 * (worldToClip * vec4(middle, 1.0)).w / (length(across) * widthPx);
  float own = abs(strand.w), drawn = max(own, LEAST_PX * pixelM);
  vec3 aside = cross(tangent, eye - middle);
  vThread = thread;
  vShare = thread < 0.0 ? 1.0 : min(1.0, (thread < LAID ? 1.0 : OFTENER) * own / drawn);
  return vec4(middle + aside * (sign(strand.w) * drawn / max(length(aside), 1e-6)), own / drawn);
}
