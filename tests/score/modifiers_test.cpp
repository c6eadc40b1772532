#include "anatomy/pose.h"
#include "ipa/inventory.h"
#include "score/relocate.h"
#include "score/targets.h"
#include "support/data.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace mw;

namespace {
struct Speaker {
  std::shared_ptr<const Anatomy> anatomy;
  std::shared_ptr<const TargetTable> table;
};
const std::vector<Speaker>& all_speakers() {
  static const std::vector<Speaker> all = [] {
    std::vector<Speaker> made;
    for (const auto& anatomy : test::speakers()) made.push_back({anatomy, read_targets(*anatomy).value()});
    return made;
  }();
  return all;
}

Target target(const Speaker& speaker, const Sound& sound, bool at_end = false) {
  const auto found = target_of(*speaker.anatomy, *speaker.table, sound, at_end);
  if (!found) FAIL(to_ipa(sound) << ": " << found.error().what << " " << found.error().where);
  return *found;
}
Pose pose(const Speaker& speaker, const char* letter, const char* mark = nullptr) {
  return target(speaker, {letter, mark == nullptr ? std::vector<std::string>{} : std::vector<std::string>{mark}}).pose;
}

/// Inside the ranges of the channels, or not more than 2 mm beyond a plain row that is at their end.
bool in_range(const Speaker& speaker, const Pose& p, const Pose& plain) {
  for (const auto& channel : pose_channels()) {
    const double value = p.*channel.value;
    if (!std::isfinite(value)) return false;
    // ranges are the adult male's; smaller speakers have smaller ones, so only the far ends are asked
    const double room = 0.08 * (channel.high - channel.low);
    const double low = std::min(channel.low, channel.low * speaker.anatomy->jaw_x);
    const double high = channel.value == &Pose::body_y ? 5 : channel.high; // closures are commanded into the palate
    const double own = plain.*channel.value;
    if (value < std::min(low - room, own - 2) || value > std::max(high + room, own + 2)) return false;
  }
  return true;
}

/// The values a mark may move; every other value of the pose stays where it was.
struct Expected {
  const char* mark;
  double Pose::*moves;          // this one
  int direction;                // up, down, or 0: either way
  std::vector<double Pose::*> may_move; // and these
};
const std::vector<double Pose::*> tip_values{&Pose::tip_x, &Pose::tip_y, &Pose::tip_curl, &Pose::blade};
const std::vector<double Pose::*> body_values{&Pose::body_x, &Pose::body_y};
const std::vector<double Pose::*> lip_values{&Pose::lip_opening, &Pose::lip_protrusion, &Pose::lip_rounding};

std::vector<double Pose::*> join_values(std::initializer_list<std::vector<double Pose::*>> lists) {
  std::vector<double Pose::*> all;
  for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
  return all;
}

const std::vector<Expected>& vowel_marks() {
  static const std::vector<Expected> rows{
      {"\u0325", &Pose::glottis, 1, {}},
      {"\u0324", &Pose::glottis, 1, {}},
      {"\u0330", &Pose::glottis, -1, {}},
      {"\u031F", &Pose::body_x, -1, body_values}, // along the palate where it is near
      {"\u0320", &Pose::body_x, 1, body_values},
      {"\u0308", &Pose::body_x, 0, {&Pose::body_y, &Pose::root}},
      {"\u033D", &Pose::body_y, 0, {&Pose::body_x, &Pose::root, &Pose::jaw_opening, &Pose::tip_x, &Pose::tip_y}},
      {"\u031D", &Pose::body_y, 1, {&Pose::body_x, &Pose::jaw_opening, &Pose::tip_x, &Pose::tip_y}},
      {"\u031E", &Pose::body_y, -1, {&Pose::root, &Pose::jaw_opening, &Pose::tip_x, &Pose::tip_y}},
      {"\u0318", &Pose::root, -1, {&Pose::larynx}},
      {"\u0319", &Pose::root, 1, {&Pose::larynx}},
      {"\u0339", &Pose::lip_protrusion, 1, lip_values},
      {"\u031C", &Pose::lip_protrusion, -1, lip_values},
      {"\u0303", &Pose::velum, 1, body_values}, // a back tongue makes room for the lowered soft palate
      {"˞", &Pose::tip_curl, 1, join_values({tip_values, {&Pose::root, &Pose::sides}})},
      {"ˤ", &Pose::root, 1, {&Pose::larynx}},
  };
  return rows;
}

/// Values of the two poses that differ by more than a hair and are not named.
std::string strays(const Pose& plain, const Pose& marked, const Expected& expected) {
  std::string out;
  for (const auto& channel : pose_channels()) {
    const bool named = channel.value == expected.moves ||
                       std::ranges::find(expected.may_move, channel.value) != expected.may_move.end();
    if (!named && std::abs(plain.*channel.value - marked.*channel.value) > 1e-9) out += std::string(channel.column) + " ";
  }
  return out;
}
} // namespace

