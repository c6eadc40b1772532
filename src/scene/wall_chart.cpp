#include "scene/sheet.h"

#include "ipa/parse.h"
#include "scene/vowel_chart.h"
#include "text/shaper.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {

// Places, manners, order and symbols of the IPA chart (International Phonetic Association, revised to 2020, CC BY-SA);
// hints in plain words and all measures are ours. Measures: units of a drawing 2400 wide.
struct Column { const char *place, *hint; };
constexpr std::array columns{Column{"Bilabial", "both lips"}, Column{"Labiodental", "lip and teeth"}, Column{"Dental", "teeth"}, Column{"Alveolar", "ridge"},
                             Column{"Postalveolar", "behind the ridge"}, Column{"Retroflex", "tip curled back"}, Column{"Palatal", "hard palate"}, Column{"Velar", "soft palate"},
                             Column{"Uvular", "uvula"}, Column{"Pharyngeal", "throat"}, Column{"Glottal", "vocal folds"}};
struct Cell { int column; const char *left, *right; }; // voiceless and voiced letter, "" = none
enum class Shut { whole, right_half };
struct Row { const char *manner, *hint; std::vector<Cell> cells; std::vector<std::pair<int, Shut>> shut; bool coronals_apart; };

const std::vector<Row>& rows() {
  static const std::vector<Row> all{
      {"Plosive", "shut, then open", {{0, "p", "b"}, {3, "t", "d"}, {5, "\u0288", "\u0256"}, {6, "c", "\u025F"}, {7, "k", "\u0261"}, {8, "q", "\u0262"}, {10, "\u0294", ""}}, {{9, Shut::right_half}, {10, Shut::right_half}}, false},
      {"Nasal", "air through the nose", {{0, "", "m"}, {1, "", "\u0271"}, {3, "", "n"}, {5, "", "\u0273"}, {6, "", "\u0272"}, {7, "", "\u014B"}, {8, "", "\u0274"}}, {{9, Shut::whole}, {10, Shut::whole}}, false},
      {"Trill", "flutters", {{0, "", "\u0299"}, {3, "", "r"}, {8, "", "\u0280"}}, {{7, Shut::whole}, {10, Shut::whole}}, false},
      {"Tap or flap", "one quick touch", {{1, "", "\u2C71"}, {3, "", "\u027E"}, {5, "", "\u027D"}}, {{7, Shut::whole}, {10, Shut::whole}}, false},
      {"Fricative", "a narrow gap hisses", {{0, "\u0278", "\u03B2"}, {1, "f", "v"}, {2, "\u03B8", "\u00F0"}, {3, "s", "z"}, {4, "\u0283", "\u0292"}, {5, "\u0282", "\u0290"}, {6, "\u00E7", "\u029D"}, {7, "x", "\u0263"},
        {8, "\u03C7", "\u0281"}, {9, "\u0127", "\u0295"}, {10, "h", "\u0266"}}, {}, true},
      {"Lateral fricative", "hiss at the sides", {{3, "\u026C", "\u026E"}}, {{0, Shut::whole}, {1, Shut::whole}, {9, Shut::whole}, {10, Shut::whole}}, false},
      {"Approximant", "a wide gap", {{1, "", "\u028B"}, {3, "", "\u0279"}, {5, "", "\u027B"}, {6, "", "j"}, {7, "", "\u0270"}}, {{10, Shut::whole}}, false},
      {"Lateral approximant", "wide, at the sides", {{3, "", "l"}, {5, "", "\u026D"}, {6, "", "\u028E"}, {7, "", "\u029F"}}, {{0, Shut::whole}, {1, Shut::whole}, {9, Shut::whole}, {10, Shut::whole}}, false}};
  return all;
}

