#pragma once

#include "base/result.h"
#include "phrase/phoneme.h"
#include "phrase/pronunciation.h"

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// How a person wants a word said. One of the three is filled.
struct Correction {
  Phonemes phonemes{};            // by sets, in any accent: "k ˈDRESS t commA l"
  std::vector<Syllable> fixed{};  // by sounds, as they are: "/ˈkɛtl̩/", "[\"kEt@l]", or IPA without slashes
  std::vector<LexicalSet> sets{}; // by the set alone: of the stressed vowel, or one for each vowel: "TRAP"
};
/// Problem (input) says what does not fit.
Result<Correction> parse_correction(std::string_view text);

/// Puts the sets of a correction into a word: one for its stressed vowel, or as many as it has vowels. Problem (input) when
/// the numbers differ.
Result<Done> apply_sets(const std::vector<LexicalSet>& sets, Phonemes& word);

/// The coach's own dictionary: small-letter word -> correction, and what is wrong in the file, by line.
struct OwnWords {
  std::map<std::string, std::string> corrections;
  std::vector<Note> notes; // kind "own_words": file, line and reason; such a line is left out
};
/// Where it is kept: $XDG_CONFIG_HOME/mouthwright/words.txt, or ~/.config/mouthwright/words.txt; empty without a home.
std::filesystem::path own_words_file();
/// Lines "word = sounds", "#" comments. `file` names it in notes.
OwnWords parse_own_words(std::string_view text, const std::string& file);
/// Reads the file; none is an empty dictionary, one that cannot be read a note. Never a problem, never null. Kept until the
/// file, its date or its size is another; safe to call from any thread.
std::shared_ptr<const OwnWords> read_own_words();
/// Puts a word into the coach's own dictionary, in place of what stood there for it; every other line stays as it is.
/// Empty `said`: takes it out. Problem (output): nothing is lost; (input): `said` cannot be read.
Result<Done> keep_own_word(const std::string& word, const std::string& said);

} // namespace mw
