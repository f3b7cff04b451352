// Position and object; shading and flat normal; coat: the three textures that every later pass reads.
uniform vec3 eye;
#ifdef EYE
uniform sampler2D objects;
#endif
in vec3 vPosition;
in vec3 vNormal;
in vec4 vCoat;
#ifdef HAIR
in vec3 vCombed;
in vec2 vGrain;
#endif
#ifdef SKIN
in vec3 vRest;
#endif
flat in float vObject;
#ifdef STRAND
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

#ifdef HAIR
//#include grain
#endif

#ifdef SKIN
//#include skinRelief
#endif

#ifdef EYE
//#include eyeOptics
//#include eye

// The white reddens away from the iris, towards the corners.
const vec3 CORNER = vec3(0.95, 0.84, 0.83);

vec3 eyeCoat(vec3 white, vec3 n, vec3 toEye, float footprintMm) {
  Ball ball = ballAt(int(vObject + 0.5));
  vec3 p = onBall(ball, vPosition);
  vec3 sclera = white * mix(vec3(1.0), CORNER, p.z < 0.0 ? 1.0 : smoothstep(7.0, 11.5, length(p.xy)));
  float clear = clearOf(ball, vPosition);
  if (clear == 0.0) return sclera;
  vec3 q = irisSeen(ball, vPosition, n, toEye);
  return mix(sclera, ball.irisColour * irisTone(q.xy, footprintMm), clear);
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
    vec3 grain = hairGrain(vGrain, grainFootprintMm);
    // No deeper where the surface turns away: what shows of it must not face the other way.
    vec2 slope = grain.xy * smoothstep(0.0, 0.35, dot(n, normalize(towards)));
    combed = normalize(combed);
    n = normalize(n + slope.x * cross(n, combed) + slope.y * combed);
    combed = normalize(combed - n * dot(combed, n));
    gCoat.rgb *= grain.z;
    flatNormal = combed;
  }
#endif
#ifdef SKIN
  float reliefFootprintMm = 1000.0 * max(length(dFdx(vRest)), length(dFdy(vRest)));
  // No deeper where the skin turns away, as of hair.
  n = normalize(n + skinRelief(1000.0 * vRest, reliefFootprintMm) * smoothstep(0.0, 0.35, dot(n, normalize(towards))));
#endif
  gNormals = vec4(octahedral(n), octahedral(flatNormal));
#ifdef EYE
  float footprintMm = MM * max(length(dFdx(vPosition)), length(dFdy(vPosition)));
  gCoat.rgb = eyeCoat(vCoat.rgb, n, normalize(towards), footprintMm);
#endif
}
