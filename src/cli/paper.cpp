#include "base/text.h"
#include "cli/commands.h"
#include "cli/run.h"
#include "lesson/lesson.h"
#include "publish/document.h"
#include "publish/picture.h"
#include "scene/sheet.h"
#include "scene/theme.h"

namespace mw::cli {
namespace {
Paper paper_of(const Options& options) {
  return options.paper == "a3" ? Paper::a3 : options.paper == "letter" ? Paper::letter : Paper::a4;
}

// Phrases as typed, or the lines of a lesson file.
Result<std::vector<Request>> requests_of(const Options& options) {
  std::vector<Request> requests;
  for (const auto& argument : options.arguments) {
    if (std::filesystem::path(argument).extension() == ".toml") {
      const auto lesson = read_lesson(argument);
      if (!lesson) return lesson.error();
      if (lesson->lines.empty())
        return Problem{ProblemKind::input, "the lesson has no lines yet", argument, "add a [[line]] with a phrase"};
      for (const auto& line : lesson->lines) {
        requests.push_back(line.request);
        if (!options.learner.empty()) requests.back().learner = options.learner;
      }
      continue;
    }
    Request request = to_request(options);
    request.phrase = argument;
    requests.push_back(std::move(request));
  }
  return requests;
}
} // namespace

int run_sheet(const Options& options) {
  if (options.output.empty()) return tell(no_target("sheet"));
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  const auto requests = requests_of(options);
  if (!requests) return tell(requests.error());
  std::vector<Scene> pages;
  for (const auto& request : *requests) {
    const auto take = take_of(request);
    if (!take) return tell(take.error());
    Tracer tracer((*take)->anatomy);
    for (auto& page : compose_sheet(**take, tracer, {.theme = *theme, .paper = paper_of(options), .source = {}}))
      pages.push_back(std::move(page));
  }
  const auto written = write_document(pages, options.output, requests->empty() ? "" : requests->front().phrase, options.overwrite);
  return written ? 0 : tell(written.error());
}

int run_chart(const Options& options) {
  if (options.output.empty()) return tell(no_target("chart"));
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  const auto anatomy = read_anatomy(options.anatomy);
  if (!anatomy) return tell(anatomy.error());
  const auto targets = read_targets(**anatomy);
  if (!targets) return tell(targets.error());
  Tracer tracer(*anatomy);
  const Vec2 upright = paper_size(paper_of(options));
  const bool pixels = to_lower(std::filesystem::path(options.output).extension().string()) == ".png";
  WallChartView view{.theme = *theme, .width = upright.y, .height = upright.x};
  if (pixels) {
    view.width = options.width;
    view.height = options.height;
  }
  view.part = options.part == "consonants" ? ChartPart::consonants : options.part == "vowels" ? ChartPart::vowels
              : options.part == "other"    ? ChartPart::other                               : ChartPart::all;
  const Scene scene = compose_wall_chart(tracer, **targets, view);
  const auto written = write_picture(scene, options.output, "The sounds of the IPA chart", false, options.overwrite);
  return written ? 0 : tell(written.error());
}

} // namespace mw::cli
