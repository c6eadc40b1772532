#include "scene/theme.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>

using namespace mw;

namespace {

const std::array themes{&light_theme(), &dark_theme(), &high_theme(), &print_theme()};

double linear(float c) {
  const double v = static_cast<double>(c);
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}
float encoded(double v) {
  v = std::clamp(v, 0.0, 1.0);
  return static_cast<float>(v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055);
}

using Matrix = std::array<std::array<double, 3>, 3>;
// Machado, Oliveira and Fernandes 2009, severity 1.0, linear RGB (matrices from memory, as in the visual design 2.1)
const Matrix normal{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
const Matrix protan{{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
const Matrix deutan{{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
const Matrix tritan{{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};

Colour seen(Colour c, const Matrix& m) {
  const std::array<double, 3> v{linear(c.r), linear(c.g), linear(c.b)};
  const auto row = [&](std::size_t i) { return encoded(m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2]); };
  return {row(0), row(1), row(2), 1};
}

struct Lab { double l, a, b; };
Lab lab(Colour c) { // CIELAB, D65
  const double r = linear(c.r), g = linear(c.g), b = linear(c.b);
  const double x = (0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047, y = 0.2126729 * r + 0.7151522 * g + 0.0721750 * b,
               z = (0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / 1.08883;
  const auto f = [](double t) { return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116; };
  return {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
}

double hue(double b, double a) {
  const double h = std::atan2(b, a) * 180 / std::numbers::pi;
  return h < 0 ? h + 360 : h;
}

double ciede2000(Lab one, Lab two) { // Sharma, Wu and Dalal 2005
  const double c = (std::hypot(one.a, one.b) + std::hypot(two.a, two.b)) / 2, c7 = std::pow(c, 7);
  const double g = 0.5 * (1 - std::sqrt(c7 / (c7 + std::pow(25.0, 7))));
  const double a1 = one.a * (1 + g), a2 = two.a * (1 + g), c1 = std::hypot(a1, one.b), c2 = std::hypot(a2, two.b);
  const double h1 = c1 < 1e-9 ? 0 : hue(one.b, a1), h2 = c2 < 1e-9 ? 0 : hue(two.b, a2);
  double dh = h2 - h1;
  if (c1 * c2 < 1e-9) dh = 0;
  else if (dh > 180) dh -= 360;
  else if (dh < -180) dh += 360;
  const double rad = std::numbers::pi / 180, dl = two.l - one.l, dc = c2 - c1, dH = 2 * std::sqrt(c1 * c2) * std::sin(dh / 2 * rad);
  const double lm = (one.l + two.l) / 2, cm = (c1 + c2) / 2;
  double hm = h1 + h2;
  if (c1 * c2 >= 1e-9) hm = std::abs(h1 - h2) <= 180 ? hm / 2 : hm < 360 ? (hm + 360) / 2 : (hm - 360) / 2;
  const double t = 1 - 0.17 * std::cos((hm - 30) * rad) + 0.24 * std::cos(2 * hm * rad) + 0.32 * std::cos((3 * hm + 6) * rad) - 0.20 * std::cos((4 * hm - 63) * rad);
  const double sl = 1 + 0.015 * std::pow(lm - 50, 2) / std::sqrt(20 + std::pow(lm - 50, 2)), sc = 1 + 0.045 * cm, sh = 1 + 0.015 * cm * t;
  const double cm7 = std::pow(cm, 7), rt = -2 * std::sqrt(cm7 / (cm7 + std::pow(25.0, 7))) * std::sin(60 * std::exp(-std::pow((hm - 275) / 25, 2)) * rad);
  return std::sqrt(std::pow(dl / sl, 2) + std::pow(dc / sc, 2) + std::pow(dH / sh, 2) + rt * dc / sc * dH / sh);
}

double ciede2000(Colour p, Colour q) { return ciede2000(lab(p), lab(q)); }

const std::array drawn{Articulator::lips, Articulator::tip, Articulator::body, Articulator::root, Articulator::velum, Articulator::jaw, Articulator::glottis};

} // namespace

TEST_CASE("theme: CIEDE2000 agrees with published test pairs (Sharma, Wu and Dalal 2005), black and white differ by 100") {
  CHECK(ciede2000(Lab{50, 2.6772, -79.7751}, Lab{50, 0, -82.7485}) == doctest::Approx(2.0425).epsilon(0.0001));
  CHECK(ciede2000(Lab{50, 2.5, 0}, Lab{50, 0, -2.5}) == doctest::Approx(4.3065).epsilon(0.0001));
  CHECK(ciede2000({0.3f, 0.5f, 0.2f, 1}, {0.3f, 0.5f, 0.2f, 1}) == doctest::Approx(0));
  CHECK(ciede2000({0, 0, 0, 1}, {1, 1, 1, 1}) == doctest::Approx(100).epsilon(0.001));
}

TEST_CASE("theme: text keeps 4.5 to 1 on every paper it stands on") {
  for (const Theme* t : themes) {
    INFO(t->name);
    for (const Colour paper : {t->ground, t->panel, t->raised}) {
      CHECK(contrast(t->ink, paper) >= 4.5);
      CHECK(contrast(t->quiet, paper) >= 4.5);
      CHECK(contrast(t->second, paper) >= 4.5);
      CHECK(contrast(t->action, paper) >= 4.5);
    }
    CHECK(contrast(t->on_action, t->action) >= 4.5);
    CHECK(contrast(t->ink, t->select) >= 4.5);
    CHECK(contrast(t->ink, t->changed) >= 4.5);
    for (int level = 1; level <= 3; ++level) CHECK(contrast(t->hatch, t->clash(level)) >= 4.5);
  }
}

TEST_CASE("theme: edges, lines and rings keep 3 to 1") {
  for (const Theme* t : themes) {
    INFO(t->name);
    for (const Colour paper : {t->ground, t->panel}) {
      CHECK(contrast(t->edge, paper) >= 3.0);
      CHECK(contrast(t->focus, paper) >= 3.0);
    }
    CHECK(contrast(t->line, t->tongue) >= 3.0);
    CHECK(contrast(t->line, t->head) >= 3.0);
    CHECK(contrast(t->clash_ink, t->tongue) >= 3.0);
    CHECK(contrast(t->flow, t->air) >= 3.0);
    // a piece is told from the dark hollow by its fill, on white paper (and the dark head) by its outline
    for (const Colour piece : {t->tongue, t->velum, t->head}) CHECK(std::max(contrast(piece, t->air), contrast(t->line, t->air)) >= 3.0);
  }
}

TEST_CASE("theme: articulators keep 3 to 1 on panel and ground") {
  for (const Theme* t : themes)
    for (const Articulator a : drawn) {
      INFO(t->name, " ", to_text(a));
      CHECK(contrast(t->of(a), t->panel) >= 3.0);
      CHECK(contrast(t->of(a), t->ground) >= 3.0);
    }
}

TEST_CASE("theme: any two articulators stay 15 apart (CIEDE2000) in four kinds of vision") {
  for (const Theme* t : {&light_theme(), &dark_theme()})
    for (const Matrix* vision : {&normal, &deutan, &protan, &tritan}) {
      double least = 1e9;
      for (std::size_t i = 0; i < drawn.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) least = std::min(least, ciede2000(seen(t->of(drawn[i]), *vision), seen(t->of(drawn[j]), *vision)));
      INFO(t->name, " ", vision - &normal);
      CHECK(least >= 15.0);
    }
}

TEST_CASE("theme: no token is a saturated red, so nothing that switches can flash red") {
  for (const Theme* t : themes)
    for (const TokenRow& row : token_rows()) {
      const Colour c = t->*row.value;
      const double r = linear(c.r), g = linear(c.g), b = linear(c.b);
      if (r + g + b < 0.05) continue; // too dark to flash
      INFO(t->name, " ", row.name);
      CHECK(r / (r + g + b) < 0.8);
    }
}

TEST_CASE("theme: every token has a name of its own, four readable values and a use") {
  std::set<std::string_view> seen_names;
  for (const TokenRow& row : token_rows()) {
    CHECK(seen_names.insert(row.name).second);
    CHECK_FALSE(row.use.empty());
    for (const auto hex : row.hex) CHECK(from_hex(hex).a == 1);
  }
}

TEST_CASE("theme: colour is never the only carrier: the articulators differ in grey by pattern or dash, and in word") {
  const auto rows = articulator_rows();
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (rows[i].lane == rows[j].lane) continue; // larynx and glottis share the voice box lane
      const bool same = rows[i].pattern.angle_deg == rows[j].pattern.angle_deg && rows[i].pattern.crossed == rows[j].pattern.crossed && rows[i].pattern.dash == rows[j].pattern.dash;
      CHECK_MESSAGE(!same, rows[i].lane, " ", rows[j].lane);
    }
}

TEST_CASE("theme: an unknown theme is a problem of use that lists the names") {
  CHECK(find_theme("dark").value()->dark);
  const auto none = find_theme("sepia");
  REQUIRE_FALSE(none.has_value());
  CHECK(none.error().kind == ProblemKind::usage);
}
