#pragma once

#include "base/result.h"

#include <filesystem>
#include <string>
#include <vector>

namespace mw {

/// The folder of the program's data: MOUTHWRIGHT_ASSETS if set, else `assets` beside or above the executable (build
/// tree), else ../share/mouthwright beside it (installed). A Problem (missing) names the places tried.
Result<std::filesystem::path> assets_folder();

/// Whole text of an asset, e.g. read_asset("speakers/adult-male/geometry.csv").
Result<std::string> read_asset(const std::string& name);

/// Whole text of any file; Problem (input) says which and why. Refuses more than `limit` bytes.
Result<std::string> read_file(const std::filesystem::path& file, std::size_t limit = 64u << 20);

/// Writes under a temporary name in the same folder, then renames. Refuses an existing target unless `overwrite`.
/// On failure nothing is left behind and an old target is untouched. Problem kind: output.
Result<Done> write_file(const std::filesystem::path& file, std::string_view bytes, bool overwrite);

/// Comma-separated rows (RFC 4180 quotes, LF or CRLF); the first row names the columns.
struct CsvTable {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
  /// Index of a column; none if absent.
  [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
};
/// Problem (input) with `name` and line on ragged rows or open quotes.
Result<CsvTable> parse_csv(std::string_view text, const std::string& name);
Result<CsvTable> read_csv_asset(const std::string& name);

} // namespace mw
