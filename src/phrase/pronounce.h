#pragma once

#include "accent/accent.h"
#include "base/result.h"
#include "ipa/parse.h"
#include "phrase/pronunciation.h"

#include <map>
#include <string>
#include <vector>

namespace mw {

/// One word as the two espeak-ng voices spell it, in mnemonics parted by '.', stress signs before vowels.
struct VoicedWord {
  std::string american, british;
};

/// The look-up behind `pronounce`: words of ASCII letters and apostrophes only, lower case, one voice after the other.
class Pronouncer {
public:
  virtual ~Pronouncer() = default;
  /// One entry per word, in order. Problem (missing) when the library or its data cannot be used.
  virtual Result<std::vector<VoicedWord>> look_up(const std::vector<std::string>& words) = 0;
};

struct PronounceSettings {
  Notation notation = Notation::text;
  double casual = 0.5; // 0 careful .. 1 casual; text only
  std::map<std::string, std::string>
      corrections{}; // lower-case word -> IPA in slashes, X-SAMPA in brackets, or reading
  const std::map<std::string, std::string>* own_words = nullptr; // the coach's dictionary, likewise; corrections win
};

/// Text, IPA or X-SAMPA to what will be said in an accent. Problem (input): nothing sayable, invalid UTF-8, over 10,000
/// characters, bad IPA (names sign and position).
Result<Pronunciation> pronounce(std::string_view phrase, const Accent& accent, Pronouncer& pronouncer,
                                const PronounceSettings& settings = {});

} // namespace mw
