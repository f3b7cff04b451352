// Position and object; shading and flat normal (of skin and eyes: the normal of the matt body); coat: the three textures that
// every later pass reads.
uniform vec3 eye;
#if defined(EYE) || defined(SKIN)
uniform sampler2D objects;
#endif
in vec3 vPosition;
in vec3 vNormal;
in vec4 vCoat;
#ifdef HAIR
in vec3 vCombed;
#endif
#if defined(HAIR) || defined(SKIN)
in vec3 vGrain;
//#include grain
#endif
#if defined(SKIN) || defined(CLOTH)
in vec3 vRest;
#endif
#ifdef CLOTH
in vec4 vSeams;
#endif
flat in float vObject;
#if defined(STRAND) || defined(HAIR)
//#include coverage
#endif
layout(location = 0) out vec4 gPosition;
layout(location = 1) out vec4 gNormals;
layout(location = 2) out vec4 gCoat;

// Octahedral map (Cigolle et al. 2014): a unit vector in two numbers.
vec2 octahedral(vec3 n) {
  n /= abs(n.x) + abs(n.y) + abs(n.z);
  return n.z >= 0.0 ? n.xy : (1.0 - abs(n.yx)) * vec2(n.x >= 0.0 ? 1.0 : -1.0, n.y >= 0.0 ? 1.0 : -1.0);
}

#if defined(SKIN) || defined(CLOTH)
//#include skinRelief
#endif

#ifdef SKIN
// Mean tone of hair, as locks lie over each other: MEAN_HAIR_TONE in src/photometry/hair.ts.
const float LAID_TONE = 0.72;
// Of the relief of a millimetre, after scattering over one to two: Ma et al. 2007, Rapid acquisition of specular and diffuse normal
// maps, show both side by side; the share by eye.
const float MATT_SHARE = 0.3;
#endif

#ifdef CLOTH
//#include seams
//#include yarn
#endif

#ifdef EYE
//#include eyeOptics
//#include eyeWhite
//#include eye

// Of the moist fold in the corners of an eye, of what lids throw back: as the skin beside it is painted. By eye.
const vec3 FOLD = vec3(0.87, 0.95, 0.95);

struct EyeSeen {
  vec3 coat;
  // By which it is lit as a matt body: of the white that of the ball, for light goes round the cornea's edge inside it.
  vec3 matt;
};

EyeSeen eyeSeen(vec3 white, vec3 n, vec3 toEye, float footprintMm) {
  int object = int(vObject + 0.5);
  Ball ball = ballAt(object);
  vec3 p = onBall(ball, vPosition);
  EyeSeen seen = EyeSeen(white * whiteTint(p, footprintMm), normalize(vPosition - ball.centre));
  float clear = clearOf(ball, vPosition);
  if (clear > 0.0) {
    vec2 q = irisSeen(ball, vPosition, n, toEye).xy;
    seen.coat = mix(seen.coat, ball.irisColour * irisTone(q, footprintMm), clear);
    vec3 irisNormal = normalize(irisNormalAt(q) - vec3(irisSlopes(q, footprintMm), 0.0));
    seen.matt = normalize(mix(seen.matt, transpose(ball.toLocal) * irisNormal, clear));
  }
  seen.coat *= lidsOver(object, ball, vPosition);
  float outwards = sign((ball.toLocal * record(objects, object, OBJECT_ACROSS).xyz).x);
  float fold = foldShare(vec3(outwards * p.x, p.yz));
  seen.coat = mix(seen.coat, FOLD * record(objects, object, OBJECT_HAIR).rgb, fold);
  seen.matt = normalize(mix(seen.matt, aheadOf(object, ball), 0.8 * fold));
  return seen;
}
#endif

