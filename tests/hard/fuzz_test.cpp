#include "accent/accent.h"
#include "base/assets.h"
#include "espeak/espeak.h"
#include "ipa/inventory.h"
#include "lesson/lesson.h"
#include "support/effort.h"
#include "take/take.h"

#include <cmath>
#include <doctest/doctest.h>

// Whatever is typed or opened: a result that keeps its promises, or a problem that says what, where and what to try.

using namespace mw;

namespace {
/// A sign that a hand, a paste or a broken file may bring.
std::string any_sign(std::mt19937& random) {
  static const std::vector<std::string> odd{" ", " ", "\n", "\t", "'", "\xE2\x80\x99", "-", "\xE2\x80\x94", ".", ",", "?", "&", "%", "\xC2\xA3", "$", "1", "27", "1984", ":", "/", "<", ">", "\xF0\x9F\x98\x80",
                                            "\xC3\xA9", "\xE4\xB8\xAD", "\xD0\x96", "\xE2\x80\x8F", "\xCC\x81", "\xCD\xA1", "|", "[", "]", "{", "\\", "\x01"};
  if (random() % 4 == 0) return odd[random() % odd.size()];
  return std::string(1, static_cast<char>((random() % 12 == 0 ? 'A' : 'a') + random() % 26));
}
std::string any_ipa(std::mt19937& random, Notation notation) {
  const auto sound = [&]() -> std::string {
    const auto& letter = letters()[random() % letters().size()];
    return notation == Notation::ipa ? letter.ipa : letter.xsampa;
  };
  const auto& mark = diacritics()[random() % diacritics().size()];
  switch (random() % 6) {
  case 0: return notation == Notation::ipa ? mark.ipa : mark.xsampa;
  case 1: return any_sign(random);
  default: return sound();
  }
}

void check_problem(const Problem& p, const std::string& input) {
  INFO(input);
  CHECK_FALSE(p.what.empty());
  CHECK_FALSE(p.remedy.empty());
  CHECK((p.kind == ProblemKind::input || p.kind == ProblemKind::usage));
}

void check_take(const Take& take, const std::string& input) {
  INFO(input);
  double last = 0;
  for (const Segment& s : take.track.segments) {
    CHECK(s.start_s >= last - 1e-9);
    CHECK(s.end_s > s.start_s);
    last = s.end_s;
  }
  CHECK(std::isfinite(take.duration_s));
  CHECK(take.duration_s >= last);
  for (const double share : {0.0, 0.3, 0.5, 0.9, 1.0}) {
    const Pose pose = pose_at(take.motion, share * take.duration_s);
    CHECK((std::isfinite(pose.body_x) && std::isfinite(pose.tip_y) && std::isfinite(pose.lip_opening)));
  }
  for (const Clash& c : take.clashes) {
    CHECK(c.start_s <= c.end_s);
    CHECK_FALSE(c.text.empty());
  }
  for (const double bar : {take.difficulty.slips, take.difficulty.slowing, take.difficulty.late_start, take.difficulty.drift}) CHECK((std::isfinite(bar) && bar >= 0));
}
} // namespace

TEST_CASE("fuzz: any text, IPA or X-SAMPA is said or refused in words") {
  const auto voices = open_espeak();
  REQUIRE(voices.has_value());
  auto random = test::lots(101);
  const auto accents = list_accents();
  REQUIRE(accents.has_value());
  int said = 0, refused = 0;
  for (int i = 0; i < test::rounds(300, 20000); ++i) {
    Request request;
    request.notation = std::array{Notation::text, Notation::ipa, Notation::xsampa}[random() % 3];
    const std::size_t length = random() % 50 == 0 ? 400 : 1 + random() % 24;
    for (std::size_t k = 0; k < length; ++k) request.phrase += request.notation == Notation::text ? any_sign(random) : any_ipa(random, request.notation);
    if (random() % 10 == 0) request.phrase = test::spoiled(request.phrase, random);
    request.accent = (*accents)[random() % accents->size()].id;
    request.rate = 1 + static_cast<double>(random() % 81) / 10;
    request.casual = static_cast<double>(random() % 11) / 10;
    request.loop = random() % 4 == 0;
    request.anatomy = anatomy_ids()[random() % anatomy_ids().size()];
    const auto take = make_take(request, **voices);
    if (take) ++said, check_take(**take, request.phrase);
    else ++refused, check_problem(take.error(), request.phrase);
  }
  CHECK(said > 50);
  CHECK(refused > 20);
}

TEST_CASE("fuzz: a spoiled accent file is read or refused with its name and a reason") {
  auto random = test::lots(102);
  const auto accents = list_accents();
  REQUIRE(accents.has_value());
  int read = 0, refused = 0;
  for (int i = 0; i < test::rounds(200, 20000); ++i) {
    const auto text = read_asset("accents/" + (*accents)[random() % accents->size()].id + ".toml");
    REQUIRE(text.has_value());
    const std::string bytes = test::spoiled(*text, random);
    const auto accent = parse_accent(bytes, "mine.toml");
    if (accent) {
      ++read;
      continue;
    }
    ++refused;
    check_problem(accent.error(), bytes.substr(0, 200));
    CHECK(accent.error().where.find("mine.toml") != std::string::npos);
  }
  CHECK(read > 5);
  CHECK(refused > 50);
}

TEST_CASE("fuzz: a spoiled lesson file is read or refused with its name and a reason") {
  auto random = test::lots(103);
  const auto text = read_asset("lessons/sample.toml");
  REQUIRE(text.has_value());
  int refused = 0;
  for (int i = 0; i < test::rounds(200, 20000); ++i) {
    const std::string bytes = test::spoiled(*text, random);
    const auto lesson = parse_lesson(bytes, "first.toml");
    if (lesson) continue;
    ++refused;
    check_problem(lesson.error(), bytes);
    CHECK(lesson.error().where.find("first.toml") != std::string::npos);
  }
  CHECK(refused > 20);
}
