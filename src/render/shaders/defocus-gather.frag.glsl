// The discs that reach a pixel, from places on a sunflower about it. What stands before what is here lies over it, by the share that its
// discs cover; what stands behind spreads no farther than what is here does itself, or sharp outlines would be eaten by their ground.
uniform sampler2D discs;
uniform sampler2D tiles;
uniform float tile;
uniform int display;
uniform vec3 keep;
uniform vec2 size;
out vec4 shown;

//#include display

const float GOLDEN_ANGLE = 2.399963;
/** A disc is at least a pixel. */
const float LEAST_RADIUS = 0.5641896;
/** From a pixel's middle, what is surely within it. */
const float INSIDE = 0.45;
/** Discs that differ by less are of one thing, pixels. */
const float APART = 0.5;
const int MOST = 256;

float reachAt(ivec2 pixel) {
  ivec2 middle = pixel / int(tile);
  ivec2 last = textureSize(tiles, 0) - 1;
  float most = 0.0;
  for (int y = -1; y <= 1; y++)
    for (int x = -1; x <= 1; x++) most = max(most, texelFetch(tiles, clamp(middle + ivec2(x, y), ivec2(0), last), 0).r);
  return most;
}

vec3 defocused(ivec2 pixel) {
  vec4 own = texelFetch(discs, pixel, 0);
  float reach = reachAt(pixel);
  if (reach < LEAST_RADIUS) return own.rgb;
  int count = clamp(int(1.5 * reach * reach), 12, MOST);
  // Each place stands for that much of the disc, over π.
  float each = reach * reach / float(count);
  float ownRadius = max(abs(own.a), LEAST_RADIUS);
  vec3 front = vec3(0.0), rest = own.rgb / (ownRadius * ownRadius) * (LEAST_RADIUS * LEAST_RADIUS);
  float cover = 0.0, restCover = LEAST_RADIUS * LEAST_RADIUS / (ownRadius * ownRadius);
  ivec2 last = textureSize(discs, 0) - 1;
  for (int i = 0; i < MOST; i++) {
    if (i >= count) break;
    float away = reach * sqrt((float(i) + 0.5) / float(count));
    float turn = GOLDEN_ANGLE * float(i);
    vec4 other = texelFetch(discs, clamp(ivec2(gl_FragCoord.xy + away * vec2(cos(turn), sin(turn))), ivec2(0), last), 0);
    bool isBefore = other.a < own.a - APART;
    float drawn = isBefore ? abs(other.a) : min(abs(other.a), abs(own.a));
    float radius = max(drawn, LEAST_RADIUS);
    // A soft rim of a pixel, so that few places draw no rings; what is sharp stays in its own pixel.
    float rim = clamp((max(drawn, INSIDE) - away) / clamp(drawn - INSIDE, 0.02, 1.0) + 0.5, 0.0, 1.0);
    float weight = each / (radius * radius) * rim;
    if (isBefore) {
      front += weight * other.rgb;
      cover += weight;
    } else {
      rest += weight * other.rgb;
      restCover += weight;
    }
  }
  vec3 behind = rest / restCover;
  return cover > 0.0 ? mix(behind, front / cover, min(1.0, cover)) : behind;
}

void main() {
  if (dot(keep, vec3(2.0 * gl_FragCoord.xy / size - 1.0, 1.0)) < 0.0) discard;
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec3 linear = defocused(pixel);
  shown = vec4(display == DISPLAY_LINEAR ? linear : dithered(displayed(linear, display), pixel), 1.0);
}
