#include "phrase/ruled_vowels.h"

#include "accent/edit.h"
#include "accent/rules.h"
#include "accent/vowel_rules.h"
#include "base/expect.h"

#include <algorithm>

namespace mw {
namespace {
using Set = LexicalSet;
constexpr std::string_view length = "\u02d0", coda_env = "before voiced fricative, r or word end";
// in place of a vowel: the set's own, long or short
constexpr std::string_view own_long = "\u02d0", own_short = "\u0306", own = "";

/// Rules that are heard in some places only and move no vowel of the accent's chart. Scotland: Aitken's law for FLEECE, GOOSE
/// and PRICE (Wells 1982:400, from memory); NURSE by spelling (Wells 1982:407, from memory).
struct HeardRule {
  std::string_view rule;
  Special how;
};
const std::array heard{
    HeardRule{"fir_fur_fern_distinct", {Set::NURSE, {"spelt er or ear", "", ""}, "\u025b"}},
    HeardRule{"fir_fur_fern_distinct", {Set::NURSE, {"spelt ir", "", ""}, "\u026a"}},
    HeardRule{"Scottish_vowel_length_rule", {Set::FLEECE, {coda_env, "", ""}, own_long, {}, own_short}},
    HeardRule{"Scottish_vowel_length_rule", {Set::GOOSE, {coda_env, "", ""}, own_long, {}, own_short}},
    HeardRule{"Scottish_vowel_length_rule",
              {Set::PRICE, {"before voiced fricative, r, vowel or word end", "", ""}, own, {}, "\u028c\u026a"}},
};

/// BATH goes with TRAP where the two are one vowel.
Set followed(const Accent& accent, Set set) {
  return set == Set::BATH && same_vowel(accent.of(Set::BATH).vowel, accent.of(Set::TRAP).vowel) ? Set::TRAP : set;
}

/// Each rule that speaks of some surroundings of a set, with its row.
template <typename F> void each_special(const Accent& accent, Set set, F&& f) {
  const Set ruled = followed(accent, set);
  for (const auto& row : vowel_rules())
    if (const auto* special = std::get_if<Special>(&row.how); special != nullptr && special->set == ruled) f(row.rule, *special);
  for (const auto& row : heard)
    if (row.how.set == ruled) f(row.rule, row.how);
}

/// The rule that a row of the file belongs to, or "". Where PRICE does not glide, its glide before voiceless sounds is what
/// that left over and no raising.
std::string_view rule_of(const Accent& accent, Set set, std::string_view context) {
  std::string_view found;
  each_special(accent, set, [&](std::string_view rule, const Special& row) {
    const bool left_over = rule == "Canadian_raising_PRICE" && !is_glide(accent.of(set).vowel);
    if (is_named(row, context) && !left_over) found = rule;
  });
  return found;
}

void strip_length(Sound& vowel) { std::erase(vowel.marks, std::string(length)); }
bool is_long(const Sound& vowel) { return std::find(vowel.marks.begin(), vowel.marks.end(), length) != vowel.marks.end(); }

/// A vowel as a table writes it, laid over the value that the file has: its r stays, and its length where neither glides.
SetValue laid_over(const SetValue& file, std::string_view ipa) {
  SetValue value = file;
  if (ipa == own) return value;
  if (ipa == own_long || ipa == own_short) {
    if (is_glide(value.vowel)) return value;
    strip_length(value.vowel);
    if (ipa == own_long) value.vowel.marks.emplace_back(length);
    return value;
  }
  const auto parsed = parse_set_value(std::string(ipa));
  MW_EXPECT(parsed.has_value());
  const bool coloured = file.vowel.letter == "\u025d" || file.vowel.letter == "\u025a";
  value.r_follows = file.r_follows || coloured;
  value.vowel = parsed->vowel;
  if (is_glide(value.vowel) || is_glide(file.vowel)) return value;
  strip_length(value.vowel);
  if (is_long(file.vowel)) value.vowel.marks.emplace_back(length);
  return value;
}

/// A rule for some surroundings that says yes where the file has no row of its own.
std::optional<VowelChoice> special_choice(Set set, const Place_of_vowel& place) {
  const Chain& chain = place.chain;
  std::optional<VowelChoice> choice;
  each_special(chain.accent, set, [&](std::string_view rule, const Special& row) {
    if (choice || row.as || answer_of(chain.accent, rule, chain.casual) != Answer::yes || is_special(chain.accent, row)) return;
    const auto is_here = [&](std::string_view name) {
      const ContextName* context = find_context(name);
      return context != nullptr && is_true(context->context, place);
    };
    const SetValue& file = chain.accent.of(set);
    if (is_here(row.contexts.front())) {
      // where the set is split, its other half keeps the vowel of the file when that differs already
      choice = VowelChoice{laid_over(file, row.ipa), row.contexts.front(), rule};
    } else if (!row.elsewhere.empty()) {
      const SetValue other = laid_over(file, row.elsewhere);
      const bool apart = row.ipa != own && row.ipa != own_long && !same_vowel(file.vowel, laid_over(file, row.ipa).vowel);
      if (!apart) choice = VowelChoice{other, "", rule};
    }
  });
  return choice;
}

/// One of the rules that move the set wherever it stands.
struct Mover {
  Set set;
  const Place_of_vowel& place;
  std::string_view rule;
  [[nodiscard]] const Accent& accent() const { return place.chain.accent; }
  [[nodiscard]] const SetValue& file() const { return accent().of(set); }
  // asked only of a rule that speaks of the set
  [[nodiscard]] Answer ask() const { return answer_of(accent(), rule, place.chain.casual); }

