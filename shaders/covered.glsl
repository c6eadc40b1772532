// Coverage of this pixel: 1 in solid tiles, else the byte that the rasteriser found.
flat in ivec2 to_mask;
flat in vec4 tint;
uniform sampler2D masks;
out vec4 pixel;
float covered() {
  return to_mask.x < -100000 ? 1.0 : texelFetch(masks, ivec2(gl_FragCoord.xy) + to_mask, 0).r;
}
