#pragma once

#include "accent/accent.h"
#include "phrase/phoneme.h"
#include "phrase/pronunciation.h"

#include <string>
#include <vector>

namespace mw {

/// One sound on its way from the word list to the mouth.
struct Link {
  std::size_t word = 0, syllable = 0; // syllable within the word
  enum class Place { onset, nucleus, coda } place = Place::onset;
  Phoneme phoneme;    // what the word list says; a coda r that the accent adds has the consonant \u0279
  int stress = 0;     // of its syllable
  Sound sound;        // what is said so far
  bool gone = false;  // left out
  bool fixed = false; // typed by a person: no rule touches it
  [[nodiscard]] bool is_vowel() const { return place == Place::nucleus && phoneme.set && phoneme.consonant.empty(); }
};

/// What the rules need to know of a word.
struct ChainWord {
  std::string key; // lower-case letters and apostrophes
  Phonemes phonemes;
  std::vector<Syllable> fixed; // said as they are, when a person typed them; `phonemes` is empty then
  bool function_word = false;
  bool weak = false;
  bool group_end = false;
};

/// A rule that was applied, while links may still come and go.
struct Applied {
  std::string name;
  std::size_t link;
  std::string from, to, text;
};

/// All sounds of a phrase in one row, and what was done to them.
struct Chain {
  const Accent& accent;
  double casual;
  std::vector<ChainWord> words;
  std::vector<Link> links{};
  std::vector<Applied> applied{};

  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  /// The nearest link that is still said, within the phrase, the rhythmic group or the word; `none` if there is not
  /// one.
  [[nodiscard]] std::size_t next(std::size_t i) const;
  [[nodiscard]] std::size_t previous(std::size_t i) const;
  [[nodiscard]] std::size_t next_in_group(std::size_t i) const;
  [[nodiscard]] std::size_t previous_in_group(std::size_t i) const;
  [[nodiscard]] std::size_t next_in_word(std::size_t i) const;
  [[nodiscard]] std::size_t previous_in_word(std::size_t i) const;
  [[nodiscard]] bool holds(std::string_view rule) const;
  [[nodiscard]] bool varies(std::string_view rule) const { return accent.rule(rule) == "variable"; }
  [[nodiscard]] bool is_nucleus(std::size_t i) const { return i != none && links[i].place == Link::Place::nucleus; }
  /// The broad consonant of a link, "" for vowels and `none`.
  [[nodiscard]] std::string_view consonant(std::size_t i) const;
  [[nodiscard]] std::string letter(std::size_t i) const; // of the sound said so far, "" for `none`
  /// A vowel or syllabic consonant, i.e. what a vowel-initial word begins with.
  [[nodiscard]] bool sounds_as_vowel(std::size_t i) const;

  /// Changes a sound and tells of it; `rule` is the accent rule behind it, or "".
  void change(std::size_t i, Sound to, std::string_view name, std::string text, std::string_view rule = "");
  void leave_out(std::size_t i, std::string_view name, std::string text, std::string_view rule = "");
  /// Puts a coda consonant after link i, in its syllable.
  void insert_after(std::size_t i, const std::string& consonant, Sound sound, std::string_view name, std::string text,
                    std::string_view rule = "");
};

/// Syllables of all words as links; vowels have no sound yet.
void lay_out(Chain& chain);
/// Vowels in the accent, with its contexts and coda r (chain_vowels.cpp).
void sound_vowels(Chain& chain);
/// Consonants in the accent: r, l, th, j, h, wh, ng, t (chain_consonants.cpp).
void sound_consonants(Chain& chain);
/// What happens where sounds and words meet (chain_meetings.cpp): linking, taps, catches, assimilation, elision.
void join_sounds(Chain& chain);

/// The sound of r in the accent, by place in the syllable.
Sound sound_of_r(const Accent& accent, Link::Place place);

/// The syllables of each word from the links that are said.
std::vector<std::vector<Syllable>> to_syllables(const Chain& chain);
/// Processes with the index of each sound counted after all rules.
std::vector<Process> to_processes(const Chain& chain);

} // namespace mw
