#include "accent/shared.h"

#include "accent/own.h"

#include <map>
#include <mutex>

namespace mw {
namespace {
// an id has neither a folder nor an ending (see read_accent); a coach's own accent may be edited between two takes
bool is_kept(const std::string& text) { return text.find_first_of("/.") == std::string::npos && !own_accent_file(text); }
} // namespace

Result<std::shared_ptr<const Accent>> read_shared_accent(const std::string& id_or_path) {
  static std::mutex guard;
  static std::map<std::string, std::shared_ptr<const Accent>> known; // shipped ids only: no more than the list is long
  const std::lock_guard lock(guard);
  if (const auto at = known.find(id_or_path); at != known.end()) return at->second;
  auto accent = read_accent(id_or_path);
  if (!accent) return accent.error();
  auto shared = std::make_shared<const Accent>(std::move(*accent));
  if (is_kept(id_or_path)) known[id_or_path] = shared;
  return std::shared_ptr<const Accent>(std::move(shared));
}

} // namespace mw
