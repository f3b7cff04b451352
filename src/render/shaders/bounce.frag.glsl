in vec3 vBounce;
out vec4 bounce;

void main() {
  bounce = vec4(vBounce, 1.0);
}
