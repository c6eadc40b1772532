#include "app/script.h"

#include "base/text.h"

#include <algorithm>
#include <array>

namespace mw::app {

Result<std::vector<ScriptCommand>> parse_script(std::string_view text) {
  constexpr std::array<std::string_view, 13> known{"type", "key", "move", "click", "drag", "wheel", "wait", "settle", "size", "shot", "state", "spot", "time"};
  std::vector<ScriptCommand> out;
  int number = 0;
  for (const auto& raw : split(std::string(text), '\n')) {
    ++number;
    const auto line = trim(raw);
    if (line.empty() || line.front() == '#') continue;
    const auto space = line.find(' ');
    const std::string verb(line.substr(0, space));
    if (std::find(known.begin(), known.end(), verb) == known.end())
      return Problem{ProblemKind::input, "the script has an unknown command: " + verb, "line " + to_text(number), "try one of: " + join({known.begin(), known.end()}, ", ")};
    out.push_back({verb, space == std::string_view::npos ? "" : std::string(trim(line.substr(space))), number});
  }
  return out;
}

} // namespace mw::app
