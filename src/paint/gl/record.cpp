#include "paint/gl/record.h"

#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

namespace mw::gl {
namespace {

constexpr std::int32_t solid = -1000000;

std::uint8_t to_byte(float v) { return static_cast<std::uint8_t>(std::clamp(v, 0.0f, 1.0f) * 255.0f + 0.5f); }

std::array<std::uint8_t, 4> to_bytes(Colour c, double opacity) {
  return {to_byte(c.r), to_byte(c.g), to_byte(c.b), to_byte(c.a * static_cast<float>(opacity))};
}

// Copies tiles side by side onto the sheet and tells where the first one lies.
std::pair<int, int> place(MaskSheet& sheet, const std::uint8_t* bytes, int count) {
  if (sheet.x + count * tile > MaskSheet::width) sheet.x = 0, sheet.y += tile;
  const auto need = static_cast<std::size_t>(sheet.y + tile) * MaskSheet::width;
  if (sheet.pixels.size() < need) sheet.pixels.resize(need);
  for (int i = 0; i < count; ++i)
    for (int y = 0; y < tile; ++y)
      std::memcpy(&sheet.pixels[static_cast<std::size_t>((sheet.y + y) * MaskSheet::width + sheet.x + i * tile)],
                  bytes + (i * tile + y) * tile, tile);
  const std::pair<int, int> at{sheet.x, sheet.y};
  sheet.x += count * tile;
  return at;
}

struct Recorder {
  Shapes& shapes;
  Vec2 offset;
  Recording out;
  Affine to_pixels;
  Shapes::Shared clip;
  double opacity = 1;

  void play(const std::vector<Mark>& marks) {
    for (std::size_t i = 0; i < marks.size();) {
      const std::size_t pile = soft_pile(marks, i);
      if (pile < 2) std::visit(*this, marks[i++]);
      else add_pile(marks, i, pile), i += pile;
    }
  }
  // How many strokes from here on are one translucent colour along one path: a soft shadow in layers.
  static std::size_t soft_pile(const std::vector<Mark>& marks, std::size_t from) {
    const auto* first = std::get_if<Stroke>(&marks[from]);
    if (!first || first->colour.a >= 1 || !first->dashes.empty()) return 0;
    std::size_t to = from + 1;
    for (; to < marks.size(); ++to) {
      const auto* next = std::get_if<Stroke>(&marks[to]);
      if (!next || !(next->colour == first->colour) || !next->dashes.empty() || !(next->path == first->path)) break;
    }
    return to - from;
  }
  // One coverage for all layers: what lies under it is touched once.
  void add_pile(const std::vector<Mark>& marks, std::size_t from, std::size_t count) {
    const auto& first = std::get<Stroke>(marks[from]);
    std::vector<double> widths;
    for (std::size_t i = from; i < from + count; ++i) widths.push_back(std::get<Stroke>(marks[i]).width);
    const double alpha = static_cast<double>(first.colour.a) * opacity;
    const double kept = std::exchange(opacity, 1.0);
    add_plain(*shapes.strokes(first.path, to_pixels, widths, alpha, clip), {first.colour.r, first.colour.g, first.colour.b, 1});
    opacity = kept;
  }

