void main() { pixel = tint * covered(); }
