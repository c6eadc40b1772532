#include "accent/edit.h"

#include "accent/channels.h"
#include "accent/rules.h"
#include "base/expect.h"
#include "base/text.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {

constexpr std::size_t longest_name = 60; // code points: what a menu row can show

std::size_t index_of(LexicalSet set) { return static_cast<std::size_t>(set); }

std::string text_of(const Sound& vowel, bool r_follows) {
  std::string text = vowel.letter + join(vowel.marks, "") + vowel.glide_letter + join(vowel.glide_marks, "");
  return to_nfc(text) + (r_follows ? "\u0279" : "");
}

SetValue coach_value(const Sound& vowel, bool r_follows) {
  SetValue value;
  value.ipa = text_of(vowel, r_follows);
  value.vowel = vowel;
  value.r_follows = r_follows;
  value.source = coach_source, value.status = coach_status;
  return value;
}

std::vector<std::string> without_length(std::vector<std::string> marks) {
  std::erase_if(marks, [](const std::string& mark) { return mark == "\u02D0" || mark == "\u02D1" || mark == "\u0306"; });
  return marks;
}

} // namespace

bool same_vowel(const Sound& one, const Sound& other) {
  return one.letter == other.letter && one.glide_letter == other.glide_letter &&
         without_length(one.marks) == without_length(other.marks) &&
         without_length(one.glide_marks) == without_length(other.glide_marks);
}

Accent copy_of(const Accent& start, std::string id, std::string name) {
  Accent out = start;
  out.id = std::move(id), out.name = std::move(name);
  out.status = std::string(coach_status);
  out.based_on = start.id;
  return out;
}

Accent with_vowel(const Accent& accent, LexicalSet set, const Sound& vowel) {
  Accent out = accent;
  const SetValue& old = accent.of(set);
  if (old.vowel == vowel) return out;
  out.sets[index_of(set)] = coach_value(vowel, old.r_follows);
  return agreed(accent, std::move(out));
}

Accent with_context_vowel(const Accent& accent, LexicalSet set, std::string_view context, const Sound& vowel) {
  Accent out = accent;
  for (ContextValue& row : out.contexts[index_of(set)])
    if (row.context == context && !(row.value.vowel == vowel)) row.value = coach_value(vowel, row.value.r_follows);
  return out;
}

Accent with_merged(const Accent& accent, LexicalSet set, LexicalSet onto) {
  return with_vowel(accent, set, accent.of(onto).vowel);
}

Accent put_back(const Accent& accent, LexicalSet set, const Accent& start) {
  Accent out = accent;
  out.sets[index_of(set)] = start.sets[index_of(set)];
  out.contexts[index_of(set)] = start.contexts[index_of(set)];
  return agreed(accent, std::move(out));
}

Result<Accent> with_rule(const Accent& accent, std::string_view rule, std::string_view value, const Accent& start) {
  const RuleName* row = find_rule(rule);
  if (row == nullptr)
    return Problem{ProblemKind::input, "there is no such rule", std::string(rule), "`accents GA` lists all rules"};
  if (!allows(*row, value))
    return Problem{ProblemKind::input, "this is not a value of the rule " + std::string(rule), std::string(value),
                   "use one of " + replace_all(std::string(row->values), "|", ", ")};
  if (accent.rule(rule) == value) return accent;
  Accent out = accent;
  if (value != "variable") out = moved_to(accent, rule, value == "yes", start);
  out.rules[std::string(rule)] = {std::string(value), std::string(coach_source), std::string(coach_status)};
  return out;
}

Result<Accent> with_posture(const Accent& accent, std::string_view channel, double shift) {
  const PostureChannel* row = find_posture_channel(channel);
  if (row == nullptr || !std::isfinite(shift))
    return Problem{ProblemKind::input, "the mouth at rest has no such setting", std::string(channel),
                   "use a column of `motion`, such as jaw_opening_mm"};
  Accent out = accent;
  const std::string text = to_text(std::clamp(shift, -row->most, row->most), 3);
  const auto old = accent.posture.find(std::string(channel));
  if (old != accent.posture.end() && old->second.value == text) return out;
  out.posture[std::string(channel)] = {text, std::string(coach_source), std::string(coach_status)};
  return out;
}

Result<Accent> with_name(const Accent& accent, std::string_view name) {
  const std::string wanted(trim(name));
  const auto signs = decode_utf8(wanted);
  const bool fits = signs && !signs->empty() && signs->size() <= longest_name &&
                    std::none_of(signs->begin(), signs->end(), [](char32_t c) { return c < 0x20 || c == 0x7f; });
  if (!fits)
    return Problem{ProblemKind::input, "this is not a name for an accent", "\"" + wanted + "\"",
                   "write one line of at most " + to_text(static_cast<int>(longest_name)) + " letters"};
  Accent out = accent;
  out.name = wanted;
  return out;
}

std::vector<std::string> changes(const Accent& one, const Accent& other) {
  std::vector<std::string> out;
  const auto differ = [&](bool differs, std::string what) {
    if (differs) out.push_back(std::move(what));
  };
  differ(one.id != other.id, "id");
  differ(one.name != other.name, "name");
  differ(one.status != other.status, "status");
  differ(one.based_on != other.based_on, "based_on");
  for (std::size_t i = 0; i < lexical_set_count; ++i) {
    const std::string keyword(to_keyword(static_cast<LexicalSet>(i)));
    differ(!(one.sets[i] == other.sets[i]), "sets." + keyword);
    differ(!(one.contexts[i] == other.contexts[i]), "contexts." + keyword);
  }
  const auto maps = [&](const auto& a, const auto& b, const std::string& of) {
    for (const auto& [name, value] : a) {
      const auto at = b.find(name);
      differ(at == b.end() || !(at->second == value), of + name);
    }
    for (const auto& [name, value] : b) differ(!a.contains(name), of + name);
  };
  maps(one.rules, other.rules, "rules.");
  maps(one.posture, other.posture, "posture.");
  return out;
}

} // namespace mw
