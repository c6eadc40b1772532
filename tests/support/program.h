#pragma once

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

extern char** environ;

namespace mw::test {

/// A folder of its own that is removed at the end of the scope.
class Folder {
public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "mouthwright-test-XXXXXX").string();
    path_ = mkdtemp(pattern.data());
  }
  ~Folder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
  std::filesystem::path path_;
};

struct Outcome {
  int code = -1; // exit code, or 128 + signal
  std::string out, err;
};

inline std::string whole(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// Runs the program of this build with arguments and standard input, to its end. `variables`: NAME=value put before the
/// environment, NAME alone taken out of it; `binary`: another copy of the program.
inline Outcome run_program(const std::vector<std::string>& arguments, const std::string& input = "",
                           const std::vector<std::string>& variables = {}, const std::string& binary = "") {
  const Folder folder;
  std::ofstream(folder / "in", std::ios::binary) << input;
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  const std::string in = (folder / "in").string(), out = (folder / "out").string(), err = (folder / "err").string();
  posix_spawn_file_actions_addopen(&actions, 0, in.c_str(), O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), O_WRONLY | O_CREAT, 0600);
  posix_spawn_file_actions_addopen(&actions, 2, err.c_str(), O_WRONLY | O_CREAT, 0600);
  const char* built = std::getenv("MOUTHWRIGHT_BINARY");
  std::vector<std::string> words{!binary.empty() ? binary : built != nullptr ? built : "mouthwright"};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> environment;
  for (const auto& v : variables)
    if (v.find('=') != std::string::npos) environment.push_back(v);
  for (char** e = environ; *e != nullptr; ++e) {
    const std::string entry = *e, name = entry.substr(0, entry.find('=') + 1);
    bool replaced = false;
    for (const auto& v : variables) replaced = replaced || v.substr(0, name.size()) == name || v + "=" == name;
    if (!replaced) environment.push_back(entry);
  }
  std::vector<char*> argv, envp;
  for (auto& w : words) argv.push_back(w.data());
  for (auto& e : environment) envp.push_back(e.data());
  argv.push_back(nullptr);
  envp.push_back(nullptr);
  pid_t child = 0;
  Outcome outcome;
  if (posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), envp.data()) != 0) return outcome;
  int status = 0;
  waitpid(child, &status, 0);
  posix_spawn_file_actions_destroy(&actions);
  outcome.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  outcome.out = whole(out);
  outcome.err = whole(err);
  return outcome;
}

/// Starts the program, its output thrown away, and sends `signal` after a while; its exit code, or minus the signal that
/// ended it.
inline int run_and_signal(const std::vector<std::string>& arguments, int signal, int after_ms) {
  const char* built = std::getenv("MOUTHWRIGHT_BINARY");
  std::vector<std::string> words{built != nullptr ? built : "mouthwright"};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (auto& w : words) argv.push_back(w.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  for (const int stream : {1, 2}) posix_spawn_file_actions_addopen(&actions, stream, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) return -1;
  std::this_thread::sleep_for(std::chrono::milliseconds(after_ms));
  kill(child, signal);
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

} // namespace mw::test
