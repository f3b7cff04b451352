// The largest disc of a tile's pixels, radius in pixels.
uniform sampler2D discs;
uniform float tile;
out vec4 reach;

void main() {
  ivec2 from = ivec2(gl_FragCoord.xy) * int(tile);
  ivec2 last = min(from + int(tile), textureSize(discs, 0));
  float most = 0.0;
  for (int y = from.y; y < last.y; y++)
    for (int x = from.x; x < last.x; x++) most = max(most, abs(texelFetch(discs, ivec2(x, y), 0).a));
  reach = vec4(most);
}
