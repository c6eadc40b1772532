#pragma once

#include "phrase/pronounce.h"

namespace mw::bench {

/// The bare library calls of a two-voice look-up, all words in one voice and then in the other, nothing kept: what the
/// program's own look-up costs before it remembers a word. The library must have been started (open_espeak).
std::vector<VoicedWord> bare_look_up(const std::vector<std::string>& words);

/// Asks the library anew on every call, so that a take pays for its words as at the first typing. Each word is asked for
/// once within a call, as the program does.
class ForgetfulPronouncer final : public Pronouncer {
public:
  Result<std::vector<VoicedWord>> look_up(const std::vector<std::string>& words) override;
  std::vector<std::string> asked{}; // the words of all calls since it was last emptied
};

} // namespace mw::bench
