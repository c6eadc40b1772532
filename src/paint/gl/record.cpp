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

// A shape in its place of the order.
struct Piece {
  std::size_t command;
  Shapes::Shared shape;
  std::array<std::uint8_t, 4> colour;
  bool hides; // its solid tiles let nothing through
  bool plain; // one colour
};

bool is_opaque(const Paint& paint) {
  const auto all = [](const auto& stops) { return std::all_of(stops.begin(), stops.end(), [](const auto& stop) { return stop.second.a >= 1; }); };
  return std::visit(Overloaded{[](const Colour& c) { return c.a >= 1; }, [&](const RadialBlend& b) { return all(b.stops); },
                               [&](const LinearBlend& b) { return all(b.stops); }, [](const Hatch& h) { return h.ground.a >= 1; },
                               [](const Dots& d) { return d.ground.a >= 1; }}, paint);
}

// Marks as pieces and commands; which quads they need is seen only when all are known.
struct Recorder {
  Shapes& shapes;
  std::vector<Command> commands;
  std::vector<Piece> pieces;
  int depth = 0; // of layers
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
    add_plain(shapes.strokes(first.path, to_pixels, widths, alpha, clip), {first.colour.r, first.colour.g, first.colour.b, 1});
    opacity = kept;
  }

  void operator()(const Fill& mark) {
    const auto shape = shapes.fill(mark.path, to_pixels, mark.even_odd ? Winding::even_odd : Winding::non_zero, clip);
    if (const auto* colour = std::get_if<Colour>(&mark.paint)) return add_plain(shape, *colour);
    Draw draw;
    draw.paint = &mark.paint, draw.to_pixels = to_pixels;
    add(shape, draw, {0, 0, 0, 1});
  }
  void operator()(const Stroke& mark) {
    add_plain(shapes.stroke(mark.path, to_pixels, mark.width, mark.dashes, clip), mark.colour);
  }
  void operator()(const Text& mark) {
    const double shift = mark.anchor == Anchor::start ? 0 : mark.anchor == Anchor::middle ? -0.5 : -1.0;
    const double left = shift == 0 ? 0 : shift * shape_line(mark.text, mark.bold)->width * mark.size;
    const Affine at = then({1, 0, 0, 1, mark.at.x + left, mark.at.y}, to_pixels);
    if (mark.halo > 0) add_plain(shapes.text(mark, at, mark.halo, clip), mark.halo_colour);
    add_plain(shapes.text(mark, at, 0, clip), mark.colour);
  }
  void operator()(const Image& mark) {
    if (mark.columns <= 0 || mark.rows <= 0) return;
    const auto [x, y] = std::pair{mark.at.x, mark.at.y};
    const auto [w, h] = std::pair{mark.size.x, mark.size.y};
    const Path frame{{Path::Move{{x, y}}, Path::Line{{x + w, y}}, Path::Line{{x + w, y + h}}, Path::Line{{x, y + h}}, Path::Close{}}};
    Draw draw;
    draw.image = &mark, draw.to_pixels = to_pixels;
    add(shapes.fill(frame, to_pixels, Winding::non_zero, clip), draw, {0, 0, 0, 1});
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
    if (layer) opacity = 1, ++depth, commands.emplace_back(OpenLayer{});
    play(group.marks);
    if (layer) --depth, commands.emplace_back(CloseLayer{0, group.opacity * kept});
    std::tie(to_pixels, clip, opacity) = saved;
  }

  void add_plain(Shapes::Shared shape, Colour colour) {
    if (commands.empty() || !std::holds_alternative<Draw>(commands.back()) || std::get<Draw>(commands.back()).paint ||
        std::get<Draw>(commands.back()).image)
      commands.emplace_back(Draw{});
    add_piece(std::move(shape), colour, true);
  }
  void add(Shapes::Shared shape, Draw draw, Colour colour) {
    draw.low = shape->low, draw.high = shape->high;
    commands.emplace_back(draw);
    add_piece(std::move(shape), colour, draw.paint && is_opaque(*draw.paint));
  }
  void add_piece(Shapes::Shared shape, Colour colour, bool opaque_paint) {
    const auto bytes = to_bytes(colour, opacity);
    pieces.push_back({commands.size() - 1, std::move(shape), bytes, opaque_paint && bytes[3] == 255 && depth == 0, std::holds_alternative<Draw>(commands.back()) && !std::get<Draw>(commands.back()).paint});
  }
};

// Tiles that later pieces hide wholly, found from the last piece to the first.
class Hidden {
public:
  Hidden(int width, int height) : columns_(width / tile + 2), tiles_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(height / tile + 2)) {}
  // The stretches of a run that can be seen.
  template <typename Take> void visible(const Run& run, Take take) const {
    for (int i = 0; i < run.count;) {
      int to = i;
      while (to < run.count && !at(run.x + to, run.y)) ++to;
      if (to > i) take(Run{run.x + i, run.y, to - i, run.mask < 0 ? -1 : run.mask + static_cast<std::int64_t>(i) * tile * tile});
      i = to + 1;
    }
  }
  void hide(const Run& run) {
    for (int i = 0; i < run.count; ++i) tiles_[index(run.x + i, run.y)] = 1;
  }

