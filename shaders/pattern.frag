// Hatching and dots in scene units, hung on `anchor`; edges are one-pixel ramps.
uniform mat3x2 to_scene;
uniform float pixels;      // pixels per scene unit
uniform vec4 ink, ground;  // straight alpha
uniform vec2 anchor;       // hatch: middle of the drawn box; dots: its low corner
uniform vec2 direction;    // along the lines
uniform float reach;       // where broken lines begin, before the anchor
uniform float pitch, thickness; // thickness of lines, radius of dots
uniform bool dots, crossed, broken;

// One-pixel ramp over an edge, `inside` being the distance to it.
float ramp(float inside) { return clamp(inside * pixels + 0.5, 0.0, 1.0); }
float from_middle(float x, float period) { return x - period * floor(x / period + 0.5); }

// Share of the pixel under the lines of one family: exact for a line across a box filter.
float family(vec2 p, vec2 d) {
  float half_pixel = 0.5 / pixels;
  float across = from_middle(dot(p, vec2(-d.y, d.x)), pitch);
  if (!broken) {
    float low = max(across - half_pixel, -0.5 * thickness), high = min(across + half_pixel, 0.5 * thickness);
    return max(high - low, 0.0) * pixels;
  }
  // strokes of 3.2 thicknesses and as long a gap, round ends
  float period = 6.4 * thickness, along = dot(p, d) + reach;
  float past = max(abs(from_middle(along - 1.6 * thickness, period)) - 1.6 * thickness, 0.0);
  return ramp(0.5 * thickness - length(vec2(past, across)));
}
float lattice(vec2 p) {
  float row_step = pitch * 0.866, covered = 0.0;
  float row = floor(p.y / row_step);
  for (int i = 0; i < 2; ++i, row += 1.0) {
    float shift = mod(row, 2.0) * pitch * 0.5;
    vec2 d = vec2(from_middle(p.x - shift, pitch), p.y - row * row_step);
    covered = max(covered, ramp(thickness - length(d)));
  }
  return covered;
}
void main() {
  vec2 p = to_scene * vec3(gl_FragCoord.xy, 1.0) - anchor;
  float first = dots ? lattice(p) : family(p, direction);
  float second = !dots && crossed ? family(p, vec2(-direction.y, direction.x)) : 0.0;
  vec4 colour = vec4(ground.rgb * ground.a, ground.a);
  colour = mix(colour, vec4(ink.rgb, 1.0), first * ink.a);
  colour = mix(colour, vec4(ink.rgb, 1.0), second * ink.a);
  pixel = colour * tint.a * covered();
}
