#include "accent/own.h"

#include "base/assets.h"
#include "base/text.h"

#include <algorithm>
#include <cstdlib>

namespace mw {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t largest_file = 1u << 20; // as read_accent

bool is_shipped(const std::string& id) {
  const auto shipped = list_accents();
  return shipped && std::any_of(shipped->begin(), shipped->end(), [&](const AccentName& row) { return row.id == id; });
}

/// What may stand in an id and is safe as a file name.
bool is_plain(const std::string& id) {
  return !id.empty() && id.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") == std::string::npos;
}

/// Letters and digits of a name in lower case, joined by single hyphens.
std::string slug(const std::string& name) {
  std::string out;
  for (const char sign : to_lower(name)) {
    const bool plain = (sign >= 'a' && sign <= 'z') || (sign >= '0' && sign <= '9');
    if (plain) out += sign;
    else if (!out.empty() && out.back() != '-') out += '-';
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "my-accent" : out.substr(0, 40);
}

Problem unwritable(const std::string& what, const fs::path& where, const std::error_code& error) {
  return {ProblemKind::output, what + (error ? ": " + error.message() : ""), where.string(), "make the folder writable, or set XDG_DATA_HOME to another one"};
}

/// The first of name1, name2, ... that is free.
fs::path free_path(const fs::path& folder, const std::string& stem, const std::string& ending) {
  std::error_code error;
  for (int n = 1;; ++n) {
    fs::path path = folder / (stem + to_text(n) + ending);
    if (!fs::exists(fs::symlink_status(path, error))) return path;
  }
}

Result<Done> make_folder(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error || !fs::is_directory(folder, error)) return unwritable("the folder of your accents cannot be made", folder, error);
  return Done{};
}

/// What stands there and is not what was last saved was written by hand: it is put aside before it is written over.
Result<Done> keep_hand_work(const fs::path& file, const fs::path& last_saved, const std::string& id) {
  std::error_code error;
  if (!fs::exists(fs::symlink_status(file, error))) return Done{};
  const auto text = read_file(file, largest_file), saved = read_file(last_saved, largest_file);
  if (text && saved && *text == *saved) return Done{};
  fs::rename(file, free_path(file.parent_path(), id + ".kept-", ""), error);
  if (error) return unwritable("the file written by hand cannot be put aside", file, error);
  return Done{};
}

} // namespace

Result<fs::path> own_accents_folder() {
  const char* data = std::getenv("XDG_DATA_HOME");
  // the base directory rules: a relative path there counts as unset
  if (data != nullptr && *data == '/') return fs::path(data) / "mouthwright" / "accents";
  const char* home = std::getenv("HOME");
  if (home == nullptr || *home == '\0')
    return Problem{ProblemKind::output, "there is no folder for accents of your own", "HOME is not set", "set HOME or XDG_DATA_HOME"};
  return fs::path(home) / ".local" / "share" / "mouthwright" / "accents";
}

std::optional<fs::path> own_accent_file(const std::string& id) {
  if (!is_plain(id)) return {};
  const auto folder = own_accents_folder();
  if (!folder) return {};
  const fs::path file = *folder / (id + ".toml");
  std::error_code error;
  return fs::exists(fs::symlink_status(file, error)) ? std::optional(file) : std::nullopt;
}

std::vector<OwnAccent> list_own_accents() {
  std::vector<OwnAccent> out;
  const auto folder = own_accents_folder();
  std::error_code error;
  if (!folder || !fs::is_directory(*folder, error)) return out;
  std::vector<std::string> ids;
  for (fs::directory_iterator at(*folder, error), end; !error && at != end; at.increment(error))
    if (at->path().extension() == ".toml") ids.push_back(at->path().stem().string());
  std::sort(ids.begin(), ids.end()); // the order of a folder is nobody's
  for (const std::string& id : ids) {
    if (!is_plain(id) || is_shipped(id)) continue;
    const auto accent = read_accent(id);
    if (accent) out.push_back({{id, accent->name, "yours"}, accent->based_on});
    else out.push_back({{id, id, "yours"}, {}, accent.error()});
  }
  return out;
}

std::string free_accent_id(const std::string& name) {
  const std::string id = slug(name);
  const auto taken = [](const std::string& wanted) { return is_shipped(wanted) || own_accent_file(wanted); };
  if (!taken(id)) return id;
  for (int n = 2;; ++n)
    if (const std::string next = id + "-" + to_text(n); !taken(next)) return next;
}

Result<Done> save_own_accent(const Accent& accent) {
  const auto folder = own_accents_folder();
  if (!folder) return folder.error();
  MW_EXPECT(is_plain(accent.id) && !is_shipped(accent.id));
  const fs::path file = *folder / (accent.id + ".toml"), good = *folder / "last-good";
  if (auto made = make_folder(good); !made) return made;
  const fs::path last = good / (accent.id + ".toml");
  if (auto kept = keep_hand_work(file, last, accent.id); !kept) return kept;
  const std::string text = write_accent(accent);
  if (auto written = write_file(file, text, true); !written) return written;
  return write_file(last, text, true);
}

Result<Accent> last_good_accent(const std::string& id) {
  const auto folder = own_accents_folder();
  if (!folder) return folder.error();
  if (!is_plain(id)) return Problem{ProblemKind::input, "there is no accent of this name", id, ""};
  return read_accent((*folder / "last-good" / (id + ".toml")).string());
}

Result<fs::path> discard_own_accent(const std::string& id) {
  const auto file = own_accent_file(id);
  if (!file) return Problem{ProblemKind::input, "you have no accent of this name", id, "`accents` lists yours after the others"};
  const fs::path trash = file->parent_path() / "trash";
  if (auto made = make_folder(trash); !made) return made.error();
  const fs::path where = free_path(trash, id + "-", ".toml");
  std::error_code error;
  fs::rename(*file, where, error);
  if (error) return unwritable("the accent cannot be moved to the trash", *file, error);
  return where;
}

} // namespace mw
