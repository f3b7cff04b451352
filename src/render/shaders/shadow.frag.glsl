// Depth only; what a wide frustum spills over its tile's edge must not land in a neighbour's.
in vec2 vInTile;
#ifdef OVER_MIRROR
in float vBehind;
#endif
out vec4 unused;

void main() {
  if (max(abs(vInTile.x), abs(vInTile.y)) > 1.0) discard;
#ifdef OVER_MIRROR
  if (vBehind < 0.0) discard;
#endif
  unused = vec4(0.0);
}