struct OtherRow { const char *name, *hint; std::vector<std::pair<const char*, const char*>> items; int larynx; }; // larynx: -1 sinks, 1 rises
const std::vector<OtherRow>& airstreams() {
  static const std::vector<OtherRow> all{
      {"Clicks", "two places shut, then sucked apart", {{"\u0298", "bilabial"}, {"\u01C0", "dental"}, {"\u01C3", "(post)- alveolar"}, {"\u01C2", "palato- alveolar"}, {"\u01C1", "alveolar lateral"}}, 0},
      {"Implosives", "the larynx drops, air goes in", {{"\u0253", "bilabial"}, {"\u0257", "dental or alveolar"}, {"\u0284", "palatal"}, {"\u0260", "velar"}, {"\u029B", "uvular"}}, -1},
      {"Ejectives", "folds shut, the larynx pushes up", {{"p\u02BC", "bilabial"}, {"t\u02BC", "dental or alveolar"}, {"k\u02BC", "velar"}, {"s\u02BC", "alveolar fricative"}}, 1}};
  return all;
}
struct Pair { const char *left, *right, *name; };
constexpr std::array others{Pair{"\u028D", "w", "labial-velar"}, Pair{"", "\u0265", "labial-palatal"}, Pair{"\u029C", "\u02A2", "epiglottal hiss"}, Pair{"\u02A1", "", "epiglottal stop"},
                            Pair{"\u0255", "\u0291", "alveolo-palatal"}, Pair{"", "\u027A", "lateral flap"}, Pair{"\u0267", "", "\u0283 and x at once"}};
struct VowelPair { const char *left, *right; double x, y, hang; }; // hang: drawn beside its place, with a leader
constexpr std::array vowels{VowelPair{"i", "y", 0, 0, 0}, VowelPair{"\u0268", "\u0289", .5, 0, 0}, VowelPair{"\u026F", "u", 1, 0, 0}, VowelPair{"\u026A", "\u028F", .22, .19, 112}, VowelPair{"", "\u028A", .84, .19, -112},
                            VowelPair{"e", "\u00F8", 0, 1.0 / 3, 0}, VowelPair{"\u0258", "\u0275", .5, 1.0 / 3, 0}, VowelPair{"\u0264", "o", 1, 1.0 / 3, 0}, VowelPair{"\u0259", "", .5, .5, -126},
                            VowelPair{"\u025B", "\u0153", 0, 2.0 / 3, 0}, VowelPair{"\u025C", "\u025E", .5, 2.0 / 3, 0}, VowelPair{"\u028C", "\u0254", 1, 2.0 / 3, 0}, VowelPair{"\u00E6", "", 0, 5.0 / 6, -124},
                            VowelPair{"\u0250", "", .5, 5.0 / 6, 126}, VowelPair{"a", "\u0276", 0, 1, 0}, VowelPair{"\u0251", "\u0252", 1, 1, 0}};

constexpr double page_width = 2400, page_height = 1697, edge = 66, gutter = 168, grid_x = edge + gutter, column_width = (page_width - edge - grid_x) / 11, top = 172, row_height = 104;
constexpr double below = top + 8 * row_height + 50, other_y = below + 18, other_height = 122;

struct ChartPen {
  Tracer& tracer;
  const TargetTable& targets;
  const Theme& theme;
  Canvas canvas{};

  void text(Vec2 at, std::string_view words, double size, Colour colour, bool bold = false, Anchor anchor = Anchor::start) { canvas.text({"chart", {}}, at, words, {size, colour, bold, anchor}); }
  void middle(Vec2 at, std::string_view words, double size, bool bold = true, Anchor anchor = Anchor::middle) { canvas.text_middle({"letter", std::string{words}}, at, words, {size, theme.ink, bold, anchor}); }

