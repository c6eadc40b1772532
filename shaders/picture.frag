// A texture under a coverage: image marks (bilinear) and the layers of translucent groups; both premultiplied.
uniform mat3x2 to_scene; // pixel to 0..1 of the texture
uniform sampler2D picture;
void main() { pixel = texture(picture, to_scene * vec3(gl_FragCoord.xy, 1.0)) * tint.a * covered(); }
