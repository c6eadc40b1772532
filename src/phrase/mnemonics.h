#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace mw {

/// One sound as a voice of the pronouncer writes it, taken apart as far as its table goes: a consonant as an IPA
/// letter, a vowel as its own mnemonic.
struct VoiceSound {
  std::string_view consonant{}; // empty for a vowel
  std::string_view vowel{};
  int stress = 0;
};
struct VoiceSounds {
  std::vector<VoiceSound> sounds;
  std::vector<std::string> unknown; // signs outside the closed inventory: left out, and told
};

/// A sign of up to four characters as a number: the tables of signs are searched very often.
constexpr std::uint32_t sign_code(std::string_view sign) {
  std::uint32_t code = 0;
  if (sign.size() > 4) return code;
  for (const char c : sign) code = (code << 8) | static_cast<unsigned char>(c);
  return code;
}

/// Mnemonics parted by '.', stress signs ' and , right before vowels. `i@` gives i and @, `aI3` aI and 3, `@L` @ and l.
VoiceSounds parse_mnemonics(std::string_view text);

} // namespace mw
