#include "base/text.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"
#include "espeak/espeak.h"
#include "phrase/correct.h"
#include "phrase/shifts.h"

#include <algorithm>
#include <cstdint>

namespace mw::cli {
namespace {
struct Side {
  Accent accent;
  Pronunciation said;
};

Result<Side> side_of(const Options& options, const std::string& accent_name, const OwnWords& own, Pronouncer& pronouncer) {
  auto accent = read_accent(accent_name);
  if (!accent) return accent.error();
  auto said = pronounce(options.arguments.front(), *accent, pronouncer,
                        {.notation = options.notation, .casual = options.casual,
                         .corrections = with_own_words(options.corrections, own)});
  if (!said) return said.error();
  said->notes.insert(said->notes.end(), own.notes.begin(), own.notes.end());
  return Side{std::move(*accent), std::move(*said)};
}

// every sound of the phrase with its word, in order
struct Placed {
  Sound sound;
  std::string word;
};
std::vector<Placed> sounds_of(const Pronunciation& said) {
  std::vector<Placed> sounds;
  for (const auto& word : said.words)
    for (const auto& syllable : word.syllables) {
      for (const auto& sound : syllable.onset) sounds.push_back({sound, word.text});
      sounds.push_back({syllable.nucleus, word.text});
      for (const auto& sound : syllable.coda) sounds.push_back({sound, word.text});
    }
  return sounds;
}

struct Row {
  SoundPair pair;
  std::string word, way; // way: one sign, but made in two ways
};
struct Compared {
  std::vector<Row> rows;
  std::vector<Shift> shifts;
};

// What no sign shows (a bunched r, one with the tip up) is the same sound made in another way.
Row to_row(SoundPair pair, const std::vector<Placed>& a, const std::vector<Placed>& b) {
  if (!pair.a || !pair.b) return {pair, pair.a ? a.at(*pair.a).word : b.at(*pair.b).word, ""};
  const Placed &here = a.at(*pair.a), &there = b.at(*pair.b);
  if (pair.same || to_ipa(here.sound) != to_ipa(there.sound)) return {pair, here.word, ""};
  pair.same = true;
  pair.text.clear();
  const auto name = [](const Sound& sound) { return sound.kind.empty() ? "plain" : sound.kind; };
  return {pair, here.word, to_ipa(here.sound) + " is " + name(here.sound) + " here, " + name(there.sound) + " in the other accent"};
}

Compared compare_sides(const Side& a, const Side& b) {
  const Comparison comparison = compare(a.said, b.said, &a.accent, &b.accent);
  const auto sounds_a = sounds_of(a.said), sounds_b = sounds_of(b.said);
  Compared out{{}, comparison.shifts};
  for (const auto& pair : comparison.pairs) out.rows.push_back(to_row(pair, sounds_a, sounds_b));
  return out;
}

Json compare_json(const Options& options, const Side& a, const Side& b, const Compared& compared) {
  Json pairs = Json::array(), shifts = Json::array(), notes = Json::array();
  for (const auto& [pair, word, way] : compared.rows) {
    Json entry = Json::object();
    if (pair.a) entry["a"] = *pair.a;
    if (pair.b) entry["b"] = *pair.b;
    entry["same"] = pair.same;
    entry["text"] = pair.text;
    if (!way.empty()) entry["way"] = way;
    pairs.push_back(std::move(entry));
  }
  for (const auto& shift : compared.shifts)
    shifts.push_back(Json{{"kind", shift.kept_apart ? "kept_apart" : "merged"}, {"words", shift.words},
                          {"a_ipa", shift.a_ipa}, {"b_ipa", shift.b_ipa}, {"text", shift.text}});
  for (const auto& note : a.said.notes) notes.push_back(note_json(note));
  return {{"schema", 1},      {"phrase", options.arguments.front()}, {"accent", a.accent.id}, {"with", b.accent.id},
          {"pairs", pairs}, {"shifts", shifts},                      {"notes", notes}};
}

std::string compare_text(const Options& options, const Side& a, const Side& b, const Compared& compared) {
  std::string out = options.arguments.front() + "\n";
  for (const Side* side : {&a, &b})
    out += side->accent.id + ": " + transcription(side->said) + "  (" + side->accent.name + ")\n";
  std::string different, ways;
  for (const auto& [pair, word, way] : compared.rows) {
    if (!pair.same) different += "  " + word + ": " + pair.text + "\n";
    if (!way.empty() && ways.find(way) == std::string::npos) ways += "  " + way + "\n"; // told once
  }
  out += different.empty() ? "\nEvery sound is the same in both.\n"
                           : "\nSounds that differ (here: " + a.accent.id + ", the other accent: " + b.accent.id + ")\n" + different;
  if (!ways.empty()) out += "\nThe same sound, made in another way\n" + ways;
  if (!compared.shifts.empty()) out += "\nKept apart or merged\n";
  for (const auto& shift : compared.shifts) out += "  " + shift.text + "\n";
  if (!a.said.notes.empty()) out += "\nNotes\n";
  for (const auto& note : a.said.notes) out += "  " + note.text + "\n";
  return out;
}
} // namespace

int run_compare(const Options& options) {
  if (options.with.empty())
    return tell({ProblemKind::usage, "the command needs a second accent", "--with", "try --with SSBE; 'mouthwright accents' lists them"});
  auto pronouncer = open_espeak();
  if (!pronouncer) return tell(pronouncer.error());
  const OwnWords own = read_own_words();
  const auto a = side_of(options, options.accent, own, **pronouncer);
  if (!a) return tell(a.error());
  const auto b = side_of(options, options.with, own, **pronouncer);
  if (!b) return tell(b.error());
  const Compared compared = compare_sides(*a, *b);
  return print(options.json ? json_text(compare_json(options, *a, *b, compared)) : compare_text(options, *a, *b, compared));
}

} // namespace mw::cli
