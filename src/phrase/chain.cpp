#include "phrase/chain.h"

#include "accent/rules.h"
#include "base/expect.h"
#include "phrase/ruled_vowels.h"

#include <algorithm>

namespace mw {

std::size_t Chain::next(std::size_t i) const {
  for (++i; i < links.size(); ++i)
    if (!links[i].gone) return i;
  return none;
}
std::size_t Chain::previous(std::size_t i) const {
  while (i-- > 0)
    if (!links[i].gone) return i;
  return none;
}
std::size_t Chain::next_in_group(std::size_t i) const {
  const std::size_t at = next(i);
  if (at == none) return none;
  for (std::size_t word = links[i].word; word < links[at].word; ++word)
    if (words[word].group_end) return none;
  return at;
}
std::size_t Chain::previous_in_group(std::size_t i) const {
  const std::size_t at = previous(i);
  return at != none && next_in_group(at) == i ? at : none;
}
std::size_t Chain::next_in_word(std::size_t i) const {
  const std::size_t at = next(i);
  return at != none && links[at].word == links[i].word ? at : none;
}
std::size_t Chain::previous_in_word(std::size_t i) const {
  const std::size_t at = previous(i);
  return at != none && links[at].word == links[i].word ? at : none;
}

bool Chain::holds(std::string_view rule) const { return mw::holds(accent, rule, casual); }
std::string_view Chain::consonant(std::size_t i) const {
  return i == none || links[i].is_vowel() ? std::string_view{} : std::string_view(links[i].phoneme.consonant);
}
std::string Chain::letter(std::size_t i) const { return i == none ? std::string() : links[i].sound.letter; }
bool Chain::sounds_as_vowel(std::size_t i) const {
  return i != none && links[i].place == Link::Place::nucleus && (links[i].phoneme.set || mw::is_vowel(links[i].sound));
}

void Chain::change(std::size_t i, Sound to, std::string_view name, std::string text, std::string_view rule) {
  MW_EXPECT(i < links.size() && !links[i].gone);
  if (links[i].fixed || links[i].sound == to) return;
  const std::string from = to_ipa(links[i].sound), said = to_ipa(to);
  links[i].sound = std::move(to);
  applied.push_back({std::string(name), i, from, said, with_reason(*this, std::move(text), rule)});
}

void Chain::leave_out(std::size_t i, std::string_view name, std::string text, std::string_view rule) {
  MW_EXPECT(i < links.size() && !links[i].gone);
  if (links[i].fixed) return;
  links[i].gone = true;
  applied.push_back({std::string(name), i, to_ipa(links[i].sound), "", with_reason(*this, std::move(text), rule)});
}

void Chain::insert_after(std::size_t i, const std::string& consonant, Sound sound, std::string_view name,
                         std::string text, std::string_view rule) {
  Link link = links[i];
  link.place = Link::Place::coda;
  link.phoneme = {consonant};
  link.sound = std::move(sound);
  link.gone = link.fixed = false;
  for (auto& process : applied)
    if (process.link > i) ++process.link;
  links.insert(links.begin() + static_cast<std::ptrdiff_t>(i) + 1, link);
  if (name.empty()) return;
  applied.push_back(
      {std::string(name), i + 1, "", to_ipa(links[i + 1].sound), with_reason(*this, std::move(text), rule)});
}

namespace {

/// Links of syllables that a person typed.
void lay_out_fixed(Chain& chain, std::size_t word) {
  const auto& syllables = chain.words[word].fixed;
  for (std::size_t k = 0; k < syllables.size(); ++k) {
    const auto add = [&](const Sound& sound, Link::Place place) {
      Link link{word, k, place, {}, syllables[k].stress, sound};
      link.fixed = true;
      if (place != Link::Place::nucleus) link.phoneme.consonant = sound.letter;
      chain.links.push_back(std::move(link));
    };
    for (const auto& sound : syllables[k].onset) add(sound, Link::Place::onset);
    add(syllables[k].nucleus, Link::Place::nucleus);
    for (const auto& sound : syllables[k].coda) add(sound, Link::Place::coda);
  }
}

} // namespace

void lay_out(Chain& chain) {
  for (std::size_t word = 0; word < chain.words.size(); ++word) {
    if (!chain.words[word].fixed.empty()) {
      lay_out_fixed(chain, word);
      continue;
    }
    const auto syllables = to_syllables(chain.words[word].phonemes);
    for (std::size_t k = 0; k < syllables.size(); ++k) {
      const int stress = syllables[k].nucleus.stress;
      for (const auto& phoneme : syllables[k].onset)
        chain.links.push_back({word, k, Link::Place::onset, phoneme, stress, {phoneme.consonant}});
      Link nucleus{word, k, Link::Place::nucleus, syllables[k].nucleus, stress, {}};
      if (!nucleus.phoneme.set) nucleus.sound = {nucleus.phoneme.consonant, {"\u0329"}}; // shh, mm
      chain.links.push_back(std::move(nucleus));
      for (const auto& phoneme : syllables[k].coda)
        chain.links.push_back({word, k, Link::Place::coda, phoneme, stress, {phoneme.consonant}});
    }
  }
}

std::vector<std::vector<Syllable>> to_syllables(const Chain& chain) {
  std::vector<std::vector<Syllable>> words(chain.words.size());
  std::size_t word = Chain::none, syllable = 0;
  for (const auto& link : chain.links) {
    if (link.gone) continue;
    auto& syllables = words[link.word];
    if (syllables.empty() || link.word != word || link.syllable != syllable) {
      syllables.emplace_back();
      word = link.word;
      syllable = link.syllable;
    }
    Syllable& last = syllables.back();
    last.stress = link.stress;
    if (link.place == Link::Place::onset)
      last.onset.push_back(link.sound);
    else if (link.place == Link::Place::coda)
      last.coda.push_back(link.sound);
    else {
      last.nucleus = link.sound;
      last.set = link.phoneme.set;
      if (!last.set && !link.fixed) last.set = LexicalSet::commA; // contract: syllabic consonants carry commA
    }
  }
  return words;
}

std::vector<Process> to_processes(const Chain& chain) {
  std::vector<std::size_t> index(chain.links.size());
  std::size_t count = 0;
  for (std::size_t i = 0; i < chain.links.size(); ++i) {
    index[i] = count;
    if (!chain.links[i].gone) ++count;
  }
  std::vector<Process> processes;
  for (const auto& row : chain.applied) {
    // where a sound is gone, the one that now stands in its place, or the last of the phrase
    const std::size_t sound = index[row.link] < count ? index[row.link] : count - 1;
    processes.push_back({row.name, chain.links[row.link].word, sound, row.from, row.to, row.text});
  }
  std::stable_sort(processes.begin(), processes.end(), [](const auto& a, const auto& b) { return a.sound < b.sound; });
  return processes;
}

} // namespace mw
