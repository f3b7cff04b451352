// Skin, and hair, as a matt body under a rough film that takes what it mirrors. Twins: filmPass and filmPassDiffuse of
// src/photometry/skinOptics.ts, of which everything but the angle is worked out once.
struct Film {
  // What passes is most less lost times the grazing share of the angle; lost 0: there is no film.
  float most;
  float lost;
  float smoothness;
  float least;
};

const Film NO_FILM = Film(1.0, 0.0, 0.0, 0.0);

Film filmOf(float f0, float roughness) {
  return Film(1.04 - 0.022 * roughness - f0 * (1.04 - 0.572 * roughness), 1.04 * (1.0 - f0), 1.0 - roughness,
              0.0425 - 0.0275 * roughness);
}

float filmPass(Film film, float cosine) {
  if (film.lost == 0.0) return 1.0;
  float s = film.smoothness;
  return film.most - film.lost * (min(s * s, exp2(-9.28 * max(0.0, cosine))) * s + film.least);
}

float filmPassDiffuse(Film film) {
  if (film.lost == 0.0) return 1.0;
  const vec4 at = vec4(0.0694318442, 0.3300094782, 0.6699905218, 0.9305681558);
  const vec4 weight = vec4(0.1739274226, 0.3260725774, 0.3260725774, 0.1739274226);
  float sum = 0.0;
  for (int i = 0; i < 4; i++) sum += 2.0 * weight[i] * at[i] * filmPass(film, at[i]);
  return sum;
}
