// Uniform blocks: what every pixel reads alike, beyond the 224 plain uniforms that WebGL2 promises.
layout(std140) uniform Samples {
  vec4 sampleData[BATCH * SAMPLE_STRIDE];
};

vec4 sampleAt(int s, int column) {
  return sampleData[s * SAMPLE_STRIDE + column];
}
