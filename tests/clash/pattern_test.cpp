#include "clash/pattern.h"

#include "lines.h"

#include <algorithm>

using namespace mw;
using namespace mw::test;

namespace {

const PatternLane* lane(const Pattern& pattern, Slot slot) {
  for (const PatternLane& l : pattern.lanes)
    if (l.slot == slot) return &l;
  return nullptr;
}

std::size_t count(const Pattern& pattern, LinkKind kind) {
  return static_cast<std::size_t>(std::count_if(pattern.links.begin(), pattern.links.end(),
                                                [&](const PatternLink& link) { return link.kind == kind; }));
}

} // namespace

TEST_CASE("pattern: every sound has one card, with the articulator and manner that make it") {
  const Line line = said("ˈbɹæs ˈleɪdəl", "brass ladle");
  const Pattern pattern = find_pattern(line.track);
  REQUIRE(pattern.syllables.size() == 3);
  std::size_t cards = 0;
  for (const PatternSyllable& s : pattern.syllables) cards += s.onset.size() + s.nucleus.size() + s.coda.size();
  CHECK(cards == line.track.segments.size());
  const PatternSyllable& brass = pattern.syllables[0];
  CHECK(brass.onset[0].articulator == Articulator::lips);
  CHECK(brass.onset[0].manner == Manner::stop);
  CHECK(brass.onset[1].articulator == Articulator::tip);
  CHECK(brass.onset[1].manner == Manner::approximant);
  CHECK(brass.coda[0].manner == Manner::fricative);
}

TEST_CASE("pattern: lanes that come round after three and after two are out of step") {
  // starts: tip back back; vowels: two in turn
  const Pattern pattern = find_pattern(said("ˈtɪn ˈkeɪks ˈkoʊld ˈtɹeɪz ˈɡoʊld ˈkiz", "tin cakes cold trays gold keys").track);
  REQUIRE(lane(pattern, Slot::onset) != nullptr);
  CHECK(lane(pattern, Slot::onset)->period == 3);
  REQUIRE(lane(pattern, Slot::nucleus) != nullptr);
  CHECK(lane(pattern, Slot::nucleus)->period == 2);
  REQUIRE(pattern.out_of_step.size() == 1);
  CHECK(pattern.out_of_step[0].text == "3 against 2");
  CHECK(pattern.out_of_step[0].level == 3);
}

TEST_CASE("pattern: AB BA is a swap, AB AB a repeat") {
  const Pattern swap = find_pattern(said("ˈkɪt ˈpæn ˈpɪl ˈkʌf").track);
  CHECK(count(swap, LinkKind::swap) == 1);
  CHECK(count(swap, LinkKind::repeat) == 0);
  const Pattern repeat = find_pattern(said("ˈkɪt ˈpæn ˈkʌf ˈpɪl").track);
  CHECK(count(repeat, LinkKind::swap) == 0);
  CHECK(count(repeat, LinkKind::repeat) == 1);
}

TEST_CASE("pattern: voice does not hide a swap of the same moves") {
  CHECK(count(find_pattern(said("ˈtɪn ˈkeɪk ˈɡoʊld ˈdɛn").track), LinkKind::swap) == 1);
}

TEST_CASE("pattern: a start is known by its first action") {
  CHECK(count(find_pattern(said("ˈtɪn ˈkeɪks ˈkoʊld ˈtɹeɪz").track), LinkKind::swap) == 1);
  CHECK(count(find_pattern(said("ˈtɪn ˈkeɪks ˈkoʊld ˈɹeɪz").track), LinkKind::swap) == 0);
}

TEST_CASE("pattern: the start and the end of neighbouring syllables can be exchanged") {
  const Pattern pattern = find_pattern(said("ˈtæk ˈkɪt").track);
  REQUIRE(count(pattern, LinkKind::swap) == 1);
}

TEST_CASE("pattern: a swap over weak syllables is seen between the beats") {
  CHECK(count(find_pattern(said("ət ˈsæŋ ət ˈʃʊk ət ˈlæŋk ət ˈsʌlk").track), LinkKind::swap) == 0);
  CHECK(count(find_pattern(said("ət ˈsæŋ ət ˈʃʊk ət ˈʃɛd ət ˈsʌlk").track), LinkKind::swap) == 1);
}

TEST_CASE("pattern: closing glides with the lips going opposite ways are a counter-move, alike ones are not") {
  const Pattern opposite = find_pattern(said("ˈmaɪn ˈnaʊ").track);
  REQUIRE(count(opposite, LinkKind::counter_move) == 1);
  CHECK(opposite.syllables[0].glide.up > 0);
  CHECK(opposite.syllables[1].glide.up > 0);
  CHECK(opposite.syllables[0].glide.round < 0);
  CHECK(opposite.syllables[1].glide.round > 0);
  CHECK(count(find_pattern(said("ˈmaɪn ˈleɪ").track), LinkKind::counter_move) == 0);
  CHECK(count(find_pattern(said("ˈmɪn ˈnɑ").track), LinkKind::counter_move) == 0);
}

TEST_CASE("pattern: a loop sees over its seam") {
  const Line line = said("ˈpæn ˈkɪt ˈlu ˈmɔ ˈkʌf ˈpɪl");
  CHECK(count(find_pattern(line.track, false), LinkKind::swap) == 0);
  CHECK(count(find_pattern(line.track, true), LinkKind::swap) == 1);
}

TEST_CASE("pattern: an empty phrase has an empty pattern") {
  CHECK(find_pattern(SegmentTrack{}) == Pattern{});
  CHECK(to_text(Pattern{}).empty());
}

TEST_CASE("pattern: in text, one line a lane") {
  const std::string text = to_text(find_pattern(said("ˈtæk ˈkɪt").track));
  CHECK(text.find("start: t k\n") == 0);
  CHECK(text.find("swap: ") != std::string::npos);
}
