in vec4 vCarried;
out vec4 carried;
#ifdef STRAND
//#include coverage
#endif

void main() {
#ifdef STRAND
  // As in the G-buffer.
  if (!isCovered()) discard;
#endif
  carried = vCarried;
}
