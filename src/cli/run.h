#pragma once

#include "base/result.h"

#include <functional>
#include <string>
#include <vector>

namespace mw::cli {

/// Opens the window on a lesson (no argument: the sample lesson); gives the exit code. Set by main when the window is
/// built in.
using OpenWindow = std::function<int(const std::vector<std::string>& arguments)>;

/// The whole command line: finds the command, parses, runs, turns problems into messages and exit codes (contract.md).
int run(const std::vector<std::string>& words, const OpenWindow& open_window);

/// Prints `mouthwright: what happened, where, what to try` to standard error; gives the exit code of its kind.
int tell(const Problem& problem);

/// The problem of a command that writes a file and was not told which.
Problem no_target(const char* command);

/// Writes to standard output; exit code 0, or 3 when the output cannot take it (closed pipe, full disk).
int print(const std::string& text);

} // namespace mw::cli
