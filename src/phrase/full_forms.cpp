#include "phrase/full_forms.h"

#include "ipa/parse.h"
#include "phrase/phoneme.h"

#include <algorithm>

namespace mw {
namespace {

/// A vowel with whether an r closes its syllable.
struct Rime {
  Sound vowel;
  bool r = false;
  bool operator==(const Rime&) const = default;
};

/// Whether the accent says the set so, in some surroundings.
bool can_be(const Accent& accent, LexicalSet set, const Rime& rime) {
  const bool silent_r = has_r(set) && accent.rule("rhotic") == "no";
  const auto fits = [&](const SetValue& value) { return rime == Rime{value.vowel, value.r_follows && !silent_r}; };
  const auto& contexts = accent.contexts[static_cast<std::size_t>(set)];
  return fits(accent.of(set)) || std::any_of(contexts.begin(), contexts.end(), [&](const ContextValue& c) { return fits(c.value); });
}

/// The only nucleus of a word, `size` when it has none or several.
std::size_t only_nucleus(const std::vector<PlacedSound>& sounds, std::size_t word) {
  std::size_t found = sounds.size();
  for (std::size_t i = 0; i < sounds.size(); ++i)
    if (sounds[i].nucleus && sounds[i].word == word) {
      if (found != sounds.size()) return sounds.size();
      found = i;
    }
  return found;
}

std::optional<Rime> full_rime(const std::string& full, const std::vector<PlacedSound>& sounds, std::size_t nucleus) {
  if (full.empty()) return Rime{sounds[nucleus].sound, sounds[nucleus].r_follows};
  const auto alone = sounds_alone(full);
  const std::size_t at = only_nucleus(alone, 0);
  return at < alone.size() ? std::optional<Rime>({alone[at].sound, alone[at].r_follows}) : std::nullopt;
}

void put(PlacedSound& sound, const Rime& rime, LexicalSet set) {
  sound.sound = rime.vowel;
  sound.r_follows = rime.r;
  sound.set = set;
}

} // namespace

std::vector<PlacedSound> sounds_alone(const std::string& ipa) {
  const auto words = parse_transcription(ipa, Notation::ipa);
  Pronunciation said;
  if (words)
    for (const auto& spelled : *words) {
      said.words.emplace_back();
      for (const auto& s : spelled.syllables) said.words.back().syllables.push_back({s.onset, s.nucleus, s.coda, 1, {}});
    }
  return placed_sounds(said);
}

std::vector<std::string> full_forms(const Pronunciation& said) {
  std::vector<std::string> full(said.words.size());
  for (const Process& process : said.processes)
    if (process.name == "weak_form") full[process.word] = process.from;
  return full;
}

void give_full_vowels(const Pronunciation& a, const Accent& accent_a, std::vector<PlacedSound>& left,
                      const Pronunciation& b, const Accent& accent_b, std::vector<PlacedSound>& right) {
  if (a.words.size() != b.words.size()) return;
  const auto full_a = full_forms(a), full_b = full_forms(b);
  for (std::size_t word = 0; word < a.words.size(); ++word) {
    if (full_a[word].empty() && full_b[word].empty()) continue;
    const std::size_t i = only_nucleus(left, word), j = only_nucleus(right, word);
    if (i == left.size() || j == right.size()) continue;
    const auto one = full_rime(full_a[word], left, i), two = full_rime(full_b[word], right, j);
    if (!one || !two) continue;
    for (std::size_t k = 0; k < lexical_set_count; ++k) {
      const auto set = static_cast<LexicalSet>(k);
      if (!can_be(accent_a, set, *one) || !can_be(accent_b, set, *two)) continue;
      put(left[i], *one, set);
      put(right[j], *two, set);
      break;
    }
  }
}

} // namespace mw
