#pragma once

#include "anatomy/anatomy.h"
#include "base/assets.h"
#include "base/text.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <memory>
#include <string>
#include <vector>

/// Data tables and speakers for tests. A test that misses its data fails at once.
namespace mw::test {

struct Row {
  std::map<std::string, std::string> cells;
  [[nodiscard]] const std::string& at(const std::string& column) const { return cells.at(column); }
  [[nodiscard]] double number(const std::string& column) const { return parse_number(cells.at(column)).value(); }
  [[nodiscard]] bool has(const std::string& column) const {
    const auto at = cells.find(column);
    return at != cells.end() && !at->second.empty();
  }
};

inline std::vector<Row> rows_of(const CsvTable& table) {
  std::vector<Row> rows;
  for (const auto& row : table.rows) {
    Row out;
    for (std::size_t i = 0; i < row.size(); ++i) out.cells[table.columns[i]] = row[i];
    rows.push_back(std::move(out));
  }
  return rows;
}

/// Rows of tests/data/<name>.
inline std::vector<Row> table(const std::string& name) {
  const char* folder = std::getenv("MOUTHWRIGHT_TEST_DATA");
  MW_EXPECT(folder != nullptr);
  return rows_of(parse_csv(read_file(std::string(folder) + "/" + name).value(), name).value());
}

/// Rows of assets/<name>.
inline std::vector<Row> asset_table(const std::string& name) { return rows_of(read_csv_asset(name).value()); }

/// Every speaker, in the order of anatomy_ids().
inline std::vector<std::shared_ptr<const Anatomy>> speakers() {
  std::vector<std::shared_ptr<const Anatomy>> all;
  for (const std::string& id : anatomy_ids()) all.push_back(read_anatomy(id).value());
  return all;
}

} // namespace mw::test