private:
  [[nodiscard]] std::size_t index(int x, int y) const { return static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(x); }
  [[nodiscard]] bool at(int x, int y) const { return tiles_[index(x, y)] != 0; }
  int columns_;
  std::vector<std::uint8_t> tiles_;
};

// `ground`: the lowest that is seen of its tiles, in one opaque colour.
struct Visible { std::size_t piece; Run run; bool ground; };

// What can be seen of all pieces, the last first.
std::vector<Visible> visible_runs(const std::vector<Piece>& pieces, int width, int height) {
  Hidden hidden(width, height);
  std::vector<Visible> out;
  for (std::size_t p = pieces.size(); p-- > 0;)
    for (const Run& run : pieces[p].shape->coverage.runs) {
      const bool hides = pieces[p].hides && run.mask < 0;
      hidden.visible(run, [&](const Run& seen) { out.push_back({p, seen, hides && pieces[p].plain}); });
      if (hides) hidden.hide(run);
    }
  return out;
}

// Turns the visible runs into quads, command by command.
struct Arranger {
  Vec2 offset;
  Recording out;

  void arrange(const Recorder& recorder, std::vector<Visible> seen) {
    // 1. what has nothing under it can come first, whatever its place in the order: one draw of plain colour
    for (const Visible& v : seen)
      if (v.ground) add_run(v.run, recorder.pieces[v.piece].shape->coverage, recorder.pieces[v.piece].colour);
    Draw ground;
    ground.quads = out.corners.size() / 4, ground.ground = true;
    std::erase_if(seen, [](const Visible& v) { return v.ground; });
    // 2. the rest, command by command
    out.commands = recorder.commands;
    std::size_t next = seen.size(); // read from the back: the first piece first
    std::vector<std::size_t> open;
    for (std::size_t c = 0; c < out.commands.size(); ++c) {
      if (std::holds_alternative<OpenLayer>(out.commands[c])) open.push_back(c), std::get<OpenLayer>(out.commands[c]).x = static_cast<int>(out.corners.size());
      else if (auto* close = std::get_if<CloseLayer>(&out.commands[c])) {
        close_layer(std::get<OpenLayer>(out.commands[open.back()]), *close);
        open.pop_back();
      } else {
        auto& draw = std::get<Draw>(out.commands[c]);
        draw.first_quad = out.corners.size() / 4;
        for (; next > 0 && recorder.pieces[seen[next - 1].piece].command == c; --next) {
          const Piece& piece = recorder.pieces[seen[next - 1].piece];
          add_run(seen[next - 1].run, piece.shape->coverage, piece.colour);
        }
        draw.quads = out.corners.size() / 4 - draw.first_quad;
      }
    }
    out.commands.insert(out.commands.begin(), ground);
  }
  // The box of all quads of the layer; until now its x held the place of its first corner.
  void close_layer(OpenLayer& layer, CloseLayer& close) {
    const auto first = static_cast<std::size_t>(layer.x);
    float x0 = 1e9f, y0 = 1e9f, x1 = -1e9f, y1 = -1e9f;
    for (std::size_t i = first; i < out.corners.size(); ++i) {
      const Corner& at = out.corners[i];
      x0 = std::min(x0, at.x), y0 = std::min(y0, at.y), x1 = std::max(x1, at.x), y1 = std::max(y1, at.y);
    }
    if (x1 < x0) x0 = y0 = x1 = y1 = 0;
    layer = {static_cast<int>(x0), static_cast<int>(y0), static_cast<int>(x1 - x0), static_cast<int>(y1 - y0)};
    close.quad = out.corners.size() / 4;
    add_quad(layer.x, layer.y, layer.width, layer.height, solid, solid, {0, 0, 0, to_byte(static_cast<float>(close.opacity))});
  }
  void add_run(const Run& run, const Coverage& coverage, std::array<std::uint8_t, 4> colour) {
    // a long run of masks is cut where a shelf of the sheet ends
    for (int done = 0; done < run.count;) {
      const int count = run.mask < 0 ? run.count : std::min(run.count - done, MaskSheet::width / tile);
      const int x = (run.x + done) * tile + static_cast<int>(offset.x), y = run.y * tile + static_cast<int>(offset.y);
      std::pair<int, int> at{solid + x, solid + y};
      if (run.mask >= 0) at = place(out.masks, coverage.bytes.data() + run.mask + done * tile * tile, count);
      add_quad(x, y, count * tile, tile, at.first - x, at.second - y, colour);
      done += count;
    }
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
  const int width = static_cast<int>(std::ceil(scene.width * scale)), height = static_cast<int>(std::ceil(scene.height * scale));
  shapes.begin(width, height);
  Recorder recorder{shapes, {}, {}, 0, {scale, 0, 0, scale, 0, 0}, nullptr, 1};
  recorder.play(scene.marks);
  shapes.end();
  Arranger arranger{offset, {}};
  arranger.arrange(recorder, visible_runs(recorder.pieces, width, height));
  return std::move(arranger.out);
}

} // namespace mw::gl
