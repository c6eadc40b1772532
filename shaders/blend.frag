// Radial and linear blends: stops in ascending order, straight between them, in coded sRGB like every painter here.
const int most_stops = 8;
uniform mat3x2 to_scene;
uniform vec2 from;
uniform vec2 along;   // linear: from .. from + along; radial: inner, outer radius
uniform bool radial;
uniform int count;
uniform float offsets[most_stops];
uniform vec4 colours[most_stops]; // straight alpha
void main() {
  vec2 p = to_scene * vec3(gl_FragCoord.xy, 1.0);
  float q = radial ? (length(p - from) - along.x) / (along.y - along.x) : dot(p - from, along) / dot(along, along);
  vec4 colour = colours[0];
  for (int i = 1; i < count; ++i) {
    float span = max(offsets[i] - offsets[i - 1], 1e-6);
    colour = mix(colour, colours[i], clamp((q - offsets[i - 1]) / span, 0.0, 1.0));
  }
  pixel = vec4(colour.rgb * colour.a, colour.a) * tint.a * covered();
}
