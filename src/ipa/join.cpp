#include "base/text.h"
#include "ipa/glide.h"
#include "ipa/signs.h"

#include <algorithm>

namespace mw {
namespace {
struct Marked {
  const Diacritic* mark;
  Span span;
};
/// A letter with its marks, before pairs are joined.
struct Unit {
  const Letter* letter = nullptr; // none: a break
  std::vector<Marked> marks;
  Span span;
  bool tied = false; // to the next unit
  Span tie;
  SignKind kind = SignKind::letter;
};

bool is_tone_letter(const Diacritic& mark) { return is_tone(mark) && mark.ipa >= "˥" && mark.ipa <= "˩"; }

/// The vowel of the word so far, which a tone letter behind the coda belongs to.
Unit* last_vowel(std::vector<Unit>& units) {
  for (auto unit = units.rbegin(); unit != units.rend(); ++unit) {
    if (unit->kind == SignKind::word_break || unit->kind == SignKind::group_break) return nullptr;
    if (unit->letter != nullptr && unit->letter->vowel) return &*unit;
  }
  return nullptr;
}

const Letter* known(std::string_view ipa) {
  const Letter* letter = find_letter(ipa);
  MW_EXPECT(letter != nullptr);
  return letter;
}

Result<std::vector<Unit>> collect(const std::vector<Sign>& signs, std::u32string_view text) {
  std::vector<Unit> units;
  for (const auto& sign : signs) {
    const bool after_letter = !units.empty() && units.back().letter != nullptr;
    if (sign.kind == SignKind::letter)
      units.push_back({sign.letter, {}, sign.span, false, {}, SignKind::letter});
    else if (sign.kind == SignKind::mark && is_tone_letter(*sign.mark) && last_vowel(units) != nullptr)
      last_vowel(units)->marks.push_back({sign.mark, sign.span});
    else if (sign.kind == SignKind::mark && after_letter) {
      units.back().marks.push_back({sign.mark, sign.span});
      units.back().span.end = std::max(units.back().span.end, sign.span.end);
    } else if (sign.kind == SignKind::tie && after_letter) {
      units.back().tied = true;
      units.back().tie = sign.span;
    } else if (sign.kind == SignKind::mark)
      return sign_problem("the mark “" + sign.mark->name + "” has no letter before it", text, sign.span,
                          "write the mark after its letter");
    else if (sign.kind == SignKind::tie)
      return sign_problem("the tie bar has no letter before it", text, sign.span, "write it between two letters");
    else
      units.push_back({nullptr, {}, sign.span, false, {}, sign.kind});
  }
  return units;
}

bool bears(const Unit& unit, std::string_view mark) {
  return std::any_of(unit.marks.begin(), unit.marks.end(), [&](const auto& m) { return m.mark->ipa == mark; });
}

/// A mark that makes another letter of its letter: dark l, the r-coloured vowels.
void fold_marks(Unit& unit) {
  const struct {
    const char *letter, *mark, *becomes;
  } folds[] = {{"l", "\u0334", "ɫ"}, {"ə", "˞", "ɚ"}, {"ɜ", "˞", "ɝ"}};
  for (const auto& fold : folds) {
    if (unit.letter->ipa != fold.letter || !bears(unit, fold.mark)) continue;
    unit.letter = known(fold.becomes);
    std::erase_if(unit.marks, [&](const auto& m) { return m.mark->ipa == fold.mark; });
  }
}

/// The letter that two tied consonants form; none if no such pair is in use.
const Letter* pair_letter(const Letter& first, const Letter& second) {
  if (second.manner.find("click") != std::string::npos && first.ipa == "k") return &second;
  const std::string t = first.ipa == "t" && second.place == "retroflex"   ? "ʈ"
                        : first.ipa == "d" && second.place == "retroflex" ? "ɖ"
                                                                          : first.ipa;
  return find_letter(t + second.ipa);
}

bool is_plain_affricate(const Unit& first, const Unit& second) {
  const std::string pair = first.letter->ipa + second.letter->ipa;
  const bool released = std::any_of(first.marks.begin(), first.marks.end(), [](const auto& m) {
    return m.mark->ipa != "\u0320" && m.mark->ipa != "\u032A" && m.mark->ipa != "\u0325";
  });
  return (pair == "tʃ" || pair == "dʒ") && !released;
}

Unit joined(const Letter* letter, const Unit& first, const Unit& second) {
  Unit unit = second;
  unit.letter = letter;
  unit.span = {first.span.start, second.span.end};
  for (const auto& m : first.marks)
    if (!bears(second, m.mark->ipa)) unit.marks.push_back(m);
  return unit;
}

Result<std::vector<Unit>> join_consonants(const std::vector<Unit>& units, std::u32string_view text) {
  std::vector<Unit> out;
  for (const auto& unit : units) {
    const bool pair = unit.letter != nullptr && !out.empty() && out.back().letter != nullptr;
    const bool tied = !out.empty() && out.back().tied;
    if (tied && !pair)
      return sign_problem("the tie bar has no letter after it", text, out.back().tie, "write it between two letters");
    if (pair && !unit.letter->vowel && !out.back().letter->vowel && (tied || is_plain_affricate(out.back(), unit))) {
      const Letter* letter = pair_letter(*out.back().letter, *unit.letter);
      if (letter == nullptr)
        return sign_problem("these two letters form no affricate or double articulation", text,
                            {out.back().span.start, unit.span.end}, "write them without tie bar");
      out.back() = joined(letter, out.back(), unit);
    } else if (tied && unit.letter->vowel != out.back().letter->vowel)
      return sign_problem("a tie bar cannot join a vowel and a consonant", text, {out.back().span.start, unit.span.end},
                          "write them without tie bar");
    else
      out.push_back(unit);
  }
  if (!out.empty() && out.back().tied)
    return sign_problem("the tie bar has no letter after it", text, out.back().tie, "write it between two letters");
  return out;
}

std::optional<Problem> check_marks(const Unit& unit, std::u32string_view text) {
  constexpr std::size_t most = 12; // no transcription needs more on one letter
  for (std::size_t i = 0; i < unit.marks.size(); ++i) {
    const auto& [mark, span] = unit.marks[i];
    if (i == most) return sign_problem("more than twelve marks on one letter", text, span, "leave some out");
    if (!is_legal(*mark, *unit.letter))
      return sign_problem("the mark “" + mark->name + "” cannot stand on " + unit.letter->ipa + " (" +
                              unit.letter->name + ")",
                          text, span, "leave it out or choose another letter");
    for (std::size_t k = 0; k < i; ++k)
      if (exclude_each_other(*mark, *unit.marks[k].mark))
        return sign_problem(mark == unit.marks[k].mark ? "the mark “" + mark->name + "” is given twice"
                                                       : "the marks “" + unit.marks[k].mark->name + "” and “" +
                                                             mark->name + "” exclude each other",
                            text, span, "leave one out");
  }
  return std::nullopt;
}

/// Marks in the order of the inventory; tone letters keep theirs.
std::vector<std::string> in_order(std::vector<Marked> marks) {
  const auto rank = [](const Marked& m) { return is_tone_letter(*m.mark) ? find_diacritic("˥") : m.mark; };
  std::stable_sort(marks.begin(), marks.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  std::vector<std::string> out;
  for (const auto& m : marks) out.push_back(m.mark->ipa);
  return out;
}

/// Whether two vowels in a row form one nucleus.
bool is_nucleus_pair(const Unit& first, const Unit& second, const Sound& from, const Sound& to) {
  if (first.tied || bears(first, "\u032F") || bears(second, "\u032F")) return true;
  return is_usual_glide({from.letter, from.marks, to.letter, to.marks, ""});
}

void append_sound(std::vector<SpelledSound>& out, const Unit*& open, const Unit& unit) {
  Sound sound{unit.letter->ipa, in_order(unit.marks), "", {}, ""};
  if (open != nullptr && unit.letter->vowel && is_nucleus_pair(*open, unit, out.back().sound, sound)) {
    std::erase(sound.marks, "\u032F"); // said by the glide itself
    out.back().sound.glide_letter = sound.letter;
    out.back().sound.glide_marks = sound.marks;
    out.back().span.end = unit.span.end;
    open = nullptr;
    return;
  }
  out.push_back({sound, unit.span, SignKind::letter});
  open = unit.letter->vowel ? &unit : nullptr;
}
} // namespace

Result<std::vector<SpelledSound>> join_signs(const std::vector<Sign>& signs, std::u32string_view text) {
  auto units = collect(signs, text);
  if (!units) return units.error();
  for (auto& unit : *units)
    if (unit.letter != nullptr) fold_marks(unit);
  const auto whole = join_consonants(*units, text);
  if (!whole) return whole.error();
  std::vector<SpelledSound> out;
  const Unit* open = nullptr; // a vowel that the next one may join
  for (const auto& unit : *whole) {
    if (unit.letter == nullptr) {
      out.push_back({{}, unit.span, unit.kind});
      open = nullptr;
      continue;
    }
    if (auto problem = check_marks(unit, text)) return *problem;
    append_sound(out, open, unit);
  }
  return out;
}

} // namespace mw
