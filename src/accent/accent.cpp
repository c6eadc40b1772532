#include "accent/accent.h"

#include "accent/own.h"
#include "base/assets.h"
#include "base/text.h"

#include <algorithm>

namespace mw {
namespace {
constexpr std::size_t largest_file = 1u << 20; // 1 MB: forty times the longest shipped accent

bool is_path(const std::string& text) {
  return text.find('/') != std::string::npos || (text.size() > 5 && text.substr(text.size() - 5) == ".toml");
}
/// A coach's own file; its name is its id.
Result<Accent> read_own(const std::filesystem::path& file, const std::string& id) {
  const auto text = read_file(file, largest_file);
  if (!text) return text.error();
  auto accent = parse_accent(*text, file.string());
  if (accent && accent->id != id)
    return Problem{ProblemKind::input, "the id \"" + accent->id + "\" is not the name of the file", file.string() + " line 1",
                   "write id = \"" + id + "\", or rename the file to " + accent->id + ".toml"};
  return accent;
}
} // namespace

std::string_view Accent::rule(std::string_view wanted) const {
  const auto at = rules.find(wanted);
  return at == rules.end() ? std::string_view{} : std::string_view(at->second.value);
}

Result<std::vector<AccentName>> list_accents() {
  const auto table = read_csv_asset("accents/index.csv");
  if (!table) return table.error();
  std::vector<AccentName> list;
  for (const auto& row : table->rows)
    if (row.size() >= 3) list.push_back({row[0], row[1], row[2]});
  return list;
}

Result<Accent> read_accent(const std::string& id_or_path) {
  if (is_path(id_or_path)) {
    const auto text = read_file(id_or_path, largest_file);
    if (!text) return text.error();
    return parse_accent(*text, id_or_path);
  }
  const auto list = list_accents();
  if (!list) return list.error();
  const bool known =
      std::any_of(list->begin(), list->end(), [&](const AccentName& row) { return row.id == id_or_path; });
  if (!known) {
    if (const auto file = own_accent_file(id_or_path)) return read_own(*file, id_or_path);
    std::vector<std::string> ids;
    for (const auto& row : *list) ids.push_back(row.id);
    return Problem{ProblemKind::usage, "there is no accent of this name", "\"" + id_or_path + "\"",
                   "choose one of " + join(ids, ", ") + ", one of your own, or name an accent file that ends in .toml"};
  }
  const std::string name = "accents/" + id_or_path + ".toml";
  const auto text = read_asset(name);
  if (!text) return text.error();
  return parse_accent(*text, name);
}

} // namespace mw
