#pragma once

#include "base/assets.h"
#include "base/text.h"

#include <string>
#include <vector>

namespace mw::test {

struct TestPhrase {
  std::string text;
  bool hard = false;
};

/// The project's own invented phrases (assets/evidence/phrases.txt), every `step`-th one from `first`.
inline std::vector<TestPhrase> own_phrases(std::size_t step = 1, std::size_t first = 0) {
  std::vector<TestPhrase> all, some;
  for (const auto& raw : split(*read_asset("evidence/phrases.txt"), '\n')) {
    const std::string line(trim(raw));
    if (line.empty() || line.front() == '#') continue;
    all.push_back({line.front() == '!' ? line.substr(1) : line, line.front() == '!'});
  }
  for (std::size_t i = first; i < all.size(); i += step) some.push_back(all[i]);
  return some;
}

} // namespace mw::test
