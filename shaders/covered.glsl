// Coverage of this pixel: 1 in solid tiles, else the byte that the rasteriser found.
flat in ivec2 to_mask;
flat in vec4 tint;
uniform sampler2D masks;
out vec4 pixel;
float covered() {
  return to_mask.x < -100000 ? 1.0 : texelFetch(masks, to_mask + ivec2(1, -1) * ivec2(gl_FragCoord.xy), 0).r;
}
