#include "ipa/inventory.h"
#include "score/targets.h"
#include "support/data.h"
#include "tract/measure.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace mw;

// Every letter with every mark that moves the shape, drawn on every speaker.

namespace {
struct Drawn {
  const Letter* letter;
  const Diacritic* mark; // none: the plain letter
  Target target;
  const Outline* outline; // good until the next one is drawn
  const Anatomy* anatomy;
};

template <typename Check> std::size_t draw_all(Check&& check) {
  std::size_t count = 0;
  for (const auto& anatomy : test::speakers()) {
    const auto table = read_targets(*anatomy).value();
    Tracer tracer(anatomy);
    const auto draw = [&](const Letter& letter, const Diacritic* mark) {
      Sound sound{letter.ipa};
      if (mark != nullptr) sound.marks.push_back(mark->ipa);
      const Target target = target_of(*anatomy, *table, sound).value();
      INFO(anatomy->id << " " << to_ipa(sound));
      check(Drawn{&letter, mark, target, &tracer.trace(target.pose), anatomy.get()});
      ++count;
    };
    for (const auto& letter : letters()) {
      draw(letter, nullptr);
      for (const auto& mark : diacritics())
        if (mark.moves_shape && is_legal(mark, letter)) draw(letter, &mark);
    }
  }
  return count;
}

bool is_finite(const Polyline& line) {
  return std::ranges::all_of(line, [](Vec2 p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

/// Openings of labiodentals and epiglottals are not between tongue and wall, those of linguolabials not on it.
bool has_wall_opening(const Target& t) {
  return !t.vowel && t.gap_min && t.gap_max && t.primary != Primary::glottis && t.place != "labiodental" && t.place != "epiglottal";
}
} // namespace

TEST_CASE("laws: every letter with every mark draws a finite outline of one tongue's area, or reports strain") {
  std::size_t strained = 0;
  const std::size_t drawn = draw_all([&](const Drawn& d) {
    const Outline& o = *d.outline;
    for (const auto* line : {&o.tongue, &o.upper_lip, &o.lower_lip, &o.velum, &o.jaw, &o.epiglottis, &o.upper_wall, &o.face}) CHECK(is_finite(*line));
    CHECK((std::abs(o.area_error) <= 0.03 || o.strained));
    CHECK(std::abs(o.area_error) < 0.065); // strained or not, it stays a tongue
    strained += o.strained ? 1 : 0;
  });
  CHECK(drawn > 5000);
  CHECK(strained < drawn / 50);
  MESSAGE(drawn << " shapes, " << strained << " report strain");
}

TEST_CASE("laws: no mark pushes the tongue into a wall") {
  draw_all([](const Drawn& d) { CHECK(penetration(*d.anatomy, *d.outline) <= 0.3); });
}

TEST_CASE("laws: closures stay shut and channels open under every mark") {
  draw_all([](const Drawn& d) {
    const Target& t = d.target;
    if (t.vowel) CHECK(tongue_gap(*d.anatomy, *d.outline).gap_mm > 0.1);
    if (!has_wall_opening(t)) return;
    const double gap = t.primary == Primary::lips ? lip_gap(*d.outline) : tongue_gap(*d.anatomy, *d.outline).gap_mm;
    const double room = *t.gap_max < 0.3 ? 0.05 : 0.45;
    CHECK(gap >= *t.gap_min - room);
    CHECK(gap <= *t.gap_max + room);
  });
}

TEST_CASE("laws: linguolabials reach the upper lip") {
  draw_all([](const Drawn& d) {
    if (d.mark == nullptr || d.mark->ipa != "\u033C") return;
    double nearest = 1e9;
    for (const Vec2 p : d.outline->tip_cap)
      for (const Vec2 q : d.outline->upper_lip) nearest = std::min(nearest, glm::distance(p, q));
    const bool open = d.target.manner.find("fricative") != std::string::npos || d.target.manner == "approximant";
    CHECK(nearest < (open ? 3.0 : 0.8));
  });
}

TEST_CASE("laws: dental, retracted and advanced marks move the drawn constriction along the wall") {
  for (const auto& anatomy : test::speakers()) {
    const auto table = read_targets(*anatomy).value();
    const auto place = [&](const char* letter, const char* mark) {
      const Outline o = trace(anatomy, target_of(*anatomy, *table, {letter, mark == nullptr ? std::vector<std::string>{} : std::vector<std::string>{mark}}).value().pose);
      return tongue_gap(*anatomy, o);
    };
    for (const char* letter : {"t", "d", "n", "s", "z", "l", "r", "ɾ", "ɹ", "ɬ"}) {
      CAPTURE(letter);
      CHECK(place(letter, "\u032A").u_mm < place(letter, nullptr).u_mm - 2 * anatomy->jaw_x);
      CHECK(place(letter, "\u032A").place == "dental");
    }
    for (const char* letter : {"t", "n", "s", "ɾ", "k", "ɡ", "x"}) {
      CAPTURE(letter);
      CHECK(place(letter, "\u0320").u_mm > place(letter, nullptr).u_mm + 0.5);
      // a hollow behind the tip of s keeps the blade as near to the ridge as the tip is to the teeth
      if (std::string_view(letter) != "s") CHECK(place(letter, "\u031F").u_mm < place(letter, nullptr).u_mm - 0.5);
    }
  }
}
