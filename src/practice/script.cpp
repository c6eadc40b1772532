#include "practice/script.h"

#include "base/text.h"
#include "clash/accent_shifts.h"
#include "clash/analysis.h"
#include "segments/track.h"

#include <algorithm>

namespace mw {

namespace {

/// Takes out what stands in round or square brackets; `open` carries a bracket over the end of a line.
std::string without_directions(std::string_view text, int& open) {
  std::string kept;
  for (char c : text) {
    if (c == '(' || c == '[') { ++open; continue; }
    if ((c == ')' || c == ']') && open > 0) { --open; kept += ' '; continue; }
    if (open == 0) kept += c;
  }
  return kept;
}

std::string tidy(std::string_view text) {
  std::string out;
  for (char c : trim(text))
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  return std::string(trim(out));
}

bool has_letter(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
  });
}

// A name before a colon is short; "He said this: no" is speech.
constexpr std::size_t longest_name = 3; // words

bool is_name(std::string_view text) {
  const std::string name = tidy(text);
  if (name.empty() || !has_letter(name)) return false;
  const auto words = split(name, ' ');
  return words.size() <= longest_name && (words.front()[0] < 'a' || words.front()[0] > 'z');
}

/// A line in capitals alone, without a full stop, names the part of what follows.
bool is_heading(std::string_view text) {
  if (!is_name(text) || text.find_first_of(".?!,;") != std::string_view::npos) return false;
  return std::none_of(text.begin(), text.end(), [](char c) { return c >= 'a' && c <= 'z'; }) &&
         std::any_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

std::vector<Spot> spots_of(const Pronunciation& pronunciation, const SegmentTrack& track, const std::vector<Clash>& clashes) {
  std::vector<Spot> spots;
  for (const Clash& clash : clashes) {
    Spot spot{.span = {}, .kind = clash.kind, .level = clash.level, .text = clash.text};
    const Word& first = pronunciation.words[static_cast<std::size_t>(track.segments[clash.segments.front()].word)];
    const Word& last = pronunciation.words[static_cast<std::size_t>(track.segments[clash.segments.back()].word)];
    spot.span = {first.span.start, last.span.end};
    spots.push_back(std::move(spot));
  }
  return spots;
}

double value_of(const Difficulty& d, RankBy by) {
  switch (by) {
  case RankBy::overall: return d.overall;
  case RankBy::slips: return d.slips;
  case RankBy::slowing: return d.slowing;
  case RankBy::late_start: return d.late_start;
  case RankBy::drift: return d.drift;
  }
  return 0;
}

} // namespace

std::vector<ScriptLine> read_script(std::string_view text) {
  std::vector<ScriptLine> lines;
  std::string part;
  int number = 0, open = 0;
  for (const std::string& raw : split(text, '\n')) {
    ++number;
    std::string said = tidy(without_directions(replace_all(raw, "\r", ""), open));
    if (is_heading(said)) {
      part = said;
      continue;
    }
    if (const std::size_t colon = said.find(':'); colon != std::string::npos && is_name(std::string_view(said).substr(0, colon))) {
      part = tidy(std::string_view(said).substr(0, colon));
      said = tidy(std::string_view(said).substr(colon + 1));
    }
    if (has_letter(said)) lines.push_back({number, part, said});
  }
  return lines;
}

std::vector<std::string> parts_of(const std::vector<ScriptLine>& lines) {
  std::vector<std::string> parts;
  for (const ScriptLine& line : lines)
    if (!line.part.empty() && std::find(parts.begin(), parts.end(), line.part) == parts.end()) parts.push_back(line.part);
  return parts;
}

Result<RankedLine> rank_line(const ScriptLine& line, const Accent& accent, Pronouncer& pronouncer,
                             const PronounceSettings& settings, const Accent* learner,
                             std::shared_ptr<const Anatomy> speaker) {
  const auto pronunciation = pronounce(line.text, accent, pronouncer, settings);
  if (!pronunciation) return pronunciation.error();
  const SegmentTrack track = spell_out(*pronunciation);
  const Analysis analysis = analyse(track, false);
  Score score; // without moves: the pattern of actions alone
  if (speaker) {
    auto planned = plan(track, std::move(speaker));
    if (!planned) return planned.error();
    score = std::move(*planned);
  }
  auto clashes = find_clashes(*pronunciation, track, score, analysis);
  Difficulty difficulty = judge(*pronunciation, track, {}, {}, clashes, analysis);
  if (learner != nullptr) {
    const auto own = pronounce(line.text, *learner, pronouncer, settings);
    if (!own) return own.error();
    clashes = with_accent_shifts(std::move(clashes), find_accent_shifts(*own, *pronunciation, track, learner, &accent));
  }
  return RankedLine{line, std::move(difficulty), spots_of(*pronunciation, track, clashes)};
}

void sort_hardest(std::vector<RankedLine>& lines, RankBy by) {
  std::stable_sort(lines.begin(), lines.end(), [&](const RankedLine& a, const RankedLine& b) {
    return value_of(a.difficulty, by) > value_of(b.difficulty, by);
  });
}

} // namespace mw
