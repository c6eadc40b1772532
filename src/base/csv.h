#pragma once

#include <string>
#include <string_view>

namespace mw {

/// A cell as it stands in a CSV file (RFC 4180): in quotes where it holds a comma, a quote or a line end. parse_csv
/// (base/assets.h) reads it back.
std::string csv_cell(std::string_view text);

} // namespace mw
