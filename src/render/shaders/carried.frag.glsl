in vec4 vCarried;
out vec4 carried;

void main() {
  carried = vCarried;
}
