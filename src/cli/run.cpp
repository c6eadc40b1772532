#include "cli/run.h"

#include "base/text.h"
#include "cli/options.h"

#include <csignal>
#include <cstdio>
#include <cstdlib>

namespace mw::cli {
namespace {
constexpr int interrupted = 130; // as a shell tells it
extern "C" void leave(int) { std::_Exit(interrupted); }

constexpr const char* version = "0.3.0";

std::string overview() {
  std::string text = "Mouthwright shows what a phrase asks of the mouth, in any accent.\n\n"
                     "  mouthwright COMMAND [ARGUMENTS] [OPTIONS]\n"
                     "  mouthwright [open [LESSON]]       the window\n\n";
  for (const auto& command : commands()) {
    std::string left = std::string(command.name) + " " + command.argument;
    left.resize(std::max<std::size_t>(left.size() + 1, 22), ' ');
    text += "  " + left + command.summary + "\n";
  }
  text += "\n'mouthwright COMMAND --help' tells the options of a command. A phrase of several words stands in quotes;\n"
          "'-' reads it from standard input; '--' ends the options.\n"
          "The movement is a model: neither a medical picture nor a diagnosis.\n";
  return text;
}

std::string command_names() {
  std::string names;
  for (const auto& command : commands()) names += (names.empty() ? "" : ", ") + std::string(command.name);
  return names;
}

const Command* find_command(const std::string& name) {
  for (const auto& command : commands())
    if (name == command.name) return &command;
  return nullptr;
}
} // namespace

int tell(const Problem& problem) {
  std::string line = "mouthwright: " + problem.what;
  if (!problem.where.empty()) line += ", " + problem.where;
  if (problem.span && problem.where.empty()) line += ", at sign " + to_text(static_cast<int>(problem.span->start) + 1);
  if (!problem.remedy.empty()) line += ", " + problem.remedy;
  std::fprintf(stderr, "%s\n", line.c_str());
  return static_cast<int>(problem.kind);
}

Problem no_target(const char* command) {
  return {ProblemKind::usage, "the command needs a target", "-o", std::string("see 'mouthwright ") + command + " --help'"};
}

int print(const std::string& text) {
  const bool whole = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (whole && std::fflush(stdout) == 0) return 0;
  return tell({ProblemKind::output, "the output cannot be written", "standard output", "free some space or keep the pipe open"});
}

int run(const std::vector<std::string>& words, const OpenWindow& open_window) {
  std::signal(SIGPIPE, SIG_IGN); // a closed pipe is an ordinary write error
  if (words.empty() || words[0] == "open") {
    if (!open_window && words.size() > 1 && (words[1] == "--help" || words[1] == "-h")) return print(overview());
    if (!open_window)
      return tell({ProblemKind::missing, "this build has no window", "open",
                   "these commands work without it: " + command_names() + "; see 'mouthwright --help'"});
    return open_window({words.begin() + (words.empty() ? 0 : 1), words.end()});
  }
  if (words[0] == "--help" || words[0] == "-h" || words[0] == "help") return print(overview());
  if (words[0] == "--version") return print(std::string("mouthwright ") + version + "\n");
  const Command* command = find_command(words[0]);
  if (command == nullptr)
    return tell({ProblemKind::usage, "there is no such command", "'" + words[0] + "'", "see 'mouthwright --help'"});
  std::signal(SIGINT, leave); // a command that has something to put away sets its own
  const auto options = parse_options(*command, {words.begin() + 1, words.end()});
  if (!options) return tell(options.error());
  if (options->help) return print(options->help_text);
  if (options->version) return print(std::string("mouthwright ") + version + "\n");
  return command->run(*options);
}

} // namespace mw::cli
