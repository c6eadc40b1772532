#include "paint/gl/shapes.h"

#include "paint/gl/stroke.h"
#include "text/shaper.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>

namespace mw::gl {

Key& Key::mix(std::uint64_t bits) {
  // two rounds of a multiplicative hash; 64 bits keep accidents out of reach of a session
  value_ = (value_ ^ bits) * 0xff51afd7ed558ccdu;
  value_ ^= value_ >> 32;
  return *this;
}
Key& Key::add(double value) { return mix(std::bit_cast<std::uint64_t>(value)); }
Key& Key::add(const Affine& m) { return add(m.a).add(m.b).add(m.c).add(m.d).add(m.tx).add(m.ty); }
Key& Key::add(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); i += 8) {
    std::uint64_t word = 0;
    std::memcpy(&word, text.data() + i, std::min<std::size_t>(8, text.size() - i));
    mix(word);
  }
  return mix(text.size());
}
Key& Key::add(const Path& path) {
  for (const auto& step : path.steps) {
    mix(step.index());
    std::visit(Overloaded{[&](const Path::Move& s) { add(s.to.x).add(s.to.y); },
                          [&](const Path::Line& s) { add(s.to.x).add(s.to.y); },
                          [&](const Path::Cubic& s) { add(s.c1.x).add(s.c1.y).add(s.c2.x).add(s.c2.y).add(s.to.x).add(s.to.y); },
                          [](const Path::Close&) {}}, step);
  }
  return *this;
}

void Shapes::begin(int width, int height) {
  width_ = width, height_ = height;
  made_ = 0;
  ++scene_;
}

void Shapes::end() {
  if (scene_ % patience != 0) return;
  std::erase_if(entries_, [&](const auto& entry) { return entry.second.last_used + patience < scene_; });
}

template <typename Make> Shapes::Shared Shapes::find(Key key, Make make) {
  key.add(width_).add(height_);
  Entry& entry = entries_[key.value()];
  entry.last_used = scene_;
  if (!entry.shape) {
    Shape shape = make();
    shape.key = key.value();
    entry.shape = std::make_shared<const Shape>(std::move(shape));
  }
  return entry.shape;
}

// A clip moves on its own: the shape without it stays, only the product is made anew.
Shapes::Shared Shapes::clipped(const Shared& shape, const Shared& clip) {
  if (!clip) return shape;
  Key key;
  for (const std::uint64_t part : {shape->key, clip->key}) key.add(static_cast<double>(part >> 32)).add(static_cast<double>(part & 0xffffffffu));
  return find(key, [&] {
    Shape out;
    out.coverage = intersect(shape->coverage, clip->coverage);
    out.low = glm::max(shape->low, clip->low);
    out.high = glm::max(glm::min(shape->high, clip->high), out.low);
    return out;
  });
}

// Coverage, and the whole-pixel box of the outline within the picture.
Shape Shapes::finish(const Rings& rings, Winding winding) {
  ++made_;
  Shape out;
  out.coverage = rasteriser_.cover(rings, winding, width_, height_);
  out.low = {static_cast<double>(width_), static_cast<double>(height_)};
  for (const auto& ring : rings)
    for (const Vec2 p : ring.points) {
      out.low = glm::min(out.low, p);
      out.high = glm::max(out.high, p);
    }
  out.low = glm::max(glm::floor(out.low), Vec2{0, 0});
  out.high = glm::max(glm::min(glm::ceil(out.high), Vec2{width_, height_}), out.low);
  return out;
}

Shapes::Shared Shapes::fill(const Path& path, const Affine& to_pixels, Winding winding, const Shared& clip) {
  Key key;
  key.add(1).add(static_cast<int>(winding)).add(to_pixels).add(path);
  return clipped(find(key, [&] { return finish(flatten(path, to_pixels), winding); }), clip);
}

Shapes::Shared Shapes::stroke(const Path& path, const Affine& to_pixels, double width, std::span<const double> dashes,
                              const Shared& clip) {
  Key key;
  key.add(2).add(width).add(to_pixels).add(path);
  for (const double d : dashes) key.add(d);
  return clipped(find(key, [&] {
    const double scale = to_pixels.scale();
    std::vector<double> dashes_px(dashes.begin(), dashes.end());
    for (double& d : dashes_px) d *= scale;
    const Rings lines = dash(flatten(path, to_pixels), dashes_px);
    return finish(outline_of_stroke(lines, width * scale), Winding::non_zero);
  }), clip);
}

Shapes::Shared Shapes::strokes(const Path& path, const Affine& to_pixels, std::span<const double> widths, double alpha, const Shared& clip) {
  Key key;
  key.add(4).add(alpha).add(to_pixels).add(path);
  for (const double w : widths) key.add(w);
  return clipped(find(key, [&] {
    const Rings lines = flatten(path, to_pixels);
    std::vector<Shape> layers;
    std::vector<const Coverage*> coverages;
    for (const double width : widths) layers.push_back(finish(outline_of_stroke(lines, width * to_pixels.scale()), Winding::non_zero));
    for (const Shape& layer : layers) coverages.push_back(&layer.coverage);
    Shape out = layers.front();
    out.coverage = pile(coverages, alpha);
    return out;
  }), clip);
}

Shapes::Shared Shapes::text(const Text& text, const Affine& to_pixels, double halo, const Shared& clip) {
  Key key;
  key.add(3).add(halo).add(text.size).add(text.bold).add(to_pixels).add(text.text);
  return clipped(find(key, [&] {
    Rings rings;
    const auto line = shape_line(text.text, text.bold);
    for (const auto& glyph : line->glyphs) {
      const Vec2 at = glyph.at * text.size;
      Rings shape = flatten(*glyph.shape, then({text.size, 0, 0, text.size, at.x, at.y}, to_pixels));
      rings.insert(rings.end(), std::make_move_iterator(shape.begin()), std::make_move_iterator(shape.end()));
    }
    if (halo > 0) rings = outline_of_stroke(rings, halo * to_pixels.scale());
    return finish(rings, Winding::non_zero);
  }), clip);
}

} // namespace mw::gl
