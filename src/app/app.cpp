#include "app/app.h"

#include "app/script.h"
#include "app/window.h"

#include "base/assets.h"
#include "base/text.h"
#include "lesson/lesson.h"

#include <cstdio>

namespace mw::app {
namespace {

int tell(const Problem& problem) {
  std::string message = "mouthwright: " + problem.what;
  if (!problem.where.empty()) message += ", " + problem.where;
  if (!problem.remedy.empty()) message += "; " + problem.remedy;
  std::fprintf(stderr, "%s\n", message.c_str());
  return static_cast<int>(problem.kind);
}

Result<Done> play_script(Window& window, const WindowOptions& options) {
  auto text = read_file(options.script);
  if (!text) return text.error();
  auto script = parse_script(*text);
  if (!script) return script.error();
  if (!options.shot.empty()) script->push_back({"shot", options.shot, 0});
  return window.play(*script);
}

Result<Done> set_size(WindowOptions& options, const std::string& text) {
  const auto parts = split(text, 'x');
  if (parts.size() == 2)
    if (const auto w = parse_number(parts[0]), h = parse_number(parts[1]); w && h && *w >= 320 && *w <= 8192 && *h >= 240 && *h <= 8192) {
      options.width = static_cast<int>(*w), options.height = static_cast<int>(*h);
      return Done{};
    }
  return Problem{ProblemKind::usage, "--size takes width x height in pixels", text, "try --size 1280x720"};
}

// "--motion reduced", "--present window"
Result<Done> set_way(WindowOptions& options, const std::string& word, const std::string& value) {
  const bool motion = word == "--motion";
  const std::string yes = motion ? "reduced" : "full", no = motion ? "usual" : "window";
  if (value != yes && value != no) return Problem{ProblemKind::usage, word + " takes " + no + " or " + yes, value, ""};
  (motion ? options.reduced_motion : options.present_full) = value == yes;
  return Done{};
}

} // namespace

Result<WindowOptions> read_window_options(const std::vector<std::string>& arguments) {
  WindowOptions out;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& word = arguments[i];
    if (!starts_with(word, "--")) {
      out.lesson = word;
      continue;
    }
    if (i + 1 == arguments.size()) return Problem{ProblemKind::usage, word + " needs a value", "", "see mouthwright open --help"};
    const std::string& value = arguments[++i];
    if (word == "--script") out.script = value, out.present_full = false; // in the size that the script names
    else if (word == "--shot") out.shot = value;
    else if (word == "--phrase") out.request.phrase = value;
    else if (word == "--accent") out.request.accent = value;
    else if (word == "--theme") out.theme = value;
    else if (word == "--anatomy") out.request.anatomy = value;
    else if (word == "--motion" || word == "--present") {
      if (auto done = set_way(out, word, value); !done) return done.error();
    }
    else if (word == "--size") {
      if (auto size = set_size(out, value); !size) return size.error();
    } else return Problem{ProblemKind::usage, "the window has no option " + word, "", "see mouthwright open --help"};
  }
  return out;
}

std::string_view window_help() {
  return "mouthwright open [OPTIONS]\n"
         "  --phrase TEXT      the line to start with\n"
         "  --accent ID        its accent (GA)\n"
         "  --anatomy ID       adult-male, adult-female or child\n"
         "  --theme T          light, dark, high\n"
         "  --motion M         usual, or reduced: steps, no fades\n"
         "  --present P        full: Present takes the whole screen (window with --script)\n"
         "  --size WxH         size of the window (1280x720)\n"
         "for tests:\n"
         "  --script FILE      events, one a line; the window closes at its end\n"
         "  --shot FILE        the last picture as PNG (with --script)\n";
}

int open_window(const std::vector<std::string>& arguments) {
  if (!arguments.empty() && (arguments[0] == "--help" || arguments[0] == "-h")) {
    std::fputs(std::string(window_help()).c_str(), stdout);
    return 0;
  }
  const auto options = read_window_options(arguments);
  return options ? run_window(*options) : tell(options.error());
}

namespace {
// The line in hand of a lesson becomes the request, its theme the window's.
Result<WindowOptions> with_lesson(WindowOptions options) {
  if (options.lesson.empty()) return options;
  const auto lesson = read_lesson(options.lesson);
  if (!lesson) return lesson.error();
  options.theme = lesson->theme;
  if (!lesson->lines.empty() && options.request.phrase.empty()) options.request = lesson->lines[lesson->current].request;
  return options;
}
} // namespace

int run_window(const WindowOptions& given) {
  const auto with = with_lesson(given);
  if (!with) return tell(with.error());
  const WindowOptions& options = *with;
  auto window = Window::open(options);
  if (!window) return tell(window.error());
  if (options.script.empty()) {
    (*window)->run();
    return 0;
  }
  const auto played = play_script(**window, options);
  return played ? 0 : tell(played.error());
}

} // namespace mw::app
