#include "clash/clash.h"

#include "lines.h"

#include <algorithm>

using namespace mw;
using namespace mw::test;

namespace {

struct Demo {
  ClashKind kind;
  const char *text, *ipa;
};

// Invented for the kettle-mender's shop; each shows its own kind before any other.
const Demo demos[] = {
    {ClashKind::swap, "kit packs pick caps", "ˈkɪt ˈpæks ˈpɪl ˈkʌfs"},
    {ClashKind::near_twins, "some shops sell shutters", "ˈsʌm ˈʃɑps ˈsɛl ˈʃʌtɚz"},
    {ClashKind::near_twins, "gold coat", "ˈɡoʊl ˈkoʊl"},
    {ClashKind::counter_move, "mind how", "ˈmaɪn ˈhaʊ"},
    {ClashKind::out_of_step, "tin cakes cold trays gold keys", "ˈtɪn ˈkeɪks ˈkoʊld ˈtɹeɪz ˈɡoʊld ˈkiz"},
};

const Demo controls[] = {
    {ClashKind::tug, "my aunt left a lamp", "maɪ ˈænt ˈlɛft ə ˈlæmp"},
    {ClashKind::tug, "a big red barn", "ə ˈbɪɡ ˈɹɛd ˈbɑɹn"},
    {ClashKind::tug, "open the window", "ˈoʊpən ðə ˈwɪndoʊ"},
    {ClashKind::tug, "the kettle sang", "ðə ˈkɛtəl ˈsæŋ"},
};

bool is_plain(const std::string& text) {
  for (const char* word : {"onset", "nucleus", "coda", "fricative", "alveolar", "velar", "gesture", "segment", "dorsum", "coronal"})
    if (text.find(word) != std::string::npos) return false;
  return true;
}

} // namespace

TEST_CASE("clashes: a phrase made for a kind of the pattern shows that kind first") {
  for (const Demo& demo : demos) {
    INFO(demo.text);
    const auto clashes = clashes_of(said(demo.ipa, demo.text));
    REQUIRE(!clashes.empty());
    CHECK(to_text(clashes[0].kind) == to_text(demo.kind));
  }
}

TEST_CASE("clashes: plain phrases show none") {
  for (const Demo& control : controls) {
    INFO(control.text);
    CHECK(clashes_of(said(control.ipa, control.text)).empty());
  }
}

TEST_CASE("clashes: each names its sounds, its time, an articulator, a level, a sentence and a feel cue") {
  for (const Demo& demo : demos)
    for (const Line line = said(demo.ipa, demo.text); const Clash& clash : clashes_of(line)) {
      INFO(demo.text, ": ", clash.text, ' ', clash.feel);
      REQUIRE(!clash.segments.empty());
      CHECK(std::is_sorted(clash.segments.begin(), clash.segments.end()));
      CHECK(clash.start_s == line.track.segments[clash.segments.front()].start_s);
      CHECK(clash.end_s == line.track.segments[clash.segments.back()].end_s);
      CHECK(!clash.articulators.empty());
      CHECK(clash.level >= 1);
      CHECK(clash.level <= 3);
      CHECK(!clash.title.empty());
      CHECK(!clash.where.empty());
      CHECK(clash.text.back() == '.');
      CHECK(clash.feel.back() == '.');
      CHECK(is_plain(clash.title + clash.text + clash.feel + clash.where));
    }
}

TEST_CASE("clashes: strongest first") {
  const auto clashes = clashes_of(said("ˈsɪks ˈʃɛlvz ˈʃʊk ˈsoʊ ˈkeɪs ˈtoʊz", "six shelves shook so case toes"));
  REQUIRE(clashes.size() > 1);
  CHECK(std::is_sorted(clashes.begin(), clashes.end(), [](const Clash& a, const Clash& b) { return a.level > b.level; }));
}

TEST_CASE("clashes: every kind has a name for files and one for people") {
  for (ClashKind kind : {ClashKind::tug, ClashKind::quick_return, ClashKind::swap, ClashKind::near_twins,
                         ClashKind::counter_move, ClashKind::out_of_step, ClashKind::accent_shift}) {
    CHECK(!to_text(kind).empty());
    CHECK(!learner_name(kind).empty());
  }
  CHECK(to_text(ClashKind::quick_return) == "quick_return");
  CHECK(learner_name(ClashKind::near_twins) == "Near twins");
}