  /// A small mouth in a paper window. Nothing when the speaker has no row for the sound.
  std::optional<MouthFrame> window(Rect cell, const std::string& ipa, double line, const MmBox& box, double larynx = 0) {
    const auto sound = parse_sound(ipa, Notation::ipa);
    if (!sound) return {};
    auto pose = pose_of(tracer.anatomy(), targets, *sound);
    if (!pose) return {};
    pose.value().larynx += larynx;
    MouthView view;
    view.theme = &theme;
    view.rect = cell;
    view.box = box;
    view.line_scale = line;
    view.shadows = theme.name != "print", view.detail = false;
    view.backdrop = theme.ground;
    MouthPicture picture = compose_mouth(tracer.trace(*pose), *pose, tracer.anatomy(), view);
    Group clipped{{"window", ipa}};
    clipped.clip = rounded_rectangle({cell.x, cell.y}, {cell.width, cell.height}, 9);
    Canvas inside;
    inside.box({"window", ipa}, cell, 0, theme.ground);
    inside.add(std::move(picture.group));
    clipped.marks = std::move(inside.marks);
    canvas.add(std::move(clipped));
    canvas.box({"window", ipa}, cell, 9, clear, theme.rule, 1.2);
    return picture.frame;
  }
  void pair(Rect cell, const std::string& left, const std::string& right, double size, double mouth_width, double line, const MmBox& box) {
    const Rect mouth{cell.x + (cell.width - mouth_width) / 2, cell.y + 5, mouth_width, cell.height - 10};
    window(mouth, left.empty() ? right : left, line, box);
    const double g = (cell.width - mouth_width) / 4 + 2, y = cell.y + cell.height / 2;
    if (!left.empty()) middle({cell.x + g, y}, left, size);
    if (!right.empty()) middle({cell.right() - g, y}, right, size);
  }

