#pragma once

#include "base/result.h"
#include "take/take.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace mw::cli {

/// Every option of every command; a command reads those of its row (see options.cpp). Defaults are the contract's.
struct Options {
  std::vector<std::string> arguments; // PHRASE, SEGMENT, ID, FILE or TABLE
  Notation notation = Notation::text;
  std::string accent = "GA", anatomy = "adult-male", theme = "light", output, every = "frame", check, with, learner, at;
  std::vector<std::string> say; // "word=sounds"
  std::map<std::string, std::string> corrections; // the same, read
  double rate = 4.5, casual = 0.5, slow = 4, fps = 24;
  int width = 1280, height = 720;
  bool loop = false, json = false, overwrite = false, resume = false, captions = true, transparent = false,
       gaps = false, slips = false, at_end = false, progress = false, in_order = false;
  std::string by = "overall", paper = "a4", part = "all";
  bool from_standard_input = false; // an argument was `-`
  bool help = false, version = false;
  std::string help_text;
};

/// One command: name, what it takes, which options, one line for --help.
struct Command {
  const char* name;
  const char* argument; // "PHRASE", "SEGMENT", "[ID]" (may be missing), "PHRASE..." (several)
  unsigned options;     // bits of Option
  const char* summary;
  int (*run)(const Options&);
};
enum Option : unsigned {
  opt_phrase = 1u << 0,   // --accent --notation --rate --casual --loop
  opt_notation = 1u << 1, // --notation alone (SEGMENT)
  opt_draw = 1u << 2,     // --anatomy --theme
  opt_anatomy = 1u << 3,  // --anatomy alone
  opt_time = 1u << 4,     // --slow
  opt_fps = 1u << 5,      // --fps
  opt_size = 1u << 6,     // --size
  opt_captions = 1u << 7, // --captions --no-captions
  opt_transparent = 1u << 8,
  opt_write = 1u << 9,    // -o --overwrite
  opt_resume = 1u << 10,
  opt_json = 1u << 11,
  opt_every = 1u << 12,
  opt_gaps = 1u << 13,
  opt_end = 1u << 14,
  opt_check = 1u << 15,   // accents --check FILE
  opt_rank = 1u << 16,    // --by --in-order
  opt_with = 1u << 17,    // compare --with
  opt_paper = 1u << 18,
  opt_part = 1u << 19,
  opt_learner = 1u << 20, // --learner
  opt_theme = 1u << 21,   // --theme alone
  opt_slips = 1u << 22,   // frames --slips
  opt_at = 1u << 23,      // compare --at
};
/// All commands, in the order of --help.
const std::vector<Command>& commands();

/// Parses the words after the command name. Problem (usage) says which option and what it takes. `-` as an argument reads
/// standard input.
Result<Options> parse_options(const Command& command, const std::vector<std::string>& words);

/// The request of a command that takes a phrase.
Request to_request(const Options& options);

} // namespace mw::cli
