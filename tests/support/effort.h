#pragma once

#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>

namespace mw::test {

/// `usual` rounds in every run, `more` when ./check --long asks for the long ones.
inline int rounds(int usual, int more) { return std::getenv("MOUTHWRIGHT_LONG") != nullptr ? more : usual; }

/// The generator of a test, from the seed that ./check sets (another seed: MOUTHWRIGHT_SEED=N).
inline std::mt19937 lots(std::uint32_t own) {
  const char* seed = std::getenv("MOUTHWRIGHT_SEED");
  return std::mt19937(own + 1000003u * static_cast<std::uint32_t>(seed != nullptr ? std::atoi(seed) : 1));
}

/// `text` with a few bytes changed, taken out, doubled or put in.
inline std::string spoiled(std::string text, std::mt19937& random) {
  const int changes = 1 + static_cast<int>(random() % 4);
  for (int i = 0; i < changes && !text.empty(); ++i) {
    const std::size_t at = random() % text.size();
    switch (random() % 5) {
    case 0: text[at] = static_cast<char>(random() % 256); break;
    case 1: text.erase(at, 1 + random() % 12); break;
    case 2: text.insert(at, text.substr(at, 1 + random() % 24)); break;
    case 3: text.insert(at, 1, "\"[]{}=#\n.,-0"[random() % 12]); break;
    default: text.resize(at); break;
    }
  }
  return text;
}

} // namespace mw::test