void main() {
  vec3 towards = eye - vPosition;
  vec3 n = normalize(vNormal);
#ifdef LIT_FACE
  // A lit face is seen from its lit side only, whichever way its triangles wind.
  if (dot(n, towards) <= 0.0) discard;
#endif
#ifdef STRAND
  if (!isCovered()) discard;
#endif
  vec3 flatNormal = normalize(cross(dFdx(vPosition), dFdy(vPosition)));
  if (dot(flatNormal, towards) < 0.0) flatNormal = -flatNormal;
#ifdef STRAND
  // Lit as the skin under it.
  flatNormal = n;
#endif
  gPosition = vec4(vPosition, vObject);
  gCoat = vCoat;
#ifdef HAIR
  // Of hair the strand, made square to the normal, stands in the place of the flat normal.
  vec3 combed = vCombed - n * dot(vCombed, n);
  bool isHair = dot(combed, combed) > 1e-4;
  float grainFootprintMm = length(vec2(dFdx(vGrain.x), dFdy(vGrain.x)));
  if (isHair) {
    Grain grain = hairGrain(vGrain.xy, grainFootprintMm);
#ifndef STRAND
    if (!isGrown(vGrain.z, grain)) discard;
#endif
    // No deeper where the surface turns away: what shows of it must not face the other way. None where strands part: within a triangle
    // their directions, opposite at its corners, cancel, and the slope would jump.
    vec2 slope = grain.slope * smoothstep(0.0, 0.35, dot(n, normalize(towards))) * smoothstep(0.0, 0.9, length(vCombed));
    combed = normalize(combed);
    n = normalize(n + slope.x * cross(n, combed) + slope.y * combed);
    combed = normalize(combed - n * dot(combed, n));
    gCoat.rgb *= grain.tone;
    flatNormal = combed;
  }
#ifndef STRAND
  // Where strands part their directions cancel. What is lit as hair has one along the surface, or its lobe has no number.
  else flatNormal = normalize(cross(n, abs(n.y) < 0.9 ? vec3(0.0, 1.0, 0.0) : vec3(1.0, 0.0, 0.0)));
#endif
#endif
#ifdef SKIN
  float reliefFootprintMm = 1000.0 * max(length(dFdx(vRest)), length(dFdy(vRest)));
  // No deeper where the skin turns away, as of hair.
  vec3 relief = skinRelief(1000.0 * vRest, reliefFootprintMm) * smoothstep(0.0, 0.35, dot(n, normalize(towards)));
  // What comes back out of skin has gone some way in it, and forgotten most of its relief.
  flatNormal = normalize(n + MATT_SHARE * relief);
  n = normalize(n + relief);
  // What throws back all has nothing in it that could take light.
  vec3 square = gCoat.rgb * gCoat.rgb;
  gCoat.rgb *= mix(vec3(1.0), skinClouds(1000.0 * vRest, reliefFootprintMm), 1.0 - square * square);
#endif
#ifdef CLOTH
  Sewn sewn = sewnAt(vSeams, vPosition, n);
  n = normalize(n - sewn.slope);
  gCoat.rgb *= sewn.tone * yarnTone(1000.0 * vRest, 1000.0 * max(length(dFdx(vRest)), length(dFdy(vRest))));
#endif
#ifdef SKIN
  // Hair that thins out is painted on; beyond these bounds none grows, or the mass of hair hides it.
  float growthFootprintMm = length(vec2(dFdx(vGrain.x), dFdy(vGrain.x)));
  if (abs(vGrain.z) < 3.0) {
    Grain grain = hairGrain(vGrain.xy, growthFootprintMm);
    vec3 hair = LAID_TONE * record(objects, int(vObject + 0.5), OBJECT_HAIR).rgb * grain.tone;
    float cover = hairCover(vGrain.z, grain);
    // What the streaks leave bare lies in the shade of all hairs about it, those too fine to be drawn as well. By eye.
    float shade = mix(1.0, 0.5, smoothstep(-1.0, 0.7, vGrain.z));
    gCoat.rgb = mix(gCoat.rgb * shade, hair, cover);
    // Among hairs, and the down before them, there is no smooth film that could shine.
    if (gCoat.a > 0.0) gCoat.a = mix(gCoat.a, max(gCoat.a, 0.65), smoothstep(-1.8, 0.0, vGrain.z));
    // A hair laid on skin has a lobe along it that the skin's own would only grey.
    if (cover > 0.5) gCoat.a = 0.0;
  }
#endif
#ifdef EYE
  float footprintMm = MM * max(length(dFdx(vPosition)), length(dFdy(vPosition)));
  EyeSeen seen = eyeSeen(vCoat.rgb, n, normalize(towards), footprintMm);
  gCoat.rgb = seen.coat;
  flatNormal = seen.matt;
#endif
  gNormals = vec4(octahedral(n), octahedral(flatNormal));
}
