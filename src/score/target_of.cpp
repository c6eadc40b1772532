#include "score/compose.h"
#include "score/modifiers.h"

#include "base/text.h"

#include <algorithm>

namespace mw {
namespace {
constexpr std::string_view ejective_mark = "\u02BC";

/// The row of letter and marks written together ("t" + dental sign = row of the dental t), and the marks it used up.
struct FoundRow {
  std::optional<Target> row;
  std::vector<std::string> marks_left;
};

std::optional<Target> plain_row(const TargetTable& table, const std::string& symbol) {
  if (const Target* row = table.consonant(symbol)) return *row;
  if (const Target* row = table.vowel(symbol)) return *row;
  return {};
}

/// Spellings of one row: mark or kind -> symbol of the tables.
struct Spelling {
  std::string_view letter, mark, symbol;
};
constexpr Spelling spellings[] = {
    {"ə", "\u02DE", "ɚ"}, {"ɜ", "\u02DE", "ɝ"}, {"l", "\u02E0", "ɫ"}, {"l", "\u0334", "ɫ"}, {"ɹ", "bunched", "ɹ bunched"},
    {"ɹ", "tip-up", "ɹ"}, {"ɚ", "bunched", "ɚ"}, {"ɝ", "bunched", "ɝ"},
};

FoundRow find_row(const TargetTable& table, const Sound& sound) {
  for (std::size_t i = 0; i < sound.marks.size(); ++i) {
    std::string symbol = to_nfd(sound.letter + sound.marks[i]);
    for (const auto& s : spellings)
      if (s.letter == sound.letter && s.mark == sound.marks[i]) symbol = s.symbol;
    auto row = plain_row(table, symbol);
    if (!row) continue;
    auto left = sound.marks;
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
    return {std::move(row), std::move(left)};
  }
  return {plain_row(table, sound.letter), sound.marks};
}

/// The kind of r that no sign shows; used up when it names a row of its own.
void apply_kind(const TargetTable& table, Sound& sound, std::optional<Target>& row) {
  for (const auto& s : spellings) {
    if (s.letter != sound.letter || s.mark != sound.kind) continue;
    row = plain_row(table, std::string(s.symbol));
    sound.kind.clear();
    return;
  }
}

/// An ejective without a row of its own: the same closure over shut vocal folds and a rising larynx.
void make_ejective(Target& target, const Anatomy& anatomy) {
  target.pose.glottis = 0;
  target.pose.larynx = 7 * anatomy.larynx_scale; // as the ejective rows
  target.larynx_weight = 1;
  if (target.manner == "stop") target.manner = "ejective";
}

/// One letter with its marks, no glide.
Result<Target> simple_target(const Anatomy& anatomy, const TargetTable& table, Sound sound) {
  auto found = find_row(table, sound);
  if (!sound.kind.empty()) apply_kind(table, sound, found.row);
  if (!found.row) {
    auto composed = composed_row(anatomy, table, sound.letter);
    if (!composed) return composed.error();
    found.row = std::move(*composed);
  }
  if (!found.row)
    return Problem{ProblemKind::input, "there is no mouth shape for this sound", to_ipa(sound), "try another letter"};
  sound.marks = found.marks_left;
  if (const auto at = std::ranges::find(sound.marks, ejective_mark); at != sound.marks.end()) {
    make_ejective(*found.row, anatomy);
    sound.marks.erase(at);
  }
  return apply_marks(std::move(*found.row), sound, anatomy);
}
} // namespace

Result<Target> target_of(const Anatomy& anatomy, const TargetTable& table, const Sound& sound, bool at_end) {
  if (!is_glide(sound)) return simple_target(anatomy, table, sound);
  const Sound first{.letter = sound.letter, .marks = sound.marks, .kind = sound.kind};
  const Sound second{.letter = sound.glide_letter, .marks = sound.glide_marks};
  const auto* known = table.glide(to_nfd(first.letter + second.letter));
  // a glide of the table has its own start and end; a half with marks is drawn from its letter
  auto start = known != nullptr && first.marks.empty() ? Result<Target>(known->start) : simple_target(anatomy, table, first);
  if (!start || !at_end) return start;
  auto end = known != nullptr && second.marks.empty() ? Result<Target>(known->end) : simple_target(anatomy, table, second);
  if (!end) return end;
  const bool as_in_table = known != nullptr && sound.marks.empty() && sound.glide_marks.empty();
  if (as_in_table || !is_closing(first.letter, second.letter)) return end;
  return draw_on(anatomy, table, *start, std::move(*end));
}

Result<Pose> pose_of(const Anatomy& anatomy, const TargetTable& table, const Sound& sound, bool at_end) {
  const auto target = target_of(anatomy, table, sound, at_end);
  if (!target) return target.error();
  return target->pose;
}

} // namespace mw
