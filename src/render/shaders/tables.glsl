// Data textures as tables of records; twins of Table and strip in table.ts.
vec4 record(sampler2D table, int row, int column) {
  return texelFetch(table, ivec2(column, row), 0);
}

vec4 listed(sampler2D list, int index) {
  return texelFetch(list, ivec2(index & 1023, index >> 10), 0);
}