  void draw_title() {
    text({edge, 92}, "The sounds of speech, mouth by mouth", 54, theme.ink, true);
    text({page_width - edge, 74}, "Heads cut down the middle, facing left.", 21, theme.ink, false, Anchor::end);
    text({page_width - edge, 104}, "The order is that of the International Phonetic Alphabet.", 21, theme.quiet, false, Anchor::end);
  }
  void draw_consonants() {
    const MmBox box = framing(tracer.anatomy(), Framing::small);
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const double x = grid_x + (static_cast<double>(i) + 0.5) * column_width;
      text({x, top - 32}, columns[i].place, 23, theme.ink, true, Anchor::middle);
      text({x, top - 9}, columns[i].hint, 17.5, theme.quiet, false, Anchor::middle);
    }
    for (std::size_t r = 0; r < rows().size(); ++r) draw_consonant_row(rows()[r], top + static_cast<double>(r) * row_height, box);
    for (int r = 0; r <= 8; ++r) canvas.line({"grid", {}}, {edge, top + r * row_height}, {page_width - edge, top + r * row_height}, r % 8 == 0 ? theme.edge : theme.rule, r % 8 == 0 ? 2 : 1.4);
    for (int c = 0; c <= 11; ++c)
      for (std::size_t r = 0; r < rows().size(); ++r) {
        if ((c == 3 || c == 4) && !rows()[r].coronals_apart) continue;
        const double x = grid_x + c * column_width, y = top + static_cast<double>(r) * row_height;
        canvas.line({"grid", {}}, {x, y}, {x, y + row_height}, c % 11 == 0 ? theme.edge : theme.rule, c % 11 == 0 ? 2 : 1.2);
      }
  }
  void draw_consonant_row(const Row& row, double y, const MmBox& box) {
    for (const auto& [c, how] : row.shut) {
      const double half = how == Shut::whole ? 0 : column_width / 2;
      canvas.box({"impossible", {}}, {grid_x + c * column_width + half, y, column_width - half, row_height}, 0, with_alpha(theme.rule, 0.6));
    }
    const auto names = wrap_text(row.manner, 23, true, 130);
    for (std::size_t i = 0; i < names.size(); ++i) text({edge, y + row_height / 2 - (names.size() == 1 ? 2.0 : 16.0) + 26 * static_cast<double>(i)}, names[i], 23, theme.ink, true);
    text({edge, y + row_height / 2 + (names.size() == 1 ? 24 : 39)}, row.hint, fitting_size(row.hint, 17, false, gutter - 8, 0.8), theme.quiet);
    for (const Cell& cell : row.cells) pair({grid_x + cell.column * column_width, y + 1, column_width, row_height - 2}, cell.left, cell.right, 35, 106, 0.62, box);
  }

  void draw_others() {
    text({edge, below}, "Other airstreams, and other symbols", 27, theme.ink, true);
    const double end = grid_x + 5 * column_width;
    const MmBox small = framing(tracer.anatomy(), Framing::small);
    const HeadWarp warp = head_warp(tracer.anatomy());
    const MmBox full{warp(-37, 0).x, warp(101, 0).x, warp(0, -105).y, warp(0, 48).y};
    for (std::size_t r = 0; r < airstreams().size(); ++r) {
      const OtherRow& row = airstreams()[r];
      const double y = other_y + static_cast<double>(r) * other_height;
      draw_other_head(row.name, row.hint, y, end);
      for (std::size_t c = 0; c < row.items.size(); ++c) {
        const auto& [ipa, name] = row.items[c];
        const double x = grid_x + static_cast<double>(c) * column_width, mouth = 112, mx = x + column_width - mouth - 6, at = x + (column_width - mouth - 6) / 2;
        const auto frame = window({mx, y + 5, mouth, other_height - 10}, ipa, 0.6, row.larynx ? full : small);
        if (frame && row.larynx) {
          const Vec2 high = (*frame)(warp(78, -66)), low = (*frame)(warp(78, -96));
          canvas.arrow({"larynx", {}}, row.larynx < 0 ? high : low, row.larynx < 0 ? low : high, {theme.action, 4.4, 14, theme.raised, 2.4});
        }
        middle({at, y + other_height / 2 - 8}, ipa, 36);
        const auto lines = wrap_text(name, 14.5, false, column_width - mouth + 8);
        for (std::size_t i = 0; i < lines.size(); ++i) text({at, y + other_height / 2 + 30 + 17 * static_cast<double>(i)}, lines[i], 14.5, theme.quiet, false, Anchor::middle);
      }
    }
    const double y = other_y + 3 * other_height, width = 5 * column_width / 7;
    draw_other_head("Other symbols", "two places at once, or between places", y, end);
    for (std::size_t c = 0; c < others.size(); ++c) {
      const double x = grid_x + static_cast<double>(c) * width;
      if (c) canvas.line({"grid", {}}, {x, y}, {x, y + other_height}, theme.rule, 1.2);
      pair({x, y + 1, width, other_height - 24}, others[c].left, others[c].right, 29, 76, 0.5, small);
      text({x + width / 2, y + other_height - 8}, others[c].name, 14.5, theme.quiet, false, Anchor::middle);
    }
    canvas.line({"grid", {}}, {edge, other_y + 4 * other_height}, {end, other_y + 4 * other_height}, theme.rule, 1.4);
  }
  void draw_other_head(const char* name, const char* hint, double y, double end) {
    canvas.line({"grid", {}}, {edge, y}, {end, y}, theme.rule, 1.4);
    text({edge, y + 46}, name, fitting_size(name, 23, true, gutter - 6, 0.7), theme.ink, true);
    const auto lines = wrap_text(hint, 17, false, gutter - 8);
    for (std::size_t i = 0; i < lines.size(); ++i) text({edge, y + 70 + 20 * static_cast<double>(i)}, lines[i], 17, theme.quiet);
  }

  void draw_vowels() {
    const double vx = grid_x + 5 * column_width + 74;
    text({vx - 30, below}, "Vowels", 27, theme.ink, true);
    text({vx + 74, below}, "the tongue\u2019s highest point: up is close, left is front", 19, theme.quiet);
    const ChartFrame frame{{vx + 118, below + 84, page_width - edge - 90 - (vx + 118), 4 * other_height - 104}};
    const auto at = [&](double x, double y) { return frame.at({x, y, 0}); };
    const Path outline = line_path({at(0, 0), at(1, 0), at(1, 1), at(0, 1)}, true);
    canvas.fill({"chart", {}}, outline, with_alpha(theme.ground, 0.6));
    for (const double y : {1.0 / 3, 2.0 / 3}) canvas.line({"chart", {}}, at(0, y), at(1, y), theme.rule, 1.6);
    canvas.line({"chart", {}}, at(.5, 0), at(.5, 1), theme.rule, 1.6);
    canvas.stroke({"chart", {}}, outline, theme.edge, 2);
    for (const auto& [name, y] : {std::pair{"Close", 0.0}, {"Close-mid", 1.0 / 3}, {"Open-mid", 2.0 / 3}, {"Open", 1.0}}) middle({vx - 30, at(0, y).y}, name, 19, true, Anchor::start);
    for (const auto& [name, x] : {std::pair{"Front", 0.0}, {"Central", 0.5}, {"Back", 1.0}}) text({at(x, 0).x, frame.rect.y - 44}, name, 19, theme.ink, true, Anchor::middle);
    const HeadWarp warp = head_warp(tracer.anatomy());
    const MmBox box{warp(-27, 0).x, warp(80, 0).x, warp(0, -57).y, warp(0, 31).y};
    for (const VowelPair& v : vowels) {
      const Vec2 q = at(v.x, v.y);
      const double w = 160, h = 66, mouth = 80, x = q.x + v.hang, left = *v.left ? 37 : 4, right = *v.right ? 37 : 4;
      if (v.hang != 0) {
        const double end = x + (v.hang > 0 ? -(mouth / 2 + left) : mouth / 2 + right);
        canvas.line({"leader", {}}, q, {end, q.y}, theme.edge, 1.6);
        canvas.circle({"leader", {}}, q, 6, theme.ink, theme.panel, 2);
      }
      canvas.box({"chart", {}}, {x - mouth / 2 - left, q.y - h / 2, mouth + left + right, h}, 9, theme.panel);
      pair({x - w / 2, q.y - h / 2 - 3, w, h + 6}, v.left, v.right, 30, mouth, 0.5, box);
    }
  }

  void draw_key(double y) {
    canvas.line({"grid", {}}, {edge, y - 34}, {page_width - edge, y - 34}, theme.edge, 2);
    double x = edge;
    const auto entry = [&](Colour fill, const char* words, bool framed) {
      canvas.box({"key", words}, {x, y - 13, 26, 26}, framed ? 5 : 0, fill, framed ? theme.line : clear, 1.4);
      middle({x + 36, y}, words, 19, false, Anchor::start);
      x += 36 + text_width(words, 19) + 26;
    };
    entry(theme.tongue, "tongue", true), entry(theme.velum, "soft palate", true), entry(theme.air, "mouth and throat", true), entry(theme.nasal, "nose", true), entry(theme.epi, "epiglottis", true);
    entry(with_alpha(theme.rule, 0.6), "judged impossible", false);
    middle({x + 4, y}, "Two letters: the right one has voice, or rounded lips for a vowel. Where there are two, the mouth shows the left one.", 19, false, Anchor::start);
    text({edge, y + 42}, "Mouthwright. Places, order and symbols after the IPA chart, \u00A9 International Phonetic Association, CC BY-SA; this sheet may be shared alike. Diacritics and tones: see there. Mouths from a model, not a medical picture; speakers vary.",
         16, theme.quiet);
    text({page_width - edge, y + 42}, "A3 across; prints in grey", 16, theme.quiet, false, Anchor::end);
  }
};

