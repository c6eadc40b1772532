#pragma once

#include "accent/lexical_set.h"
#include "base/result.h"
#include "ipa/sound.h"

#include <optional>
#include <string>
#include <vector>

namespace mw {

/// Where a word's pronunciation comes from (contract: words[].source).
enum class WordSource { voice, override_list, correction, choice, guess, typed };
std::string_view to_text(WordSource source); // "override" for override_list

struct Syllable {
  std::vector<Sound> onset;
  Sound nucleus; // vowel, glide or syllabic consonant
  std::vector<Sound> coda;
  int stress = 0;                  // 0 none, 1 primary, 2 secondary
  std::optional<LexicalSet> set{}; // independent of the accent; none for IPA input
  bool operator==(const Syllable&) const = default;
};

struct Word {
  std::string text; // the bare word as typed or as expanded from a number
  Span span;        // code points of the phrase
  WordSource source = WordSource::voice;
  std::vector<Syllable> syllables;
  bool group_end = false;             // a pause follows (comma, full stop, `|`)
  std::vector<std::string> choices{}; // other readings, as IPA, when the spelling has several
  bool operator==(const Word&) const = default;
};

/// One applied rule of connected speech. `word`, `syllable`, `slot_index` name the sound that changed.
struct Process {
  std::string name; // contract: weak_form, linking_r, flapping, ...
  std::size_t word = 0;
  std::size_t sound = 0; // index of the sound within the whole phrase, counted after all rules (= segment index)
  std::string from, to;  // IPA; empty for "nothing"
  std::string text;      // one plain sentence
  bool operator==(const Process&) const = default;
};

/// What will be said: words, syllables, sounds, in the accent chosen.
struct Pronunciation {
  std::vector<Word> words;
  std::vector<Process> processes;
  std::vector<Note> notes;
  bool operator==(const Pronunciation&) const = default;
};

/// IPA of a word with stress marks before the syllables; dots only where stress does not part them.
std::string to_ipa(const Word& word);

} // namespace mw
