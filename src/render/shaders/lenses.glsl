// The sitters' glasses, nearest to the eye first. Light that passes a lens is neither bent nor tinted: what its power does to the
// size of the eyes, and the bright rim that it throws on a cheek, are left out.
#ifdef LENSES
layout(std140) uniform Lenses {
  vec4 lensData[MAX_LENSES * LENS_COLUMNS];
};

vec4 lensAt(int row, int column) {
  return lensData[row * LENS_COLUMNS + column];
}

Lens lensOf(int row) {
  vec4 origin = lensAt(row, LENS_ORIGIN), x = lensAt(row, LENS_AXIS_X), y = lensAt(row, LENS_AXIS_Y);
  return Lens(origin.xyz, transpose(mat3(x.xyz, y.xyz, lensAt(row, LENS_AXIS_Z).xyz)), origin.w, vec2(x.w, y.w));
}

bool isCoated(int row) {
  return lensAt(row, LENS_AXIS_Z).w > 0.5;
}

// Farther off, a lens's shadow is a twelfth less light at most, blurred: left out.
const float LENS_SHADOW_M = 0.1;

// Share of the light from p that gets to x through the lenses near x.
float lensesPass(vec3 x, vec3 p) {
  float pass = 1.0;
  for (int i = 0; i < lensCount; i++) {
    vec3 off = lensAt(i, LENS_ORIGIN).xyz - x;
    if (dot(off, off) > LENS_SHADOW_M * LENS_SHADOW_M) continue;
    LensMeet met = meetLens(lensOf(i), x, p);
    if (met.share > 0.0) pass *= 1.0 - lensReflectance(abs(dot(met.normal, normalize(p - x))), isCoated(i));
  }
  return pass;
}
#else
#define lensesPass(x, p) 1.0
#endif
