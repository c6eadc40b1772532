#include "scene/compare_takes.h"

#include "base/text.h"
#include "scene/compare_moves.h"
#include "scene/describe.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace mw {
namespace {

// A sound more or less is as much as a large move; what keeps words apart comes before what only sounds another way.
constexpr double whole_sound_mm = 8, apart_mm = 8;

/// All places of the phrase where the own accent has one sound and the target another (or the same).
struct Group {
  std::string own, target; // IPA; empty where a side has nothing
  const Sound *own_sound = nullptr, *target_sound = nullptr;
  std::vector<std::size_t> columns;
  std::vector<std::string> sets; // lexical sets of the vowels
  bool way = false;              // one sign, two ways
  bool strong = false;           // a consonant, or a vowel with stress somewhere
  bool told = false;
  [[nodiscard]] bool differs() const { return own != target || way; }
};

const Segment* own_segment(const Comparing& c, std::size_t column) { return c.columns[column].own ? &c.own->track.segments[*c.columns[column].own] : nullptr; }
const Segment* target_segment(const Comparing& c, std::size_t column) { return c.columns[column].target ? &c.target->track.segments[*c.columns[column].target] : nullptr; }

std::string set_of(const Take& take, const Segment& s) {
  const auto word = static_cast<std::size_t>(s.word), syllable = static_cast<std::size_t>(s.syllable);
  if (s.slot != Slot::nucleus || s.word < 0 || word >= take.pronunciation.words.size() || syllable >= take.pronunciation.words[word].syllables.size()) return "";
  const auto set = take.pronunciation.words[word].syllables[syllable].set;
  return set ? std::string{to_keyword(*set)} : "";
}

std::vector<Group> groups_of(const Comparing& c) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < c.columns.size(); ++i) {
    const Segment *o = own_segment(c, i), *t = target_segment(c, i);
    Group g{o ? to_ipa(o->sound) : "", t ? to_ipa(t->sound) : "", o ? &o->sound : nullptr, t ? &t->sound : nullptr, {}, {}};
    g.way = o && t && g.own == g.target && o->sound.kind != t->sound.kind;
    auto at = std::find_if(groups.begin(), groups.end(), [&](const Group& x) { return x.own == g.own && x.target == g.target && x.way == g.way; });
    if (at == groups.end()) at = groups.insert(groups.end(), std::move(g));
    at->columns.push_back(i);
    const Segment& s = t ? *t : *o;
    at->strong = at->strong || !is_vowel(s.sound) || s.stress > 0;
    if (const std::string set = set_of(t ? *c.target : *c.own, s); !set.empty() && std::find(at->sets.begin(), at->sets.end(), set) == at->sets.end()) at->sets.push_back(set);
  }
  return groups;
}

std::string times(std::size_t n) { return n < 2 ? "" : n == 2 ? ", twice" : ", " + to_text(static_cast<int>(n)) + " times"; }

std::string listed(const std::vector<std::string>& parts, const char* last) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) out += (i == 0 ? "" : i + 1 == parts.size() ? last : ", ") + parts[i];
  return out;
}

