// Opaque tiles with nothing under them.
void main() { pixel = tint; }
