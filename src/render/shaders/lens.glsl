// A lens of a pair of glasses: where a straight way passes it, what it mirrors and what it lets through. No uniforms; every
// function names its TypeScript twin in its first line; tests/browser/glsl-twins.test.ts compares them.
const float LENS_POWER = 2.6, LENS_TAPER = 0.1;
// As LEAST_SHARE in the twin.
const float LENS_LEAST_SHARE = 1e-4;

struct Lens {
  vec3 origin;
  // World to the lens's own axes.
  mat3 toLocal;
  float curvature;
  vec2 halfSize;
};

struct LensMeet {
  // Of the way; negative: it passes by.
  float share;
  // On the outer side, world, unit.
  vec3 normal;
};

LensMeet meetLens(Lens lens, vec3 from, vec3 to) {
  // Twin: meetLens in src/figure/glasses/lens.ts.
  vec3 o = lens.toLocal * (from - lens.origin), d = lens.toLocal * (to - from);
  float c = lens.curvature;
  float a = c * dot(d, d), b = c * dot(o, d) + d.z, e = c * dot(o, o) + 2.0 * o.z;
  float inner = b * b - a * e;
  if (inner < 0.0) return LensMeet(-1.0, vec3(0.0));
  float root = sqrt(inner);
  float share = d.z < 0.0 ? e / (root - b) : -e / (root + b);
  vec3 p = o + share * d;
  float v = p.y / lens.halfSize.y;
  float u = p.x / (lens.halfSize.x * (1.0 + LENS_TAPER * v));
  if (!(share > LENS_LEAST_SHARE && share < 1.0) || 1.0 + c * p.z <= 0.0 || abs(v) > 1.0 ||
      pow(abs(u), LENS_POWER) + pow(abs(v), LENS_POWER) > 1.0)
    return LensMeet(-1.0, vec3(0.0));
  return LensMeet(share, transpose(lens.toLocal) * vec3(c * p.xy, 1.0 + c * p.z));
}

float lensReflectance(float cosine, bool isCoated) {
  // Twin: lensReflectance in src/photometry/spectacleLens.ts.
  float surface;
  if (isCoated) {
    surface = 0.005 + 0.995 * pow(1.0 - cosine, 5.0);
  } else {
    float inside = sqrt(1.0 - (1.0 - cosine * cosine) / 2.25);
    float s = (cosine - 1.5 * inside) / (cosine + 1.5 * inside), p = (1.5 * cosine - inside) / (1.5 * cosine + inside);
    surface = 0.5 * (s * s + p * p);
  }
  return 2.0 * surface / (1.0 + surface);
}