/// The stretch of the whole drawing that a part fills, without title and key.
Rect part_rect(ChartPart part) {
  const double half = grid_x + 5 * column_width + 20;
  switch (part) {
    case ChartPart::consonants: return {0, top - 64, page_width, 8 * row_height + 72};
    case ChartPart::other: return {edge - 20, below - 40, half - edge + 20, 4 * other_height + 70};
    case ChartPart::vowels: return {half, below - 40, page_width - half, 4 * other_height + 70};
    case ChartPart::all: break;
  }
  return {0, 0, page_width, page_height};
}

} // namespace

Scene compose_wall_chart(Tracer& tracer, const TargetTable& targets, const WallChartView& view) {
  const Theme& theme = view.theme ? *view.theme : print_theme();
  ChartPen pen{tracer, targets, theme};
  const bool all = view.part == ChartPart::all;
  if (all) pen.draw_title();
  if (all || view.part == ChartPart::consonants) pen.draw_consonants();
  if (all || view.part == ChartPart::other) pen.draw_others();
  if (all || view.part == ChartPart::vowels) pen.draw_vowels();
  if (all) pen.draw_key(page_height - 62);
  const Rect shown = part_rect(view.part);
  const double k = std::min(view.width / shown.width, view.height / shown.height);
  Group fitted{{"wall-chart", {}}};
  fitted.a = fitted.d = k;
  fitted.tx = (view.width - k * shown.width) / 2 - k * shown.x;
  fitted.ty = (view.height - k * shown.height) / 2 - k * shown.y;
  fitted.marks = std::move(pen.canvas.marks);
  return {view.width, view.height, theme.panel, {Mark{std::move(fitted)}}};
}

} // namespace mw