TEST_CASE("targets: every letter of the inventory with every legal mark has a row on every speaker, in range") {
  std::size_t sounds = 0;
  for (const auto& speaker : all_speakers())
    for (const auto& letter : letters()) {
      CAPTURE(speaker.anatomy->id);
      CAPTURE(letter.ipa);
      const Pose plain = target(speaker, {letter.ipa}).pose;
      CHECK(in_range(speaker, plain, speaker.anatomy->rest));
      for (const auto& mark : diacritics()) {
        if (!is_legal(mark, letter)) continue;
        CAPTURE(mark.name);
        ++sounds;
        const Target row = target(speaker, {letter.ipa, {mark.ipa}});
        CHECK(in_range(speaker, row.pose, plain));
        CHECK(row.vowel == letter.vowel);
      }
    }
  CHECK(sounds > 3000);
}

TEST_CASE("targets: every legal pair of marks has a row in range") {
  const auto& speaker = all_speakers().front();
  for (const auto& letter : letters())
    for (std::size_t i = 0; i < diacritics().size(); ++i)
      for (std::size_t k = i + 1; k < diacritics().size(); ++k) {
        const auto &one = diacritics()[i], &other = diacritics()[k];
        if (!one.moves_shape || !other.moves_shape) continue;
        if (!is_legal(one, letter) || !is_legal(other, letter) || exclude_each_other(one, other)) continue;
        CAPTURE(letter.ipa);
        CAPTURE(one.name);
        CAPTURE(other.name);
        CHECK(in_range(speaker, target(speaker, {letter.ipa, {one.ipa, other.ipa}}).pose, target(speaker, {letter.ipa}).pose));
      }
}

TEST_CASE("targets: every pair of vowels has a start and an end") {
  for (const auto& speaker : all_speakers())
    for (const auto& from : letters())
      for (const auto& to : letters()) {
        if (!from.vowel || !to.vowel || from.ipa == to.ipa) continue;
        CHECK(in_range(speaker, target(speaker, {from.ipa, {}, to.ipa}).pose, speaker.anatomy->rest));
        CHECK(in_range(speaker, target(speaker, {from.ipa, {}, to.ipa}, true).pose, speaker.anatomy->rest));
      }
}

TEST_CASE("modifiers: a mark that moves the shape moves it, one that does not leaves it") {
  for (const auto& speaker : all_speakers())
    for (const auto& letter : letters())
      for (const auto& mark : diacritics()) {
        if (!is_legal(mark, letter)) continue;
        CAPTURE(speaker.anatomy->id);
        CAPTURE(letter.ipa);
        CAPTURE(mark.name);
        const bool moved = !(target(speaker, {letter.ipa}).pose == target(speaker, {letter.ipa, {mark.ipa}}).pose);
        CHECK(moved == mark.moves_shape);
      }
}

TEST_CASE("modifiers: on vowels each mark moves its own values the right way and nothing else") {
  for (const auto& speaker : all_speakers())
    for (const auto& expected : vowel_marks())
      for (const auto& letter : letters()) {
        if (!letter.vowel || !is_legal(*find_diacritic(expected.mark), letter)) continue;
        if (letter.ipa == "a" && std::string_view(expected.mark) == "\u0308") continue; // ä has a row of its own
        CAPTURE(speaker.anatomy->id);
        CAPTURE(letter.ipa);
        CAPTURE(find_diacritic(expected.mark)->name);
        const Pose plain = pose(speaker, letter.ipa.c_str()), marked = pose(speaker, letter.ipa.c_str(), expected.mark);
        CHECK(strays(plain, marked, expected) == "");
        const double change = marked.*expected.moves - plain.*expected.moves;
        if (expected.direction != 0) CHECK(change * expected.direction >= -0.25); // a close vowel cannot rise, it gives way
        // a value at the end of its range has no way to go; then another value of the mark moves
        CHECK_FALSE((plain == marked));
      }
}

