// Quads in target pixels, y down; the target is an ordinary framebuffer, its first row the lowest.
layout(location = 0) in vec2 at;
layout(location = 1) in ivec2 mask;
layout(location = 2) in vec4 colour;
uniform vec2 target_size;
flat out ivec2 to_mask;
flat out vec4 tint;
void main() {
  gl_Position = vec4(2.0 * at.x / target_size.x - 1.0, 1.0 - 2.0 * at.y / target_size.y, 0.0, 1.0);
  to_mask = ivec2(mask.x, mask.y + int(target_size.y) - 1);
  tint = vec4(colour.rgb * colour.a, colour.a);
}
