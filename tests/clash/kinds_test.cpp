#include "clash/accent_shifts.h"
#include "clash/clash.h"

#include "clash/difficulty_data.h"
#include "lines.h"

#include <algorithm>

using namespace mw;
using namespace mw::test;

namespace {

struct Demo {
  ClashKind kind;
  const char *text, *ipa;
};

// Invented for the kettle-mender's shop; each shows its own kind before any other, said at 4.5 syllables a second.
const Demo demos[] = {
    {ClashKind::tug, "safe pie", "ˈseɪf ˈpaɪ"},
    {ClashKind::tug, "three thick throws", "ˈθɹi ˈθɪk ˈθɹoʊz"},
    {ClashKind::quick_return, "edited titles", "ˈɛdɪtɪd ˈtaɪtəlz"},
    {ClashKind::swap, "kit packs pill cuffs", "ˈkɪt ˈpæks ˈpɪl ˈkʌfs"},
    {ClashKind::near_twins, "some shops sell shutters", "ˈsʌm ˈʃɑps ˈsɛl ˈʃʌtɚz"},
    {ClashKind::near_twins, "gold coal", "ˈɡoʊl ˈkoʊl"},
    {ClashKind::counter_move, "mind how", "ˈmaɪn ˈhaʊ"},
    {ClashKind::out_of_step, "tin cakes cold trays gold keys", "ˈtɪn ˈkeɪks ˈkoʊld ˈtɹeɪz ˈɡoʊld ˈkiz"},
};

struct Control {
  const char *text, *ipa;
};
const Control controls[] = {
    {"my aunt left a lamp", "maɪ ˈænt ˈlɛft ə ˈlæmp"},
    {"open the window", "ˈoʊpən ðə ˈwɪndoʊ"},
    {"the kettle sang", "ðə ˈkɛtəl ˈsæŋ"},
    {"put the kettle on", "ˈpʊt ðə ˈkɛtəl ˈɑn"},
    {"a copper pan", "ə ˈkɑpɚ ˈpæn"},
    {"my coat is warm", "maɪ ˈkoʊt ɪz ˈwɔɹm"},
};

bool is_plain(const std::string& text) {
  for (const char* word : {"onset", "nucleus", "coda", "fricative", "alveolar", "velar", "gesture", "segment", "dorsum", "coronal"})
    if (text.find(word) != std::string::npos) return false;
  return true;
}

} // namespace

TEST_CASE("clashes: a phrase made for a kind shows that kind first") {
  for (const Demo& demo : demos) {
    INFO(demo.text);
    const auto clashes = clashes_of(spoken(demo.ipa, demo.text));
    REQUIRE(!clashes.empty());
    CHECK(to_text(clashes[0].kind) == to_text(demo.kind));
  }
}

TEST_CASE("clashes: a phrase made for an accent shift shows it first, in plain words") {
  const Spoken target = spoken("ˈbɹɑs ˈlæmp", "brass lamp");
  const Line own = said("ˈbɹæs ˈlæmp", "brass lamp");
  const auto clashes = with_accent_shifts(clashes_of(target), find_accent_shifts(own.pronunciation, target.line.pronunciation, target.line.track));
  REQUIRE(!clashes.empty());
  CHECK(clashes[0].kind == ClashKind::accent_shift);
  CHECK(is_plain(clashes[0].title + clashes[0].text + clashes[0].feel + clashes[0].where));
  CHECK(clashes[0].feel.back() == '.');
}

TEST_CASE("clashes: plain phrases show none") {
  for (const Control& control : controls) {
    INFO(control.text);
    CHECK(clashes_of(spoken(control.ipa, control.text)).empty());
  }
}

TEST_CASE("clashes: each names its sounds, its time, an articulator, a level, a sentence and a feel cue") {
  for (const Demo& demo : demos)
    for (const Spoken s = spoken(demo.ipa, demo.text); const Clash& clash : clashes_of(s)) {
      INFO(demo.text, ": ", clash.text, ' ', clash.feel);
      REQUIRE(!clash.segments.empty());
      CHECK(std::is_sorted(clash.segments.begin(), clash.segments.end()));
      CHECK(clash.segments.back() < s.line.track.segments.size());
      CHECK(clash.start_s >= 0);
      CHECK(clash.end_s > clash.start_s);
      CHECK(clash.end_s <= s.line.track.duration_s);
      // The time belongs to its sounds.
      CHECK(clash.start_s < s.line.track.segments[clash.segments.back()].end_s);
      CHECK(clash.end_s > s.line.track.segments[clash.segments.front()].start_s);
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
  const auto clashes = clashes_of(spoken("ˈsɪks ˈʃɛlvz ˈʃʊk ˈsoʊ ˈkeɪs ˈtoʊz", "six shelves shook so case toes"));
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

TEST_CASE("clashes: a faster rate leaves less time") {
  const auto count = [](double rate, ClashKind kind) {
    const auto clashes = clashes_of(spoken("ˈɛdɪtɪd ˈtaɪtəlz ɪn ə ˈkætəlɑɡ", "edited titles in a catalogue", rate));
    double strength = 0;
    for (const Clash& clash : clashes) strength += clash.kind == kind ? clash.strength : 0;
    return strength;
  };
  CHECK(count(7, ClashKind::quick_return) > count(4, ClashKind::quick_return));
}

TEST_CASE("clashes: the same sounds for a woman and a child as for a man") {
  // The measure is scaled to the speaker, so a lesson keeps its clashes when the head is changed.
  const Line line = [] {
    Line l = said("ˈθɹi ˈθɪk ˈθɹoʊz ˈseɪf ˈpaɪ", "three thick throws safe pie");
    l.track = spell_out(l.pronunciation);
    return l;
  }();
  std::vector<std::vector<std::size_t>> all;
  for (const char* id : {"adult-male", "adult-female", "child"}) {
    const auto anatomy = read_anatomy(id);
    REQUIRE(anatomy.has_value());
    const auto score = plan(line.track, *anatomy);
    INFO(id, ": ", score.has_value() ? std::string() : score.error().what + ' ' + score.error().where);
    REQUIRE(score.has_value());
    std::vector<std::size_t> tugs;
    for (const Clash& clash : find_clashes(line.pronunciation, line.track, *score, bake(*score)))
      if (clash.kind == ClashKind::tug) tugs.insert(tugs.end(), clash.segments.begin(), clash.segments.end());
    std::sort(tugs.begin(), tugs.end());
    all.push_back(tugs);
  }
  CHECK(all[0] == all[1]);
  CHECK(all[0] == all[2]);
}

TEST_CASE("clashes: ordinary lines show few, lines made to be hard many") {
  // Share of sounds in any clash over the reference list; the goal is 5 to 15 % for ordinary prose.
  double marked[2] = {0, 0}, sounds[2] = {0, 0};
  for (const ReferencePhrase& phrase : difficulty_data()->reference) {
    const Spoken s = spoken(phrase.ipa);
    std::vector<bool> in_clash(s.line.track.segments.size());
    for (const Clash& clash : clashes_of(s))
      for (std::size_t segment : clash.segments) in_clash[segment] = true;
    marked[phrase.hard] += static_cast<double>(std::count(in_clash.begin(), in_clash.end(), true));
    sounds[phrase.hard] += static_cast<double>(in_clash.size());
  }
  const double plain = marked[0] / sounds[0], hard = marked[1] / sounds[1];
  MESSAGE("plain ", 100 * plain, " %, hard ", 100 * hard, " %");
  CHECK(plain < .15);
  CHECK(hard > 2 * plain);
}