TEST_CASE("modifiers: place marks slide a tongue constriction along the palate and keep its opening") {
  struct Row { const char *letter, *mark; Disc disc; int direction; };
  const Row rows[] = {
      {"t", "\u032A", Disc::tip, -1}, {"s", "\u032A", Disc::tip, -1},  {"l", "\u032A", Disc::tip, -1},  {"r", "\u032A", Disc::tip, -1},
      {"ɬ", "\u032A", Disc::tip, -1}, {"ɾ", "\u032A", Disc::tip, -1},  {"t", "\u0320", Disc::tip, 1},   {"n", "\u0320", Disc::tip, 1},
      {"ɹ", "\u0320", Disc::tip, 1},  {"ʃ", "\u031F", Disc::tip, -1},  {"s", "\u0320", Disc::tip, 1},   {"ʈ", "\u031F", Disc::tip, -1},
      {"k", "\u031F", Disc::body, -1}, {"k", "\u0320", Disc::body, 1}, {"ŋ", "\u031F", Disc::body, -1}, {"x", "\u0320", Disc::body, 1},
      {"c", "\u0320", Disc::body, 1}, {"j", "\u0320", Disc::body, 1},  {"k", "ʲ", Disc::body, -1},      {"ɡ", "ʲ", Disc::body, -1},
      {"c", "ˠ", Disc::body, 1},
  };
  for (const auto& speaker : all_speakers())
    for (const auto& row : rows) {
      CAPTURE(speaker.anatomy->id);
      CAPTURE(row.letter);
      CAPTURE(row.mark);
      const Pose plain = pose(speaker, row.letter), marked = pose(speaker, row.letter, row.mark);
      const double Pose::*along = row.disc == Disc::tip ? &Pose::tip_x : &Pose::body_x;
      CHECK((marked.*along - plain.*along) * row.direction > 0.8);
      // t and l have dental rows of their own; where blade or front come near the wall, the disc opens a little more
      const double change = disc_opening(*speaker.anatomy, marked, row.disc) - disc_opening(*speaker.anatomy, plain, row.disc);
      const std::string_view letter = row.letter;
      if (letter == "t" || letter == "l") CHECK(std::abs(change) < 1.5);
      else if (letter == "s" || letter == "j") CHECK((change > -0.15 && change < 1.0));
      else CHECK(std::abs(change) < 0.15);
    }
}

TEST_CASE("modifiers: raised narrows and lowered widens a constriction, and the manner follows") {
  const auto opening = [](const Speaker& speaker, const Sound& sound, Disc disc) {
    return disc_opening(*speaker.anatomy, target(speaker, sound).pose, disc);
  };
  for (const auto& speaker : all_speakers()) {
    CAPTURE(speaker.anatomy->id);
    CHECK(opening(speaker, {"ɹ", {"\u031D"}}, Disc::tip) == doctest::Approx(1.2).epsilon(0.05));
    CHECK(target(speaker, {"ɹ", {"\u031D"}}).manner == "fricative");
    for (const char* letter : {"ð", "z", "ʒ"}) {
      CHECK(opening(speaker, {letter, {"\u031E"}}, Disc::tip) > 1.9);
      CHECK(target(speaker, {letter, {"\u031E"}}).manner == "approximant");
    }
    for (const char* letter : {"ɣ", "ʁ", "ʝ"}) {
      CHECK(opening(speaker, {letter, {"\u031E"}}, Disc::body) > opening(speaker, {letter}, Disc::body) + 0.4);
      CHECK(target(speaker, {letter, {"\u031E"}}).manner == "approximant");
    }
    CHECK(pose(speaker, "β", "\u031E").lip_opening > pose(speaker, "β").lip_opening + 1);
    CHECK(opening(speaker, {"t", {"\u031E"}}, Disc::tip) > 0.8);
    CHECK(target(speaker, {"t", {"\u031E"}}).manner == "fricative");
    CHECK(opening(speaker, {"j", {"\u031D"}}, Disc::body) < opening(speaker, {"j"}, Disc::body) - 0.3);
  }
}

TEST_CASE("modifiers: secondary articulation keeps the closure it is added to") {
  for (const auto& speaker : all_speakers()) {
    CAPTURE(speaker.anatomy->id);
    for (const char* letter : {"p", "b", "m"}) {
      for (const char* mark : {"ʷ", "ʲ", "ˠ", "ˤ"}) CHECK(pose(speaker, letter, mark).lip_opening < 0);
      CHECK(pose(speaker, letter, "ʷ").lip_protrusion > pose(speaker, letter).lip_protrusion + 1);
    }
    for (const char* letter : {"t", "d", "n"})
      for (const char* mark : {"ʷ", "ʲ", "ˠ", "ˤ"}) {
        const Pose plain = pose(speaker, letter), marked = pose(speaker, letter, mark);
        CHECK(plain.tip_x == marked.tip_x);
        CHECK(plain.tip_y == marked.tip_y);
      }
    for (const char* letter : {"k", "ɡ", "ŋ"})
      for (const char* mark : {"ʷ", "ʲ", "ˤ"}) CHECK(disc_opening(*speaker.anatomy, pose(speaker, letter, mark), Disc::body) < -1);
    CHECK(pose(speaker, "kp", "ʷ").lip_opening < 0);
    CHECK(pose(speaker, "f", "ʷ").lip_opening == doctest::Approx(pose(speaker, "f").lip_opening));
    CHECK(pose(speaker, "t", "ʲ").body_x < pose(speaker, "t").body_x - 2);
    CHECK(pose(speaker, "t", "ˠ").body_x > pose(speaker, "t").body_x + 2);
    CHECK(pose(speaker, "t", "ˤ").root > pose(speaker, "t").root + 1);
  }
}

