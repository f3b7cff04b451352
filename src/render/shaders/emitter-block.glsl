layout(std140) uniform Emitters {
  vec4 emitterData[MAX_EMITTERS * EMITTER_COLUMNS];
};

vec4 emitterAt(int e, int column) {
  return emitterData[e * EMITTER_COLUMNS + column];
}
