#include "base/csv.h"

#include "base/text.h"

namespace mw {

std::string csv_cell(std::string_view text) {
  if (text.find_first_of(",\"\n\r") == std::string_view::npos) return std::string(text);
  return "\"" + replace_all(std::string(text), "\"", "\"\"") + "\"";
}

} // namespace mw