TEST_CASE("modifiers: apical turns the tip up, laminal turns it down and domes the blade") {
  for (const auto& speaker : all_speakers())
    for (const char* letter : {"t", "d", "n", "s", "z", "l", "ʃ"}) {
      CAPTURE(letter);
      const Pose apical = pose(speaker, letter, "\u033A"), plain = pose(speaker, letter), laminal = pose(speaker, letter, "\u033B");
      CHECK(apical.tip_curl > plain.tip_curl + 5);
      CHECK(laminal.tip_curl < plain.tip_curl - 5);
      CHECK(apical.blade < plain.blade);
      CHECK(laminal.blade > plain.blade + 0.5);
    }
}

TEST_CASE("modifiers: phonation marks set the vocal folds and nothing above them") {
  for (const auto& speaker : all_speakers())
    for (const auto& letter : letters())
      for (const char* mark : {"\u0325", "\u032C", "\u0324", "\u0330"}) {
        if (!is_legal(*find_diacritic(mark), letter)) continue;
        CAPTURE(letter.ipa);
        CAPTURE(find_diacritic(mark)->name);
        Pose plain = target(speaker, {letter.ipa}).pose;
        const Pose marked = target(speaker, {letter.ipa, {mark}}).pose;
        const std::string_view sign = mark;
        if (sign == "\u0325") CHECK(marked.glottis > 0.5);
        if (sign == "\u032C") CHECK((marked.glottis > 0.1 && marked.glottis < 0.25));
        if (sign == "\u0324") CHECK((marked.glottis > 0.25 && marked.glottis < 0.5));
        if (sign == "\u0330") CHECK((marked.glottis > 0.05 && marked.glottis < 0.1));
        plain.glottis = marked.glottis;
        CHECK((plain == marked));
      }
}

TEST_CASE("modifiers: ejectives shut the folds and lift the larynx, releases act on velum and sides") {
  for (const auto& speaker : all_speakers()) {
    for (const char* letter : {"p", "t", "k", "q", "s", "tʃ", "ts", "f"}) {
      CAPTURE(letter);
      CHECK(pose(speaker, letter, "ʼ").glottis == 0);
      CHECK(pose(speaker, letter, "ʼ").larynx > pose(speaker, letter).larynx + 2);
    }
    CHECK(pose(speaker, "d", "ⁿ").velum > 0.3);
    CHECK(pose(speaker, "d", "ˡ").sides < -0.5);
    CHECK(pose(speaker, "t", "ʰ").glottis > pose(speaker, "t").glottis);
  }
}

TEST_CASE("modifiers: linguolabials put the tip past the teeth to the upper lip") {
  for (const auto& speaker : all_speakers())
    for (const char* letter : {"t", "d", "n", "l", "s", "θ", "ɾ"}) {
      CAPTURE(letter);
      const Pose p = pose(speaker, letter, "\u033C");
      CHECK(p.tip_x < -3);
      CHECK(p.lip_opening > 5); // room for the tongue
    }
}

TEST_CASE("modifiers: centralised and mid-centralised go half-way to the speaker's schwa") {
  for (const auto& speaker : all_speakers()) {
    const Pose schwa = pose(speaker, "ə");
    for (const char* letter : {"i", "e", "ɛ", "u", "o", "ɔ", "ɑ", "ʊ", "ɪ", "ʌ"}) {
      CAPTURE(letter);
      const Pose plain = pose(speaker, letter);
      CHECK(pose(speaker, letter, "\u0308").body_x == doctest::Approx((plain.body_x + schwa.body_x) / 2).epsilon(0.02));
      CHECK(pose(speaker, letter, "\u0308").body_y <= plain.body_y);
      CHECK(pose(speaker, letter, "\u033D").body_y == doctest::Approx((plain.body_y + schwa.body_y) / 2));
    }
  }
}

TEST_CASE("modifiers: a double closure, a fused click and an affricate keep what they are made of") {
  for (const auto& speaker : all_speakers()) {
    CAPTURE(speaker.anatomy->id);
    CHECK(pose(speaker, "kp").lip_opening < 0);
    CHECK(disc_opening(*speaker.anatomy, pose(speaker, "kp"), Disc::body) < -1);
    CHECK(pose(speaker, "ŋm").velum > 0.5);
    CHECK(pose(speaker, "ŋǃ").velum > 0.5);
    CHECK(pose(speaker, "ɡǀ").glottis < 0.25);
    for (const char* letter : {"ts", "tʃ", "tɕ", "ʈʂ", "tɬ", "kx", "pf", "qχ"}) {
      CAPTURE(letter);
      CHECK_FALSE(target(speaker, {letter}).second_phase.empty());
    }
  }
}