std::string words_of(const Comparing& c, const std::vector<std::size_t>& columns, std::size_t most = 4) {
  std::vector<std::string> words;
  for (const std::size_t i : columns)
    if (const std::string word = to_lower(word_of(c, i)); std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  const bool more = words.size() > most;
  if (more) words.resize(most);
  return join(words, ", ") + (more ? " \u2026" : "");
}

struct Told {
  const Comparing& c;
  const Anatomy& anatomy;
  const TargetTable& targets;

  [[nodiscard]] double weight(double size, const std::vector<std::size_t>& columns, bool shift) const {
    bool stressed = false;
    for (const std::size_t i : columns) {
      const Segment* s = target_segment(c, i) ? target_segment(c, i) : own_segment(c, i);
      stressed = stressed || s->stress > 0;
    }
    return size * std::sqrt(static_cast<double>(columns.size())) * (stressed ? 1 : 0.6) + (shift ? apart_mm : 0);
  }
  // One sound for another; `beside` are places whose vowel or consonant stays, or is joined.
  [[nodiscard]] Change becomes(const Group& g, const std::string& beside) const {
    Change out;
    const SoundMove move = tell_change(anatomy, targets, *g.own_sound, *g.target_sound);
    if (g.way) {
      out.kind = Change::Kind::way;
      const auto name = [](const Sound& s) { return s.kind.empty() ? std::string{"plain"} : s.kind; };
      out.title = g.target + " made in another way: " + name(*g.target_sound) + ", not " + name(*g.own_sound);
    } else out.title = (g.sets.empty() ? "" : join(g.sets, ", ") + ": ") + g.own + " becomes " + g.target + times(g.columns.size());
    out.detail = words_of(c, g.columns) + beside + (move.text.empty() ? "" : ": " + move.text);
    out.columns = g.columns, out.shift = !beside.empty();
    out.weight = weight(g.way ? 0.5 * move.size : std::max(move.size, 1.0), g.columns, out.shift);
    return out;
  }
  [[nodiscard]] Change one_sided(const Group& g) const {
    Change out;
    const bool added = g.own.empty();
    out.kind = added ? Change::Kind::added : Change::Kind::left_out;
    out.title = (added ? g.target + " is said as well" : g.own + " is left out") + times(g.columns.size());
    const SoundWords words = describe_sound(added ? *g.target_sound : *g.own_sound);
    out.detail = words_of(c, g.columns) + (words.what.empty() ? "" : added ? ": the " + words.what : ": without it, no move of the " + words.what.substr(0, words.what.find(' ')));
    out.columns = g.columns;
    out.weight = weight(whole_sound_mm, g.columns, false);
    return out;
  }
  // The move from one of the sounds kept apart to the other.
  [[nodiscard]] std::string split_words(const Group& a, const Group& b) const {
    const std::string move = tell_change(anatomy, targets, *a.target_sound, *b.target_sound).text;
    return move.empty() ? "" : ": for " + b.target + " " + move;
  }
  // The longest way that one of the own sounds has to go.
  [[nodiscard]] std::string merge_words(const std::vector<Group*>& parts) const {
    const Group* furthest = parts.front();
    SoundMove most{"", -1};
    for (const Group* g : parts)
      if (const SoundMove move = tell_change(anatomy, targets, *g->own_sound, *g->target_sound); move.size > most.size) most = move, furthest = g;
    return most.text.empty() ? "" : ": from " + furthest->own + " " + most.text;
  }
  // Several sounds on one side, one on the other, and none of the several is the one.
  [[nodiscard]] Change apart(const std::vector<Group*>& parts, bool split) const {
    Change out;
    out.kind = split ? Change::Kind::split : Change::Kind::merge;
    out.shift = true;
    std::vector<std::string> sounds;
    double size = 0;
    for (const Group* g : parts) {
      sounds.push_back(split ? g->target : g->own);
      out.columns.insert(out.columns.end(), g->columns.begin(), g->columns.end());
      size = std::max(size, tell_change(anatomy, targets, *g->own_sound, *g->target_sound).size);
    }
    std::sort(out.columns.begin(), out.columns.end());
    const std::string one = split ? parts.front()->own : parts.front()->target;
    out.title = split ? listed(sounds, " and ") + " kept apart, no " + one : "one " + one + " for " + listed(sounds, " and ");
    out.detail = words_of(c, parts[0]->columns, 2) + ", " + words_of(c, parts[1]->columns, 2) + (split ? split_words(*parts[0], *parts[1]) : merge_words(parts));
    out.weight = weight(size, out.columns, true);
    return out;
  }
};

// ---- whole words: fine and find

/// Columns of the word that holds a sound of the target; sounds of the own side alone too.
std::vector<std::size_t> columns_of_word(const Comparing& c, std::size_t target, std::size_t own) {
  const int t = c.target->track.segments[target].word, o = c.own->track.segments[own].word;
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < c.columns.size(); ++i) {
    const Segment *there = target_segment(c, i), *here = own_segment(c, i);
    if (there ? there->word == t : here->word == o) out.push_back(i);
  }
  return out;
}

