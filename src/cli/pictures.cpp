#include "base/text.h"
#include "cli/commands.h"
#include "cli/run.h"
#include "paint/cairo/paint.h"
#include "publish/frames.h"
#include "publish/picture.h"
#include "publish/png.h"
#include "scene/frame.h"
#include "scene/pattern_chart.h"
#include "scene/theme.h"
#include "text/shaper.h"

#include <atomic>
#include <csignal>
#include <thread>
#include <unistd.h>

namespace mw::cli {
namespace {
std::atomic<bool> interrupted{false};
extern "C" void on_interrupt(int) { interrupted = true; }

// One line that overwrites itself; only on a terminal or when asked for.
std::function<void(std::size_t, std::size_t)> progress_line(const Options& options) {
  if (!options.progress && isatty(STDERR_FILENO) == 0) return {};
  return [](std::size_t done, std::size_t all) {
    std::fprintf(stderr, "\r%zu of %zu pictures", done, all);
    if (done == all) std::fputc('\n', stderr);
  };
}

FrameStep step_of(const Options& options) {
  return options.every == "segment" ? FrameStep::segment : options.every == "landmark" ? FrameStep::landmark : FrameStep::frame;
}

// A tracer a worker: each keeps its own working memory.
DrawFrame frame_painter(const Take& take, const Options& options, const Theme& theme, unsigned threads) {
  auto tracers = std::make_shared<std::vector<Tracer>>();
  for (unsigned i = 0; i < threads; ++i) tracers->emplace_back(take.anatomy);
  const FrameView view{.width = static_cast<double>(options.width),
                       .height = static_cast<double>(options.height),
                       .theme = &theme,
                       .captions = options.captions,
                       .transparent = options.transparent,
                       .slow = options.slow,
                       .slips = options.slips,
                       .still = step_of(options) != FrameStep::frame};
  return [&take, tracers, view, options](unsigned worker, double t) -> Result<std::string> {
    const Scene scene = compose_frame(take, tracers->at(worker), t, view);
    const Pixels pixels = render(scene, options.width, options.height, options.transparent, Finish::sequence);
    return encode_png(pixels.rgba, pixels.width, pixels.height, options.transparent);
  };
}
} // namespace

int run_frames(const Options& options) {
  if (options.output.empty()) return tell(no_target("frames"));
  if (options.overwrite && options.resume)
    return tell({ProblemKind::usage, "--overwrite and --resume exclude each other", "frames", "choose one"});
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  if (const auto fonts = check_fonts(); !fonts) return tell(fonts.error());
  const auto take = take_of(options);
  if (!take) return tell(take.error());
  std::signal(SIGINT, on_interrupt);
  std::signal(SIGTERM, on_interrupt);
  const unsigned threads = std::max(1u, std::thread::hardware_concurrency());
  const auto times = frame_times(**take, step_of(options), options.fps, options.slow);
  const auto written = write_sequence(**take, times, frame_painter(**take, options, **theme, threads),
                                      {.folder = options.output,
                                       .overwrite = options.overwrite,
                                       .resume = options.resume,
                                       .threads = threads,
                                       .progress = progress_line(options),
                                       .interrupted = &interrupted});
  if (!written) return tell(written.error());
  if (interrupted) {
    std::fprintf(stderr, "mouthwright: interrupted, %s, the pictures written so far are whole; --resume goes on\n", options.output.c_str());
    return 130;
  }
  return 0;
}

int run_strip(const Options& options) {
  if (options.output.empty()) return tell(no_target("strip"));
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  const auto take = take_of(options);
  if (!take) return tell(take.error());
  Tracer tracer((*take)->anatomy);
  const Scene scene = compose_strip(**take, tracer,
                                    {.width = static_cast<double>(options.width),
                                     .height = static_cast<double>(options.height),
                                     .theme = *theme,
                                     .captions = options.captions});
  const auto written = write_picture(scene, options.output, (*take)->request.phrase, false, options.overwrite);
  return written ? 0 : tell(written.error());
}

int run_pattern(const Options& options) {
  if (options.output.empty()) return tell(no_target("pattern"));
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  const auto take = take_of(options);
  if (!take) return tell(take.error());
  const Scene scene = compose_pattern_sheet(**take, {.width = static_cast<double>(options.width),
                                                     .height = static_cast<double>(options.height),
                                                     .theme = *theme,
                                                     .captions = options.captions});
  const auto written = write_picture(scene, options.output, (*take)->request.phrase, false, options.overwrite);
  return written ? 0 : tell(written.error());
}

} // namespace mw::cli
