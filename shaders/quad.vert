// Quads in target pixels, y down; the target keeps its first row at the top.
layout(location = 0) in vec2 at;
layout(location = 1) in ivec2 mask;
layout(location = 2) in vec4 colour;
uniform vec2 target_size;
flat out ivec2 to_mask;
flat out vec4 tint;
void main() {
  gl_Position = vec4(2.0 * at / target_size - 1.0, 0.0, 1.0);
  to_mask = mask;
  tint = vec4(colour.rgb * colour.a, colour.a);
}
