#include "base/text.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"
#include "espeak/espeak.h"
#include "ipa/parse.h"
#include "phrase/shifts.h"
#include "publish/picture.h"
#include "scene/compare_moves.h"
#include "scene/compare_view.h"

#include <array>

namespace mw::cli {
namespace {
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

// "ɑː here, æ in the other accent; for ɑː the tongue goes back and down": the move reaches the sound here.
void tell_move_of(SoundPair& pair, const Take& here, const std::vector<Placed>& a, const std::vector<Placed>& b) {
  if (pair.same || !pair.a || !pair.b) return;
  const Sound& to = a.at(*pair.a).sound;
  const auto move = tell_change(*here.anatomy, *here.targets, b.at(*pair.b).sound, to);
  if (!move.text.empty()) pair.text += "; for " + to_ipa(to) + " " + move.text;
}

// The move between the two sounds that one side keeps apart.
void tell_move_of(Shift& shift, const Take& here) {
  const auto& apart = shift.kept_apart ? shift.a_ipa : shift.b_ipa;
  const auto one = parse_sound(apart[0], Notation::ipa), two = parse_sound(apart[1], Notation::ipa);
  if (!one || !two) return;
  const auto move = tell_change(*here.anatomy, *here.targets, *one, *two);
  if (!move.text.empty()) shift.text += "; from " + apart[0] + " to " + apart[1] + " " + move.text;
}

Compared compare_sides(const Take& a, const Take& b) {
  const Comparison comparison = compare(a.pronunciation, b.pronunciation, a.accent.get(), b.accent.get());
  const auto sounds_a = sounds_of(a.pronunciation), sounds_b = sounds_of(b.pronunciation);
  Compared out{{}, comparison.shifts};
  for (const auto& pair : comparison.pairs) {
    out.rows.push_back(to_row(pair, sounds_a, sounds_b));
    tell_move_of(out.rows.back().pair, a, sounds_a, sounds_b);
  }
  for (auto& shift : out.shifts) tell_move_of(shift, a);
  return out;
}

constexpr std::array change_words{"becomes", "kept_apart", "merged", "left_out", "added", "way"};

Json changes_json(const Comparing& comparing) {
  Json changes = Json::array();
  for (const auto& change : comparing.changes) {
    Json places = Json::array();
    for (const std::size_t i : change.columns) places.push_back(i);
    changes.push_back(Json{{"kind", change_words.at(static_cast<std::size_t>(change.kind))}, {"title", change.title}, {"text", change.detail}, {"pairs", places}});
  }
  return changes;
}

Json compare_json(const Options& options, const Comparing& comparing, const Compared& compared) {
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
  for (const auto& note : comparing.target->notes) notes.push_back(note_json(note));
  return {{"schema", 1},      {"phrase", options.arguments.front()}, {"accent", comparing.target->accent->id}, {"with", comparing.own->accent->id},
          {"pairs", pairs}, {"shifts", shifts}, {"changes", changes_json(comparing)}, {"notes", notes}};
}

std::string compare_text(const Options& options, const Comparing& comparing, const Compared& compared) {
  const Take &a = *comparing.target, &b = *comparing.own;
  std::string out = options.arguments.front() + "\n";
  for (const Take* side : {&a, &b})
    out += side->accent->id + ": " + transcription(side->pronunciation) + "  (" + side->accent->name + ")\n";
  if (!comparing.changes.empty()) out += "\nWhat changes for a speaker of " + b.accent->id + "\n";
  for (const auto& change : comparing.changes) out += "  " + change.title + "\n    " + change.detail + "\n";
  std::string different, ways;
  for (const auto& [pair, word, way] : compared.rows) {
    if (!pair.same) different += "  " + word + ": " + pair.text + "\n";
    if (!way.empty() && ways.find(way) == std::string::npos) ways += "  " + way + "\n"; // told once
  }
  out += different.empty() ? "\nEvery sound is the same in both.\n"
                           : "\nSounds that differ (here: " + a.accent->id + ", the other accent: " + b.accent->id + ")\n" + different;
  if (!ways.empty()) out += "\nThe same sound, made in another way\n" + ways;
  if (!compared.shifts.empty()) out += "\nKept apart or merged\n";
  for (const auto& shift : compared.shifts) out += "  " + shift.text + "\n";
  if (!a.notes.empty()) out += "\nNotes\n";
  for (const auto& note : a.notes) out += "  " + note.text + "\n";
  return out;
}

// ---- the picture

// The place that --at names: the number of a sound here, a word (where it differs, else its start), a sound.
Result<std::size_t> column_named(const Comparing& comparing, const std::string& at) {
  if (at.empty()) return telling_column(comparing);
  const auto find = [&](auto&& fits) -> std::optional<std::size_t> {
    std::optional<std::size_t> alike;
    for (std::size_t i = 0; i < comparing.columns.size(); ++i) {
      if (!fits(i)) continue;
      if (!comparing.columns[i].same) return i;
      if (!alike) alike = i;
    }
    return alike;
  };
  if (const auto number = parse_number(at))
    if (const auto found = find([&](std::size_t i) { return comparing.columns[i].target && static_cast<double>(*comparing.columns[i].target) == *number; })) return *found;
  if (const auto found = find([&](std::size_t i) { return to_lower(word_of(comparing, i)) == to_lower(at); })) return *found;
  const auto sound = parse_sound(at, Notation::ipa);
  const std::string ipa = sound ? to_ipa(*sound) : at;
  const auto says = [&](const Take& take, std::optional<std::size_t> segment) { return segment && to_ipa(take.track.segments[*segment].sound) == ipa; };
  if (const auto found = find([&](std::size_t i) { return says(*comparing.target, comparing.columns[i].target); })) return *found;
  if (const auto found = find([&](std::size_t i) { return says(*comparing.own, comparing.columns[i].own); })) return *found;
  return Problem{ProblemKind::usage, "the phrase has no such place", "--at " + at, "give a word of the phrase, a sound of it, or its number from 0"};
}

int draw(const Options& options, const Comparing& comparing) {
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  const auto column = column_named(comparing, options.at);
  if (!column) return tell(column.error());
  Tracer tracer(comparing.target->anatomy);
  const Scene scene = compose_compare(comparing, tracer, {.theme = *theme, .width = static_cast<double>(options.width), .height = static_cast<double>(options.height), .column = *column});
  const auto written = write_picture(scene, options.output, options.arguments.front(), false, options.overwrite);
  return written ? 0 : tell(written.error());
}
} // namespace

int run_compare(const Options& options) {
  if (options.with.empty())
    return tell({ProblemKind::usage, "the command needs a second accent", "--with", "try --with SSBE; 'mouthwright accents' lists them"});
  if (options.output.empty() && !options.at.empty())
    return tell({ProblemKind::usage, "--at names the place of a picture", "-o", "add -o FILE"});
  auto pronouncer = open_espeak();
  if (!pronouncer) return tell(pronouncer.error());
  Request request = to_request(options);
  const auto target = make_take(request, **pronouncer);
  if (!target) return tell(target.error());
  request.accent = options.with;
  const auto own = make_take(request, **pronouncer);
  if (!own) return tell(own.error());
  const Comparing comparing = compare_takes(*own, *target);
  if (!options.output.empty())
    if (const int code = draw(options, comparing); code != 0 || !options.json) return code;
  const Compared compared = compare_sides(**target, **own);
  return print(options.json ? json_text(compare_json(options, comparing, compared)) : compare_text(options, comparing, compared));
}

} // namespace mw::cli
