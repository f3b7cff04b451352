// Draws the casters once for each lit point of the batch, each instance into its own tile of the atlas.
//#include sampleBlock
uniform int first;
in vec3 position;
out vec2 vInTile;
#ifdef OVER_MIRROR
uniform vec3 mirrorCentre;
uniform vec3 mirrorNormal;
out float vBehind;
#endif

void main() {
  int s = first + gl_InstanceID;
  vec4 p = vec4(position, 1.0);
#ifdef OVER_MIRROR
  // The casters as the mirror shows them to the lit point: what is not on its side does not show.
  float height = dot(position - mirrorCentre, mirrorNormal);
  p.xyz -= 2.0 * height * mirrorNormal;
  vBehind = height * sign(dot(sampleAt(s - MIRRORED_ROW, SAMPLE_POINT).xyz - mirrorCentre, mirrorNormal));
#endif
  vec4 clip = vec4(dot(sampleAt(s, SAMPLE_CLIP_X), p), dot(sampleAt(s, SAMPLE_CLIP_Y), p),
                   dot(sampleAt(s, SAMPLE_CLIP_Z), p), dot(sampleAt(s, SAMPLE_CLIP_W), p) + sampleAt(s, SAMPLE_MAP).x);
  vInTile = clip.w > 0.0 ? clip.xy / clip.w : vec2(0.0);
  vec2 tile = vec2(s % ATLAS_SIDE, s / ATLAS_SIDE);
  float share = 1.0 / float(ATLAS_SIDE);
  clip.xy = clip.xy * share + clip.w * ((2.0 * tile + 1.0) * share - 1.0);
  gl_Position = clip;
}