/// What makes one word of two, or two of one, in a few plain words: a sound that only one side says, else one that differs.
std::string word_move(const Told& told, const std::vector<std::size_t>& columns) {
  for (const std::size_t i : columns) {
    const Segment *o = own_segment(told.c, i), *t = target_segment(told.c, i);
    if (t && !o) return "say the " + to_ipa(t->sound) + ", the " + describe_sound(t->sound).what;
    if (o && !t) return "leave the " + to_ipa(o->sound) + " out";
  }
  for (const std::size_t i : columns) {
    const Segment *o = own_segment(told.c, i), *t = target_segment(told.c, i);
    if (to_ipa(o->sound) != to_ipa(t->sound)) return "for " + to_ipa(t->sound) + " " + tell_change(told.anatomy, told.targets, o->sound, t->sound).text;
  }
  return "";
}

Change word_change(const Told& told, const Shift& s) {
  Change out;
  out.kind = s.kept_apart ? Change::Kind::split : Change::Kind::merge;
  out.shift = true;
  for (const std::size_t k : {0u, 1u})
    for (const std::size_t i : columns_of_word(told.c, s.a_places[k], s.b_places[k])) out.columns.push_back(i);
  std::sort(out.columns.begin(), out.columns.end());
  const std::vector<std::size_t> all = out.columns;
  std::erase_if(out.columns, [&](std::size_t i) { return told.c.columns[i].same; });
  const std::string move = word_move(told, out.columns);
  if (out.columns.empty()) out.columns = all;
  out.title = to_lower(s.words[0]) + " and " + to_lower(s.words[1]) + (s.kept_apart ? ": two words here, one in the learner\u2019s" : ": one word here, two in the learner\u2019s");
  out.detail = s.kept_apart ? s.a_ipa[0] + " and " + s.a_ipa[1] + ", not twice " + s.b_ipa[0] : s.a_ipa[0] + " for both, not " + s.b_ipa[0] + " and " + s.b_ipa[1];
  if (!move.empty()) out.detail += ": " + move;
  out.weight = told.weight(whole_sound_mm, out.columns, true);
  return out;
}

/// A sound that only one side has, told with its words already.
bool is_told(const std::vector<Change>& words, const Group& g) {
  if (!g.own.empty() && !g.target.empty()) return false;
  return std::any_of(words.begin(), words.end(), [&](const Change& w) {
    return std::all_of(g.columns.begin(), g.columns.end(), [&](std::size_t i) { return std::count(w.columns.begin(), w.columns.end(), i) > 0; });
  });
}

// Groups that share the sound of one side and part on the other; weak vowels follow the strong ones and count for nothing.
std::vector<Group*> sharing(std::vector<Group>& groups, const Group& g, bool split) {
  std::vector<Group*> out;
  for (Group& x : groups)
    if (!x.own.empty() && !x.target.empty() && x.strong && !x.way && (split ? x.own == g.own : x.target == g.target)) out.push_back(&x);
  return out;
}

// Whether the phrase layer counts two groups as told apart on one side only; allophones are not.
bool is_shift(const std::vector<Shift>& shifts, const Group& x, const Group& y, bool split) {
  return std::any_of(shifts.begin(), shifts.end(), [&](const Shift& s) {
    if (s.kept_apart != split || s.of == ShiftOf::word || s.weak) return false;
    const auto& sounds = split ? s.a_ipa : s.b_ipa;
    const std::string &one = split ? x.target : x.own, &two = split ? y.target : y.own;
    return (sounds[0] == one && sounds[1] == two) || (sounds[0] == two && sounds[1] == one);
  });
}

