#include "scene/theme.h"

#include "base/expect.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

constexpr std::array<std::string_view, 4> names{"light", "dark", "high", "print"};

// Values chosen and measured in the visual design, section 2; tests recompute its contrast table (2.1).
constexpr auto tokens = std::to_array<TokenRow>({
    {"ground", &Theme::ground, {"#EFE4CE", "#14191B", "#FFFFFF", "#FFFFFF"}, "bench behind the panels"},
    {"panel", &Theme::panel, {"#FBF6EA", "#1F2629", "#FFFFFF", "#FFFFFF"}, "paper of a panel, stage backdrop"},
    {"raised", &Theme::raised, {"#FFFDF6", "#293236", "#FFFFFF", "#FFFFFF"}, "fields, buttons, letter tags"},
    {"ink", &Theme::ink, {"#2B2320", "#F3EADB", "#000000", "#000000"}, "text"},
    {"quiet", &Theme::quiet, {"#65564A", "#B9AE9E", "#2B2B2B", "#222222"}, "secondary text"},
    {"rule", &Theme::rule, {"#D8C8AC", "#39444A", "#000000", "#B0B0B0"}, "decoration"},
    {"edge", &Theme::edge, {"#857459", "#75838A", "#000000", "#5A5A5A"}, "control borders"},
    {"action", &Theme::action, {"#1F5A5E", "#8FD0C4", "#00363A", "#000000"}, "play, scrubber, chosen edge, own vowels"},
    {"on_action", &Theme::on_action, {"#FFFDF6", "#10201F", "#FFFDF6", "#FFFFFF"}, "signs on action"},
    {"second", &Theme::second, {"#8A4526", "#F2A36B", "#8A4526", "#000000"}, "second accent, dragged vowel"},
    {"focus", &Theme::focus, {"#1B4FA0", "#9CC4FF", "#0038A8", "#000000"}, "keyboard ring"},
    {"select", &Theme::select, {"#CFE3DC", "#2D4B4A", "#D6ECFF", "#E6E6E6"}, "chosen fill"},
    {"changed", &Theme::changed, {"#F2DFA6", "#57481F", "#F2DFA6", "#E9E9E9"}, "differing sound, unreadable sign"},
    {"head", &Theme::head, {"#EBCFB2", "#6A5245", "#F2E2D0", "#E9E9E9"}, "head paper"},
    {"deep", &Theme::deep, {"#E0BB9B", "#5C463B", "#E6D0BA", "#DDDDDD"}, "muscle floor, larynx wall"},
    {"air", &Theme::air, {"#2C484D", "#0B1012", "#000000", "#FFFFFF"}, "mouth, throat"},
    {"nasal", &Theme::nasal, {"#476166", "#1A2326", "#1C1C1C", "#FFFFFF"}, "nose"},
    {"tongue", &Theme::tongue, {"#D27A6A", "#C06B5D", "#E08A78", "#B4B4B4"}, "tongue"},
    {"tongue_hi", &Theme::tongue_hi, {"#E7A08E", "#DD9887", "#F5B5A4", "#C9C9C9"}, "rim inside its edge"},
    {"tongue_lo", &Theme::tongue_lo, {"#BE6356", "#A55348", "#BE6356", "#A8A8A8"}, "towards the chin"},
    {"fibre", &Theme::fibre, {"#9E463F", "#8A4038", "#8A3A30", "#7E7E7E"}, "muscle fan"},
    {"velum", &Theme::velum, {"#CB9C70", "#9F7A50", "#EBC79A", "#C6C6C6"}, "soft palate"},
    {"lips", &Theme::lips, {"#B4565B", "#B9656A", "#B4565B", "#9C9C9C"}, "vermilion"},
    {"lip_hi", &Theme::lip_hi, {"#CF7C79", "#D58E8B", "#CF7C79", "#B0B0B0"}, "light on the lip"},
    {"gum", &Theme::gum, {"#DA9F8A", "#A87562", "#F0B9A4", "#CFCFCF"}, "palate lining"},
    {"bone", &Theme::bone, {"#F3E8CC", "#CDBF9F", "#F3E8CC", "#F7F7F7"}, "bone"},
    {"tooth", &Theme::tooth, {"#FFFEF8", "#F7F3E8", "#FFFEF8", "#FFFFFF"}, "teeth"},
    {"cart", &Theme::cart, {"#B7C9CC", "#8FA5AA", "#B7C9CC", "#F0F0F0"}, "cartilage"},
    {"epi", &Theme::epi, {"#E3C07B", "#C9A45C", "#E3C07B", "#D9D9D9"}, "epiglottis"},
    {"turb", &Theme::turb, {"#C79C86", "#7C6152", "#C79C86", "#DADADA"}, "nose shelves"},
    {"vert", &Theme::vert, {"#E3C7A6", "#7A6252", "#FFFFFF", "#F4F4F4"}, "vertebrae"},
    {"vert_e", &Theme::vert_e, {"#C9A783", "#8F7562", "#000000", "#B5B5B5"}, "their edge"},
    {"line", &Theme::line, {"#33211C", "#F4E6D2", "#000000", "#000000"}, "outlines"},
    {"line2", &Theme::line2, {"#7A5445", "#A98F7C", "#000000", "#555555"}, "decoration, bone, teeth in dark"},
    {"shadow", &Theme::shadow, {"#1A0E08", "#000000", "#1A0E08", "#000000"}, "paper shadow"},
    {"flow", &Theme::flow, {"#F4FBF6", "#CFE9E2", "#FFFFFF", "#000000"}, "air marks"},
    {"voice", &Theme::voice, {"#F2C14E", "#F4C95D", "#F2C14E", "#000000"}, "voicing ripple"},
    {"ghost", &Theme::ghost, {"#FFFDF6", "#FFFDF6", "#FFFDF6", "#000000"}, "ghost outline"},
    {"halo", &Theme::halo, {"#FBF6EA", "#14191B", "#FFFFFF", "#FFFFFF"}, "casing of text on the stage"},
    {"clash1", &Theme::clash1, {"#F2DFA6", "#A8935A", "#F2DFA6", "#F2F2F2"}, "mild clash"},
    {"clash2", &Theme::clash2, {"#EDB53C", "#D6962A", "#EDB53C", "#E2E2E2"}, "clear clash"},
    {"clash3", &Theme::clash3, {"#F79A0B", "#FFCF70", "#F79A0B", "#D0D0D0"}, "strong clash"},
    {"clash_ink", &Theme::clash_ink, {"#3A2206", "#FFF3D6", "#3A2206", "#000000"}, "border and heavy edge"},
    {"hatch", &Theme::hatch, {"#3A2206", "#1B1206", "#3A2206", "#000000"}, "hatch lines and signs on the fill"},
});

