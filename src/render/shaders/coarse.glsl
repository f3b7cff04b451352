// The first batch after a change goes by every other pixel both ways of the set: coarse-look.ts. Needs: gPosition, LUMINANCE.
uniform int stride;
uniform sampler2D coarse;
uniform bool hasCoarse;

// The brightest of four neighbours is above the darkest by no more than this share of it: between them light is even.
const float EVEN = 0.03;

// What the coarse look has about a pixel of the set, where that is one thing and evenly lit.
bool isEvenlyLit(ivec2 pixel, int object, out vec4 light) {
  ivec2 low = pixel / 2, high = (pixel + 1) / 2;
  ivec2 corners[4] = ivec2[4](low, ivec2(high.x, low.y), ivec2(low.x, high.y), high);
  if (any(greaterThanEqual(high, textureSize(coarse, 0)))) return false;
  float least = 1e30, most = 0.0;
  light = vec4(0.0);
  for (int i = 0; i < 4; i++) {
    if (int(texelFetch(gPosition, 2 * corners[i], 0).w + 0.5) != object) return false;
    vec4 there = texelFetch(coarse, corners[i], 0);
    float luminance = dot(there.rgb, LUMINANCE);
    least = min(least, luminance);
    most = max(most, luminance);
    light += 0.25 * there;
  }
  return most - least <= EVEN * most;
}