  void operator()(const Fill& mark) {
    const auto shape = shapes.fill(mark.path, to_pixels, mark.even_odd ? Winding::even_odd : Winding::non_zero, clip);
    if (const auto* colour = std::get_if<Colour>(&mark.paint)) return add_plain(*shape, *colour);
    Draw draw;
    draw.paint = &mark.paint, draw.to_pixels = to_pixels;
    add(*shape, draw, {0, 0, 0, 1});
  }
  void operator()(const Stroke& mark) {
    add_plain(*shapes.stroke(mark.path, to_pixels, mark.width, mark.dashes, clip), mark.colour);
  }
  void operator()(const Text& mark) {
    const double shift = mark.anchor == Anchor::start ? 0 : mark.anchor == Anchor::middle ? -0.5 : -1.0;
    const double left = shift == 0 ? 0 : shift * shape_line(mark.text, mark.bold)->width * mark.size;
    const Affine at = then({1, 0, 0, 1, mark.at.x + left, mark.at.y}, to_pixels);
    if (mark.halo > 0) add_plain(*shapes.text(mark, at, mark.halo, clip), mark.halo_colour);
    add_plain(*shapes.text(mark, at, 0, clip), mark.colour);
  }
  void operator()(const Image& mark) {
    if (mark.columns <= 0 || mark.rows <= 0) return;
    const auto [x, y] = std::pair{mark.at.x, mark.at.y};
    const auto [w, h] = std::pair{mark.size.x, mark.size.y};
    const Path frame{{Path::Move{{x, y}}, Path::Line{{x + w, y}}, Path::Line{{x + w, y + h}}, Path::Line{{x, y + h}}, Path::Close{}}};
    Draw draw;
    draw.image = &mark, draw.to_pixels = to_pixels;
    add(*shapes.fill(frame, to_pixels, Winding::non_zero, clip), draw, {0, 0, 0, 1});
  }
  void operator()(const Group& group) {
    const auto saved = std::tuple{to_pixels, clip, opacity};
    to_pixels = then({group.a, group.b, group.c, group.d, group.tx, group.ty}, to_pixels);
    if (group.clip) clip = shapes.fill(*group.clip, to_pixels, Winding::non_zero, clip);
    // one plain mark needs no sheet of its own: its alpha is the group's
    const bool alone = group.marks.size() == 1 && (std::holds_alternative<Fill>(group.marks[0]) || std::holds_alternative<Stroke>(group.marks[0]));
    const bool layer = group.opacity < 1 && !alone;
    if (alone) opacity *= group.opacity;
    const double kept = opacity;
    if (layer) opacity = 1, out.commands.emplace_back(OpenLayer{});
    play(group.marks);
    if (layer) {
      out.commands.emplace_back(CloseLayer{out.corners.size() / 4, group.opacity * kept});
      add_quad(-100000, -100000, 200000, 200000, solid, solid, {0, 0, 0, to_byte(static_cast<float>(group.opacity * kept))});
    }
    std::tie(to_pixels, clip, opacity) = saved;
  }

  void add_plain(const Shape& shape, Colour colour) {
    if (out.commands.empty() || !std::holds_alternative<Draw>(out.commands.back()) ||
        std::get<Draw>(out.commands.back()).paint || std::get<Draw>(out.commands.back()).image)
      out.commands.emplace_back(Draw{out.corners.size() / 4, 0, nullptr, nullptr, {}, {}, {}});
    std::get<Draw>(out.commands.back()).quads += add_quads(shape, colour);
  }
  void add(const Shape& shape, Draw draw, Colour colour) {
    draw.first_quad = out.corners.size() / 4, draw.low = shape.low, draw.high = shape.high;
    draw.quads = add_quads(shape, colour);
    out.commands.emplace_back(draw);
  }
  std::size_t add_quads(const Shape& shape, Colour colour) {
    const auto bytes = to_bytes(colour, opacity);
    const std::size_t before = out.corners.size();
    for (const Run& run : shape.coverage.runs) {
      // a long run of masks is cut where a shelf of the sheet ends
      for (int done = 0; done < run.count;) {
        const int count = run.mask < 0 ? run.count : std::min(run.count - done, MaskSheet::width / tile);
        const int x = (run.x + done) * tile + static_cast<int>(offset.x), y = run.y * tile + static_cast<int>(offset.y);
        std::pair<int, int> at{solid + x, solid + y};
        if (run.mask >= 0) at = place(out.masks, shape.coverage.bytes.data() + run.mask + done * tile * tile, count);
        add_quad(x, y, count * tile, tile, at.first - x, at.second - y, bytes);
        done += count;
      }
    }
    return (out.corners.size() - before) / 4;
  }
  void add_quad(int x, int y, int w, int h, int mask_x, int mask_y, std::array<std::uint8_t, 4> colour) {
    const auto corner = [&](int px, int py) {
      out.corners.push_back({static_cast<float>(px), static_cast<float>(py), mask_x, mask_y, colour});
    };
    corner(x, y), corner(x + w, y), corner(x + w, y + h), corner(x, y + h);
  }
};

} // namespace

Recording record(const Scene& scene, double scale, Vec2 offset, Shapes& shapes) {
  shapes.begin(static_cast<int>(std::ceil(scene.width * scale)), static_cast<int>(std::ceil(scene.height * scale)));
  Recorder recorder{shapes, offset, {}, {scale, 0, 0, scale, 0, 0}, nullptr, 1};
  recorder.play(scene.marks);
  shapes.end();
  return std::move(recorder.out);
}

} // namespace mw::gl
