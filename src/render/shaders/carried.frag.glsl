in vec4 vCarried;
out vec4 carried;
#ifdef HAIR
in vec3 vGrain;
//#include grain
#endif
#if defined(STRAND) || defined(HAIR)
//#include coverage
#endif

void main() {
#ifdef STRAND
  // As in the G-buffer.
  if (!isCovered()) discard;
#endif
#ifdef HAIR
  float footprintMm = length(vec2(dFdx(vGrain.x), dFdy(vGrain.x)));
  if (vGrain.z < DENSE && !isGrown(vGrain.z, hairGrain(vGrain.xy, footprintMm))) discard;
#endif
  carried = vCarried;
}