const std::array<ArticulatorRow, articulator_count>& articulators() { // built on first use: themes may be asked for early
  static const std::array<ArticulatorRow, articulator_count> rows{{
      {Articulator::lips, "lips", {"#9A444E", "#EB817A", "#9A444E", "#000000"}, {}, {0, false, {}}},
      {Articulator::tip, "tip", {"#014498", "#1691DD", "#014498", "#000000"}, {0.1, 5}, {-50, false, {}}},
      {Articulator::body, "back", {"#918304", "#FDDC5A", "#918304", "#000000"}, {10, 6}, {50, false, {}}},
      {Articulator::root, "root", {"#40210B", "#956F03", "#40210B", "#000000"}, {8, 4, 0.1, 4}, {90, false, {}}},
      {Articulator::velum, "soft palate", {"#8C71D6", "#D8D4FE", "#8C71D6", "#000000"}, {14, 3}, {0, false, {1.6, 4}}},
      {Articulator::jaw, "jaw", {"#282433", "#767380", "#282433", "#000000"}, {4, 4}, {0, false, {5, 4}}},
      {Articulator::larynx, "voice box", {"#398F85", "#A2F2D3", "#398F85", "#000000"}, {2, 3}, {50, true, {}}},
      {Articulator::glottis, "voice box", {"#398F85", "#A2F2D3", "#398F85", "#000000"}, {2, 3}, {50, true, {}}},
  }};
  return rows;
}

Theme build(std::size_t column) {
  Theme theme;
  theme.name = names[column];
  theme.dark = theme.name == "dark";
  for (const TokenRow& row : tokens) theme.*row.value = from_hex(row.hex[column]);
  for (const ArticulatorRow& row : articulators()) theme.articulators[static_cast<std::size_t>(row.articulator)] = from_hex(row.hex[column]);
  return theme;
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  MW_EXPECT(c >= 'a' && c <= 'f');
  return c - 'a' + 10;
}

double linear(float channel) { // sRGB transfer curve (IEC 61966-2-1)
  const double c = static_cast<double>(channel);
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) { return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b); }

} // namespace

std::span<const TokenRow> token_rows() { return tokens; }
std::span<const ArticulatorRow> articulator_rows() { return articulators(); }
const ArticulatorRow& articulator_row(Articulator a) { return articulators()[static_cast<std::size_t>(a)]; }

const Theme& light_theme() { static const Theme theme = build(0); return theme; }
const Theme& dark_theme() { static const Theme theme = build(1); return theme; }
const Theme& high_theme() { static const Theme theme = build(2); return theme; }
const Theme& print_theme() { static const Theme theme = build(3); return theme; }
std::span<const std::string_view> theme_names() { return names; }

Result<const Theme*> find_theme(std::string_view name) {
  for (const Theme* theme : {&light_theme(), &dark_theme(), &high_theme(), &print_theme()})
    if (theme->name == name) return theme;
  return Problem{ProblemKind::usage, "unknown theme", std::string{name}, "try light, dark, high or print"};
}

Colour from_hex(std::string_view hex) {
  MW_EXPECT(hex.size() == 7 && hex[0] == '#');
  const auto byte = [&](std::size_t at) { return static_cast<float>(digit(hex[at]) * 16 + digit(hex[at + 1])) / 255.0f; };
  return {byte(1), byte(3), byte(5), 1};
}

Colour with_alpha(Colour colour, double alpha) {
  colour.a = static_cast<float>(alpha);
  return colour;
}

double contrast(Colour a, Colour b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

} // namespace mw