  std::optional<SetValue> operator()(const SetPair&) const { return {}; } // chain_vowels.cpp: merger or split
  std::optional<SetValue> operator()(const Special&) const { return {}; }
  std::optional<SetValue> operator()(const Level& row) const {
    const auto at = std::find(row.sets.begin(), row.sets.end(), set);
    if (at == row.sets.end()) return {};
    const Answer answer = ask();
    if (answer == Answer::as_written || is_glide(file().vowel) == (answer == Answer::no)) return {};
    if (answer == Answer::no) return laid_over(file(), row.glides[static_cast<std::size_t>(at - row.sets.begin())]);
    // PRICE keeps its glide before voiceless sounds, as in the files whose PRICE does not glide (SUS, AAE)
    if (set == Set::PRICE && is_true(Context::before_voiceless, place)) return {};
    SetValue value = file();
    value.vowel = levelled(value.vowel);
    return value;
  }
  std::optional<SetValue> operator()(const Fronted& row) const {
    if (row.set != set) return {};
    const Answer answer = ask();
    if (answer == Answer::as_written || is_fronted(accent(), row) == (answer == Answer::yes)) return {};
    if (answer == Answer::yes && is_true(Context::before_l_in_syllable, place)) return {}; // dark l keeps it back
    // a split KIT is central in half of its places
    if (set == Set::KIT && answer == Answer::no && place.chain.holds("KIT_split")) return {};
    return laid_over(file(), answer == Answer::yes ? row.yes : row.no);
  }
  std::optional<SetValue> operator()(const SetShift& row) const {
    const Set ruled = followed(accent(), set);
    const auto at = std::find_if(row.moves.begin(), row.moves.end(), [&](const auto& move) { return move.set == ruled; });
    if (at == row.moves.end()) return {};
    const Answer answer = ask();
    const bool shifted = row.is_shifted(accent());
    if (answer == Answer::as_written || shifted == (answer == Answer::yes)) return {};
    if (shifted && row.is_its_own != nullptr && !row.is_its_own(accent())) return {};
    return laid_over(file(), answer == Answer::yes ? at->yes : at->no);
  }
};

std::optional<VowelChoice> moved_choice(Set set, const Place_of_vowel& place) {
  for (const auto& row : vowel_rules()) {
    auto value = std::visit(Mover{set, place, row.rule}, row.how);
    if (value && !(value->vowel == place.chain.accent.of(set).vowel)) return VowelChoice{std::move(*value), "", row.rule};
  }
  return std::nullopt;
}
} // namespace

VowelChoice choose_vowel(LexicalSet set, const Place_of_vowel& place) {
  const Accent& accent = place.chain.accent;
  for (const auto& row : accent.contexts[static_cast<std::size_t>(set)]) {
    const ContextName* name = find_context(row.context);
    if (name == nullptr || !is_true(name->context, place)) continue;
    const std::string_view rule = rule_of(accent, set, row.context);
    if (!rule.empty() && answer_of(accent, rule, place.chain.casual) == Answer::no) continue;
    return {row.value, name->name, rule};
  }
  if (auto choice = special_choice(set, place)) return *choice;
  if (auto choice = moved_choice(set, place)) return *choice;
  return {accent.of(set)};
}

std::string with_reason(const Chain& chain, std::string text, std::string_view rule) {
  if (!rule.empty() && chain.varies(rule))
    text += std::string(" (this varies in the accent; here because of how ") + (chain.casual < careful_below ? "careful" : "casual") + " the speech is)";
  return text;
}

} // namespace mw
