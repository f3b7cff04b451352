// Uniform blocks: what every pixel reads alike. As textures these cost eight times as much, most of a batch.
layout(std140) uniform Samples {
  vec4 sampleData[BATCH * SAMPLE_STRIDE];
};

vec4 sampleAt(int s, int column) {
  return sampleData[s * SAMPLE_STRIDE + column];
}
