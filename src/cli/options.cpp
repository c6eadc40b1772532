#include "cli/options.h"

#include "base/text.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <iterator>

namespace mw::cli {
namespace {
Problem usage(std::string what, std::string where, std::string remedy) {
  return {ProblemKind::usage, std::move(what), std::move(where), std::move(remedy)};
}

// "1280x720" -> width, height; both 64..8192
std::string read_size(const std::string& text, Options& options) {
  const auto parts = split(text, 'x');
  const auto side = [&](std::size_t i) -> int {
    if (parts.size() != 2 || parts[i].empty() || parts[i].size() > 4) return 0;
    if (parts[i].find_first_not_of("0123456789") != std::string::npos) return 0;
    return std::stoi(parts[i]);
  };
  if (parts.size() == 2) {
    options.width = side(0);
    options.height = side(1);
  }
  const auto fits = [](int v) { return v >= 64 && v <= 8192; };
  if (parts.size() != 2 || !fits(options.width) || !fits(options.height))
    return "'" + text + "' is not a size from 64x64 to 8192x8192";
  return {};
}

std::string read_standard_input() { return {std::istreambuf_iterator<char>(std::cin), std::istreambuf_iterator<char>()}; }

using Names = std::vector<std::string>;

/// A number from low to high; the words "nan" and "inf", which the library reads as numbers, are none.
CLI::Validator between(double low, double high) {
  return {[low, high](std::string& text) {
            const auto value = parse_number(text);
            return value && *value >= low && *value <= high
                       ? std::string()
                       : "'" + text + "' is not a number from " + to_text(low, 1) + " to " + to_text(high, 1);
          },
          "", ""};
}

void add_phrase_options(CLI::App& app, Options& o) {
  app.add_option("--accent", o.accent, "id of an accent (see 'mouthwright accents') or a path to an accent file")
      ->capture_default_str();
  app.add_option("--rate", o.rate, "syllables a second, 1 to 9")->check(between(1.0, 9.0))->capture_default_str();
  app.add_option("--casual", o.casual, "0 careful to 1 casual (typed text only)")
      ->check(between(0.0, 1.0))
      ->capture_default_str();
  app.add_flag("--loop", o.loop, "the phrase is said again and again");
  app.add_option("--say", o.say,
                 "WORD=SOUNDS: how a word is said, as /IPA/, [X-SAMPA], sets and consonants (\"k DRESS t commA l\") or the set of "
                 "its stressed vowel (TRAP); may be given several times. Words for every phrase stand in "
                 "$XDG_CONFIG_HOME/mouthwright/words.txt, a line each: word = SOUNDS")
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
      ->allow_extra_args(false);
}

void add_picture_options(CLI::App& app, unsigned bits, Options& o, std::string& size, const std::string& paper) {
  if (bits & (opt_draw | opt_anatomy))
    app.add_option("--anatomy", o.anatomy, "adult-male, adult-female or child")
        ->check(CLI::IsMember(Names{"adult-male", "adult-female", "child"}))
        ->capture_default_str();
  if (bits & (opt_draw | opt_theme))
    app.add_option("--theme", o.theme, "light, dark, high or print")
        ->check(CLI::IsMember(Names{"light", "dark", "high", "print"}))
        ->capture_default_str();
  if (bits & opt_time)
    app.add_option("--slow", o.slow, "slow motion, 1 to 32")->check(between(1.0, 32.0))->capture_default_str();
  if (bits & opt_size) app.add_option("--size", size, "WxH pixels, 64x64 to 8192x8192 (1280x720)");
  if (bits & opt_paper)
    app.add_option("--paper", o.paper, "a4, letter or a3 (" + paper + ")")
        ->check(CLI::IsMember(Names{"a4", "letter", "a3"}));
  if (bits & opt_part)
    app.add_option("--part", o.part, "all, consonants, vowels or other")
        ->check(CLI::IsMember(Names{"all", "consonants", "vowels", "other"}));
}

void add_writing_options(CLI::App& app, unsigned bits, Options& o) {
  if (bits & opt_write) {
    app.add_option("-o,--output", o.output, "file or folder to write");
    app.add_flag("--overwrite", o.overwrite, "replace what is there");
  }
  if (bits & opt_resume) app.add_flag("--resume", o.resume, "keep the frames that are there and write the rest");
  if (bits & opt_transparent) app.add_flag("--transparent", o.transparent, "no ground behind the picture");
  if (bits & opt_captions)
    app.add_flag("--captions,!--no-captions", o.captions, "the sound, the word and lit clashes in words (on)");
  if (bits & opt_slips) app.add_flag("--slips", o.slips, "where a sound may slip, the intruding move as a second outline");
  if (bits & opt_every)
    app.add_option("--every", o.every, "frame, segment or landmark")
        ->check(CLI::IsMember(Names{"frame", "segment", "landmark"}))
        ->capture_default_str();
}

void add_other_options(CLI::App& app, unsigned bits, Options& o) {
  if (bits & opt_fps)
    app.add_option("--fps", o.fps, "frames (motion: rows) a second, 1 to 240")
        ->check(between(1.0, 240.0))
        ->capture_default_str();
  if (bits & opt_json) app.add_flag("--json", o.json, "machine-readable output");
  if (bits & opt_gaps) app.add_flag("--gaps", o.gaps, "add four columns measured on the drawn outline");
  if (bits & opt_end) app.add_flag("--end", o.at_end, "a glide at its end instead of its start");
  if (bits & opt_check) app.add_option("--check", o.check, "check an accent file and say what is wrong with it");
  if (bits & opt_with) app.add_option("--with", o.with, bits & opt_phrase ? "the learner's accent: id or path" : "a second accent in the picture: id or path");
  if (bits & opt_at)
    app.add_option("--at", o.at, "the place in the picture: a word, a sound in IPA, or the number of a sound (from 0, as in explain)");
  if (bits & opt_learner)
    app.add_option("--learner", o.learner, "the learner's own accent: id or path; tells what has to be kept apart or merged");
  if (bits & opt_rank) {
    app.add_flag("--in-order", o.in_order, "lines in the order of the file");
    app.add_option("--by", o.by, "slips, slowing, late_start, drift or overall")
        ->check(CLI::IsMember(Names{"slips", "slowing", "late_start", "drift", "overall"}));
  }
}

// "word=sounds" -> the corrections of the request
std::optional<Problem> read_corrections(Options& o) {
  for (const auto& entry : o.say) {
    const std::size_t at = entry.find('=');
    const std::string word = to_lower(trim(std::string_view(entry).substr(0, at)));
    if (at == std::string::npos || word.empty())
      return usage("'" + entry + "' is not WORD=SOUNDS", "--say", "try --say 'tomato=t commA m PALM t GOAT'");
    o.corrections[word] = trim(std::string_view(entry).substr(at + 1));
  }
  return std::nullopt;
}

// one argument, none or several, by the command's row
std::optional<Problem> check_arguments(const Command& command, Options& o) {
  const std::string takes = command.argument;
  const bool several = takes.find("...") != std::string::npos;
  const bool optional = takes.empty() || takes.front() == '[';
  const std::string see = std::string("see 'mouthwright ") + command.name + " --help'";
  if (o.arguments.empty() && !optional) return usage("the command needs " + takes, command.name, see);
  if (takes.empty() && !o.arguments.empty())
    return usage("the command takes no argument", "'" + o.arguments[0] + "'", see);
  if (!several && o.arguments.size() > 1)
    return usage("one argument too many", "'" + o.arguments[1] + "'", "put a phrase of several words in quotes");
  for (auto& argument : o.arguments)
    if (argument == "-") {
      argument = read_standard_input();
      o.from_standard_input = true;
      // the end of the last line is no part of a phrase
      while (!argument.empty() && (argument.back() == '\n' || argument.back() == '\r')) argument.pop_back();
    }
  return std::nullopt;
}
} // namespace

Result<Options> parse_options(const Command& command, const std::vector<std::string>& words) {
  Options o;
  const unsigned bits = command.options;
  const std::string name = command.name;
  const bool on_paper = name == "sheet" || name == "chart";
  if (name == "motion") o.fps = 100;
  if (on_paper) o.theme = "print";
  if (name == "chart") o.paper = "a3";

  CLI::App app(command.summary, "mouthwright " + name);
  app.option_defaults()->multi_option_policy(CLI::MultiOptionPolicy::TakeLast); // an option given twice: the last counts
  std::string size, notation = bits & opt_phrase ? "text" : "ipa";
  app.add_flag("--version", o.version, "print the version");
  app.add_option("argument", o.arguments, command.argument)->multi_option_policy(CLI::MultiOptionPolicy::Throw);
  if (bits & opt_phrase) add_phrase_options(app, o);
  if (bits & (opt_phrase | opt_notation))
    app.add_option("--notation", notation, bits & opt_phrase ? "text, ipa or xsampa" : "ipa or xsampa")
        ->check(CLI::IsMember(bits & opt_phrase ? Names{"text", "ipa", "xsampa"} : Names{"ipa", "xsampa", "text"}))
        ->capture_default_str();
  add_picture_options(app, bits, o, size, o.paper);
  add_writing_options(app, bits, o);
  add_other_options(app, bits, o);
  app.add_flag("--progress", o.progress, "say how far it is, also when not on a terminal");
  app.footer("Exit codes: 0 fine, 1 wrong use, 2 a problem with the input, 3 cannot write, 4 our fault, 5 a part of the "
             "system is missing.");

  try {
    std::vector<std::string> reversed(words.rbegin(), words.rend());
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    o.help = true;
    o.help_text = app.help();
    return o;
  } catch (const CLI::ParseError& error) {
    return usage(error.what(), name, "see 'mouthwright " + name + " --help'");
  }
  if (o.version) return o;
  if (!size.empty())
    if (const auto wrong = read_size(size, o); !wrong.empty()) return usage(wrong, "--size", "try --size 1280x720");
  o.notation = notation == "ipa" ? Notation::ipa : notation == "xsampa" ? Notation::xsampa : Notation::text;
  if (!(bits & opt_phrase) && o.notation == Notation::text) o.notation = Notation::ipa; // one sound is always written
  if (const auto problem = read_corrections(o)) return *problem;
  if (const auto problem = check_arguments(command, o)) return *problem;
  return o;
}

Request to_request(const Options& o) {
  return {.phrase = o.arguments.empty() ? std::string() : o.arguments.front(),
          .notation = o.notation,
          .accent = o.accent,
          .anatomy = o.anatomy,
          .rate = o.rate,
          .casual = o.casual,
          .loop = o.loop,
          .corrections = o.corrections,
          .learner = o.learner};
}

} // namespace mw::cli