std::vector<Change> changes_of(const Comparing& c, const std::vector<Shift>& shifts) {
  std::vector<Change> out;
  auto groups = groups_of(c);
  const Told told{c, *c.target->anatomy, *c.target->targets};
  for (const Shift& s : shifts)
    if (s.of == ShiftOf::word && !s.weak) out.push_back(word_change(told, s));
  const std::vector<Change> words = out;
  for (Group& g : groups) {
    if (g.told || !g.differs() || is_told(words, g)) continue;
    if (g.own.empty() || g.target.empty()) {
      out.push_back(told.one_sided(g));
      continue;
    }
    std::string beside;
    bool done = false;
    for (const bool split : {true, false}) {
      if (!g.strong || g.way || done) continue;
      auto parts = sharing(groups, g, split);
      std::erase_if(parts, [&](const Group* x) { return x != &g && !is_shift(shifts, g, *x, split); });
      if (parts.size() < 2) continue;
      const auto stays = std::find_if(parts.begin(), parts.end(), [](const Group* x) { return !x->differs(); });
      if (stays != parts.end()) {
        if (beside.empty()) beside = (split ? ", not " : ", now as in ") + words_of(c, (*stays)->columns, 1);
        continue;
      }
      if (std::any_of(parts.begin(), parts.end(), [](const Group* x) { return x->told; })) continue;
      for (Group* x : parts) x->told = true;
      out.push_back(told.apart(parts, split));
      done = true;
    }
    if (!done) out.push_back(told.becomes(g, beside)), g.told = true;
  }
  std::stable_sort(out.begin(), out.end(), [](const Change& a, const Change& b) { return a.weight > b.weight; });
  return out;
}

// The vowels of both sides in the columns that differ, each once.
std::vector<ChartSet> differing(const Comparing& c) {
  std::vector<ChartSet> out;
  std::set<std::string> seen;
  for (std::size_t i = 0; i < c.columns.size(); ++i) {
    const Segment *o = own_segment(c, i), *t = target_segment(c, i);
    if (!o || !t || !is_vowel(o->sound) || !is_vowel(t->sound) || to_ipa(o->sound) == to_ipa(t->sound)) continue;
    const auto add = [&](const Segment& s, ChartSet::Look look) {
      const auto start = vowel_place(s.sound);
      if (!start) return;
      std::string label = set_of(*c.target, *t);
      if (label.empty()) label = to_ipa(s.sound);
      ChartSet set{label, *start, is_glide(s.sound) ? vowel_place(s.sound, true) : std::nullopt, look, look == ChartSet::Look::own};
      const bool known = std::any_of(out.begin(), out.end(), [&](const ChartSet& x) { return x.label == set.label && x.look == set.look && x.start == set.start && x.end == set.end; });
      if (!known) out.push_back(std::move(set));
    };
    add(o->sound == t->sound ? *t : *o, ChartSet::Look::second);
    add(*t, ChartSet::Look::own);
  }
  return out;
}

} // namespace

std::string word_of(const Comparing& c, std::size_t column) {
  const bool in_target = c.columns[column].target.has_value();
  const Take& take = in_target ? *c.target : *c.own;
  const Segment& s = in_target ? *target_segment(c, column) : *own_segment(c, column);
  const auto word = static_cast<std::size_t>(std::max(s.word, 0));
  return word < take.pronunciation.words.size() ? take.pronunciation.words[word].text : "";
}

Comparing compare_takes(std::shared_ptr<const Take> own, std::shared_ptr<const Take> target) {
  Comparing c{std::move(own), std::move(target), {}, {}, {}, {}};
  Comparison comparison = compare(c.target->pronunciation, c.own->pronunciation, c.target->accent.get(), c.own->accent.get());
  auto& pairs = comparison.pairs;
  for (SoundPair& pair : pairs) // one sign made in two ways is the same sign
    if (pair.a && pair.b) pair.same = to_ipa(c.target->track.segments[*pair.a].sound) == to_ipa(c.own->track.segments[*pair.b].sound);
  c.columns = time_columns(pairs, c.own->track, c.target->track);
  c.clock = clock_of(c.columns, c.own->duration_s, c.target->duration_s);
  c.changes = changes_of(c, comparison.shifts);
  c.sets = differing(c);
  return c;
}

} // namespace mw
