#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One sound as a voice of the pronouncer writes it, taken apart as far as its table goes: a consonant as an IPA letter, a
/// vowel as its own mnemonic.
struct VoiceSound {
  std::string_view consonant{}; // empty for a vowel
  std::string_view vowel{};
  int stress = 0;
};
struct VoiceSounds {
  std::vector<VoiceSound> sounds;
  std::vector<std::string> unknown; // signs outside the closed inventory: left out, and told
};

/// Mnemonics parted by '.', stress signs ' and , right before vowels. `i@` gives i and @, `aI3` aI and 3, `@L` @ and l.
VoiceSounds parse_mnemonics(std::string_view text);

} // namespace mw
