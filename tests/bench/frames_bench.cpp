#include "bench/bench.h"
#include "bench/ratio.h"
#include "espeak/espeak.h"
#include "paint/cairo/paint.h"
#include "publish/frames.h"
#include "publish/png.h"
#include "scene/frame.h"
#include "scene/theme.h"

#include <cstdio>
#include <filesystem>
#include <thread>
#include <unistd.h>

namespace {
using namespace mw;

constexpr int width = 1920, height = 1080;
constexpr std::size_t frame_count = 24; // 150 MB of raw frames

struct Job {
  std::shared_ptr<const Take> take;
  std::vector<double> times{};
  std::vector<Tracer> tracers{};
  FrameView view{};
  unsigned threads = std::max(1u, std::thread::hardware_concurrency());
};

Pixels draw(Job& job, unsigned worker, double t) {
  return render(compose_frame(*job.take, job.tracers.at(worker), t, job.view), width, height, false, Finish::sequence);
}

/// The whole way: outline, scene, painter, PNG, files.
void write_ours(Job& job, const std::filesystem::path& folder) {
  const auto paint = [&job](unsigned worker, double t) -> Result<std::string> {
    return encode_png(draw(job, worker, t).rgba, width, height, false);
  };
  (void)write_sequence(*job.take, job.times, paint, {.folder = folder, .overwrite = true, .threads = job.threads});
}

/// The same frames, drawn beforehand, as rows of red, green and blue.
std::string raw_frames(Job& job) {
  std::string raw;
  for (double t : job.times) {
    const Pixels pixels = draw(job, 0, t);
    for (std::size_t i = 0; i + 3 < pixels.rgba.size(); i += 4)
      raw.append(reinterpret_cast<const char*>(pixels.rgba.data()) + i, 3);
  }
  return raw;
}

/// Piped to the program's PNG encoder, files written; its threads are its own choice. False when it does not run.
bool write_theirs(const std::string& raw, const std::filesystem::path& folder) {
  const std::string command = "ffmpeg -y -loglevel error -f rawvideo -pix_fmt rgb24 -s 1920x1080 -i - -c:v png '" +
                              (folder / "theirs-%05d.png").string() + "'";
  FILE* pipe = popen(command.c_str(), "w");
  if (pipe == nullptr) return false;
  const bool all = std::fwrite(raw.data(), 1, raw.size(), pipe) == raw.size();
  return pclose(pipe) == 0 && all;
}

std::uintmax_t bytes_in(const std::filesystem::path& folder, const std::string& start) {
  std::uintmax_t bytes = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".png" && entry.path().filename().string().starts_with(start)) bytes += entry.file_size();
  return bytes;
}

std::vector<bench::Figures> run() {
  const auto pronouncer = open_espeak();
  if (!pronouncer) return {{"frames", 0, 0, 0, pronouncer.error().what}};
  const auto take = make_take({.phrase = "The kettle mender sang to a puzzled spaniel."}, **pronouncer);
  const auto theme = find_theme("light");
  if (!take || !theme) return {{"frames", 0, 0, 0, "the take or the theme is missing"}};
  Job job{.take = *take};
  for (std::size_t i = 0; i < frame_count; ++i)
    job.times.push_back((*take)->duration_s * static_cast<double>(i) / static_cast<double>(frame_count));
  for (unsigned i = 0; i < job.threads; ++i) job.tracers.emplace_back((*take)->anatomy);
  job.view = {.width = width, .height = height, .theme = *theme};
  const std::string raw = raw_frames(job);

  const auto folder = std::filesystem::temp_directory_path() / ("mouthwright_bench_" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  constexpr int rounds = 5;
  bool ran = true;
  const auto ratio = bench::compare(bench::wall_us, rounds, [&] { write_ours(job, folder); },
                                    [&] { ran = write_theirs(raw, folder) && ran; });
  const auto ours = bytes_in(folder, "frame-"), theirs = bytes_in(folder, "theirs-");
  std::filesystem::remove_all(folder);
  if (!ran) return {{"frames", 0, 0, 0, "the ffmpeg program does not run"}};
  return {{"24 frames of 1920x1080, drawn and written", ratio.ours_us, ratio.ours_us, 0,
           bench::ratio_note(ratio, "ffmpeg's PNG encoder", rounds) + "; bytes " + std::to_string(ours) + " against " +
               std::to_string(theirs)}};
}
const bool registered = bench::add("frames", run);
} // namespace
