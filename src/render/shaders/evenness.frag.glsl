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

// Irradiance, and what it would be if all light fell in squarely.
// own: 0 left out, 1 counted, 2 for the sitters as a whole, as pixels do while samples are few.
vec2 broughtBy(int first, int count, vec3 position, vec3 normal, int own) {
  vec2 light = vec2(0.0);
  for (int s = 0; s < count; s++) {
    Arrival a = arrivalOf(first, s, position, normal, normal);
    if (a.irradiance <= 0.0) continue;
    if (own == 2) a.irradiance *= a.ownShare;
    if (own == 1 && ownBlocked(a.emitter, position, a.point, a.towards)) continue;
    light += a.irradiance * vec2(1.0, 1.0 / dot(normal, a.towards));
  }
  return light;
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

// Light that only grazes a place says little: there the quotient fades to one.
const float GRAZING = 0.05;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec3 position = texelFetch(placePositions, pixel, 0).xyz, normal = texelFetch(placeNormals, pixel, 0).xyz;
  evenness = vec4(1.0);
  if (!mayShow(position, normal)) return;
  // Places of the set lie too far apart for the edges that a dish's shadow has once the pixels count it.
  bool isFigure = pixel.y * 1024 + pixel.x < figurePlaces;
  vec2 few = broughtBy(0, fewCount, position, normal, isFigure ? (isOwnCounted ? 1 : 2) : 0);
  vec2 many = broughtBy(fewCount, manyCount, position, normal, isFigure || !isOwnCounted ? 1 : 0);
  float grazing = GRAZING * few.y;
  if (few.x > 0.0) evenness = vec4((many.x + grazing) / (few.x + grazing));
}
