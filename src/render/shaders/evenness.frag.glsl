// Of each place: what many points of the source bring where nothing hides them, as a multiple of what the batch's own
// sixteen bring. A quotient near one, so that it may be interpolated over metres of wall.
uniform sampler2D placePositions;
uniform sampler2D placeNormals;
uniform mat4 worldToClip;
uniform vec3 eye;
uniform int figurePlaces;
uniform int fewCount;
uniform int manyCount;
// Do the pixels count the source's own dish and body themselves?
uniform bool isOwnCounted;
// 1 while samples are few, then less: in a half shadow a quotient of sums is off by some per cent for good, and where many
// batches have been summed there is little left to even out.
uniform float trust;
layout(std140) uniform Even {
  vec4 evenData[EVEN_ROWS * LIT_STRIDE];
};
out vec4 evenness;

vec4 litAt(int list, int s, int column) {
  return evenData[(list + s) * LIT_STRIDE + column];
}

//#include emitterBlock
//#include emission
//#include visibility
//#include arrival

// How the source's own dish and body are counted: not at all, exactly, or for the sitters as a whole, as the pixels do
// while samples are few.
const int OWN_LEFT_OUT = 0, OWN_EXACT = 1, OWN_AS_A_WHOLE = 2;

struct Brought {
  float light;
  // Past the source's own dish and body.
  float pastOwn;
  // If all of it fell in squarely and no gate were in its way.
  float squarely;
};

Brought broughtBy(int first, int count, vec3 position, vec3 normal, int own) {
  Brought sum = Brought(0.0, 0.0, 0.0);
  for (int s = 0; s < count; s++) {
    Arrival a = arrivalOf(first, s, position, normal, normal, 0.0);
    if (a.ungated <= 0.0) continue;
    sum.squarely += a.ungated / dot(normal, a.towards);
    sum.light += a.irradiance;
    float pass = own == OWN_AS_A_WHOLE ? a.ownShare : 1.0;
    if (own == OWN_EXACT && a.irradiance > 0.0 && ownBlocked(a.emitter, position, a.point, a.towards)) pass = 0.0;
    sum.pastOwn += pass * a.irradiance;
  }
  return sum;
}

// A place next to one that shows counts too: as far off as a cell of the set, or a little round a sitter's outline.
const float NEAR_M = 0.36, NEAR_COSINE = 0.35;

bool mayShow(vec3 position, vec3 normal) {
  vec4 clip = worldToClip * vec4(position, 1.0);
  vec2 margin = NEAR_M * vec2(length(vec3(worldToClip[0].x, worldToClip[1].x, worldToClip[2].x)),
                              length(vec3(worldToClip[0].y, worldToClip[1].y, worldToClip[2].y)));
  return all(lessThan(abs(clip.xy), max(clip.w, 0.0) + margin)) &&
         dot(normal, normalize(eye - position)) > -NEAR_COSINE;
}

// Light that only grazes a place, or only just gets past a gate, says little: there a quotient fades to one.
const float SLIGHT = 0.05, MOST = 4.0;

float quotient(float of, float by, float slight) {
  return (of + slight) / (by + slight);
}

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  evenness = vec4(1.0);
  vec3 position = texelFetch(placePositions, pixel, 0).xyz, normal = texelFetch(placeNormals, pixel, 0).xyz;
  if (trust == 0.0 || !mayShow(position, normal)) return;
  // Places of the set lie too far apart for the edges that a dish's shadow has once the pixels count it.
  bool isFigure = pixel.y * 1024 + pixel.x < figurePlaces;
  Brought few = broughtBy(0, fewCount, position, normal, !isFigure ? OWN_LEFT_OUT : isOwnCounted ? OWN_EXACT : OWN_AS_A_WHOLE);
  if (few.pastOwn <= 0.0) return;
  Brought many = broughtBy(fewCount, manyCount, position, normal, isFigure || !isOwnCounted ? OWN_EXACT : OWN_LEFT_OUT);
  float light = quotient(many.light, few.light, SLIGHT * few.squarely);
  float own = many.light > 0.0 ? many.pastOwn / many.light : 1.0;
  if (isFigure) own = quotient(own, few.pastOwn / few.light, SLIGHT);
  evenness = vec4(mix(1.0, min(light * own, MOST), trust));
}
