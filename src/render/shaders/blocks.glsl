layout(std140) uniform Steady {
  vec4 steadyData[STEADY_ROWS * STEADY_STRIDE];
};
layout(std140) uniform Emitters {
  vec4 emitterData[MAX_EMITTERS * EMITTER_COLUMNS];
};
layout(std140) uniform Occluders {
  vec4 occluderData[MAX_OCCLUDERS * OCCLUDER_COLUMNS];
};

// The batch's own samples, or those of the first batches together.
vec4 litAt(bool steady, int s, int column) {
  return steady ? steadyData[s * STEADY_STRIDE + column] : sampleAt(s, column);
}

vec4 emitterAt(int e, int column) {
  return emitterData[e * EMITTER_COLUMNS + column];
}

vec4 occluderAt(int row, int column) {
  return occluderData[row * OCCLUDER_COLUMNS + column];
}
