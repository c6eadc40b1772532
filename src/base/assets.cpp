#include "base/assets.h"

#include "base/text.h"

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace mw {
namespace fs = std::filesystem;

Result<fs::path> assets_folder() {
  std::vector<fs::path> tried;
  if (const char* set = std::getenv("MOUTHWRIGHT_ASSETS"); set != nullptr && *set != '\0') tried.emplace_back(set);
  std::error_code error;
  const fs::path own = fs::read_symlink("/proc/self/exe", error);
  if (!error) {
    // beside the binary, then up to the source tree of a build folder, then the install prefix
    fs::path folder = own.parent_path();
    for (int level = 0; level < 4 && !folder.empty(); ++level, folder = folder.parent_path())
      tried.push_back(folder / "assets");
    tried.push_back(own.parent_path().parent_path() / "share" / "mouthwright");
  }
  for (const auto& folder : tried)
    if (fs::is_directory(folder / "speakers", error)) return folder;
  std::string places;
  for (const auto& folder : tried) places += (places.empty() ? "" : ", ") + folder.string();
  return Problem{ProblemKind::missing, "the program's data folder was not found", places,
                 "set MOUTHWRIGHT_ASSETS to the assets folder of the installation"};
}

Result<std::string> read_file(const fs::path& file, std::size_t limit) {
  std::error_code error;
  if (fs::is_directory(file, error))
    return Problem{ProblemKind::input, "this is a folder, not a file", file.string(), "name a file inside it"};
  std::ifstream in(file, std::ios::binary);
  if (!in)
    return Problem{ProblemKind::input, std::string("the file cannot be read: ") + std::strerror(errno), file.string(),
                   "check the name and the permissions"};
  std::string text;
  char buffer[1 << 16];
  while (in.read(buffer, sizeof buffer) || in.gcount() > 0) {
    text.append(buffer, static_cast<std::size_t>(in.gcount()));
    if (text.size() > limit)
      return Problem{ProblemKind::input, "the file is larger than " + std::to_string(limit >> 20) + " MB",
                     file.string(), "name a smaller file"};
  }
  if (in.bad())
    return Problem{ProblemKind::input, "reading the file failed half-way", file.string(), "check the disk"};
  return text;
}

Result<std::string> read_asset(const std::string& name) {
  const auto folder = assets_folder();
  if (!folder) return folder.error();
  auto text = read_file(*folder / name);
  if (!text)
    return Problem{ProblemKind::missing, "a data file of the program is missing", text.error().where,
                   "install the program again"};
  return text;
}

namespace {
/// Holds back the signals that end a program, so that none comes between a temporary file and its rename.
class SignalsHeld {
public:
  SignalsHeld() {
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ends, signal);
    pthread_sigmask(SIG_BLOCK, &ends, &before_);
  }
  ~SignalsHeld() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;

private:
  sigset_t before_{};
};
} // namespace

Result<Done> write_file(const fs::path& file, std::string_view bytes, bool overwrite) {
  const auto problem = [&](const std::string& what, const std::string& remedy) {
    return Problem{ProblemKind::output, what, file.string(), remedy};
  };
  std::error_code error;
  if (!overwrite && fs::exists(fs::symlink_status(file, error)))
    return problem("the file is there already", "choose another name or add --overwrite");
  // the temporary name stands in the same folder, so that the rename is one step
  fs::path folder = file.parent_path();
  if (folder.empty()) folder = ".";
  std::string pattern = (folder / (".mouthwright-XXXXXX")).string();
  const SignalsHeld held;
  const int handle = ::mkstemp(pattern.data());
  if (handle < 0)
    return problem(std::string("cannot write here: ") + std::strerror(errno), "choose a folder that can be written");
  std::size_t done = 0;
  int failure = 0;
  while (done < bytes.size()) {
    const auto written = ::write(handle, bytes.data() + done, bytes.size() - done);
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) {
      failure = written < 0 ? errno : EIO;
      break;
    }
    done += static_cast<std::size_t>(written);
  }
  if (failure == 0 && ::fchmod(handle, 0644) != 0) failure = errno;
  if (::close(handle) != 0 && failure == 0) failure = errno;
  if (failure == 0 && ::rename(pattern.c_str(), file.c_str()) != 0) failure = errno;
  if (failure != 0) {
    ::unlink(pattern.c_str());
    return problem(std::string("writing failed: ") + std::strerror(failure), "free some space or choose another folder");
  }
  return Done{};
}

std::optional<std::size_t> CsvTable::column(std::string_view name) const {
  const auto at = std::find(columns.begin(), columns.end(), name);
  if (at == columns.end()) return std::nullopt;
  return static_cast<std::size_t>(at - columns.begin());
}

Result<CsvTable> parse_csv(std::string_view text, const std::string& name) {
  CsvTable table;
  std::vector<std::string> row;
  std::string cell;
  bool quoted = false, any = false;
  std::size_t line = 1;
  const auto bad = [&](const std::string& what) {
    return Problem{ProblemKind::input, what, name + " line " + std::to_string(line), "mend the row"};
  };
  const auto end_row = [&]() -> bool {
    row.push_back(std::move(cell));
    cell.clear();
    const bool blank = row.size() == 1 && row[0].empty();
    if (!blank) {
      if (table.columns.empty()) table.columns = row;
      else if (row.size() != table.columns.size()) return false;
      else table.rows.push_back(row);
    }
    row.clear();
    any = false;
    return true;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '"' && i + 1 < text.size() && text[i + 1] == '"') { cell += '"'; ++i; }
      else if (c == '"') quoted = false;
      else { cell += c; if (c == '\n') ++line; }
    } else if (c == '"') {
      quoted = true; any = true;
    } else if (c == ',') {
      row.push_back(std::move(cell)); cell.clear(); any = true;
    } else if (c == '\n') {
      if (!end_row()) return bad("the row has another number of cells than the header");
      ++line;
    } else if (c != '\r') {
      cell += c; any = true;
    }
  }
  if (quoted) return bad("a quotation mark is never closed");
  if ((any || !row.empty()) && !end_row()) return bad("the row has another number of cells than the header");
  return table;
}

Result<CsvTable> read_csv_asset(const std::string& name) {
  const auto text = read_asset(name);
  if (!text) return text.error();
  return parse_csv(*text, name);
}

} // namespace mw
