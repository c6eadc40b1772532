#include "publish/frames.h"

#include "base/csv.h"
#include "base/assets.h"
#include "base/text.h"
#include "take/moment.h"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <nlohmann/json.hpp>
#include <thread>

namespace mw {
namespace fs = std::filesystem;
namespace {
Problem output(std::string what, const fs::path& where, std::string remedy) {
  return {ProblemKind::output, std::move(what), where.string(), std::move(remedy)};
}

// The folder exists and holds none of the targets unless that is wanted.
Result<Done> prepare(const SequenceSettings& s) {
  std::error_code error;
  if (s.folder.empty()) return Problem{ProblemKind::usage, "frames needs a folder", "-o", "try -o frames"};
  if (fs::exists(s.folder, error) && !fs::is_directory(s.folder, error))
    return output("this is a file, not a folder", s.folder, "name a folder for the pictures");
  fs::create_directories(s.folder, error);
  if (error) return output("the folder cannot be made: " + error.message(), s.folder, "choose a folder that can be written");
  if (s.overwrite || s.resume) return Done{};
  for (const char* name : {"frame-00001.png", "index.csv", "index.json"})
    if (fs::exists(s.folder / name, error))
      return output("an earlier sequence is there already", s.folder / name, "choose another folder, or add --overwrite or --resume");
  return Done{};
}

// Frames of an earlier, longer run would be taken for part of this one.
void remove_leftovers(const fs::path& folder, std::size_t frames) {
  std::error_code error;
  for (std::size_t i = frames; fs::remove(folder / frame_name(i), error); ++i) {
  }
}

std::string strongest(const Take& take, const Moment& m) {
  return m.clashes.empty() ? std::string() : std::string(to_text(take.clashes[m.clashes.front()].kind));
}

std::string index_csv(const Take& take, const std::vector<double>& times) {
  std::string out = "file,time_s,segment,ipa,word,clash\n";
  for (std::size_t i = 0; i < times.size(); ++i) {
    const Moment m = moment_at(take, times[i]);
    out += frame_name(i) + "," + to_text(times[i], 6) + "," + (m.segment ? std::to_string(*m.segment) : "") + "," +
           csv_cell(m.ipa) + "," + csv_cell(m.word) + "," + strongest(take, m) + "\n";
  }
  return out;
}

std::string index_json(const Take& take, const std::vector<double>& times) {
  using Json = nlohmann::ordered_json;
  Json frames = Json::array();
  for (std::size_t i = 0; i < times.size(); ++i) {
    const Moment m = moment_at(take, times[i]);
    Json entry{{"file", frame_name(i)}, {"time_s", std::round(times[i] * 1e6) / 1e6}};
    if (m.segment) {
      entry["segment"] = *m.segment;
      entry["ipa"] = m.ipa;
      entry["word"] = m.word;
    }
    if (!m.clashes.empty()) entry["clash"] = strongest(take, m);
    frames.push_back(std::move(entry));
  }
  const Json out{{"schema", 1}, {"phrase", take.request.phrase}, {"accent", take.accent->id}, {"frames", frames}};
  return out.dump(1, ' ', false) + "\n";
}

// Shared by the workers: the next frame to draw and the first problem met.
struct Queue {
  std::atomic<std::size_t> next{0};
  std::mutex mutex;
  std::size_t done = 0;
  std::optional<Problem> problem;
  std::atomic<bool> stop{false};
};

void work(unsigned worker, Queue& queue, const std::vector<double>& times, const DrawFrame& draw, const SequenceSettings& s) {
  for (std::size_t i = queue.next++; i < times.size() && !queue.stop; i = queue.next++) {
    if (s.interrupted != nullptr && *s.interrupted) return;
    const fs::path file = s.folder / frame_name(i);
    std::error_code error;
    Result<Done> written = Done{};
    if (!(s.resume && !s.overwrite && fs::exists(file, error))) {
      const auto png = draw(worker, times[i]);
      if (png) written = write_file(file, *png, s.overwrite || s.resume);
      else written = png.error();
    }
    const std::lock_guard lock(queue.mutex);
    if (!written) {
      if (!queue.problem) queue.problem = written.error();
      queue.stop = true;
      return;
    }
    ++queue.done;
    if (s.progress) s.progress(queue.done, times.size());
  }
}
} // namespace

std::string frame_name(std::size_t index) {
  std::string digits = std::to_string(index + 1);
  if (digits.size() < 5) digits.insert(0, 5 - digits.size(), '0');
  return "frame-" + digits + ".png";
}

std::vector<double> frame_times(const Take& take, FrameStep step, double fps, double slow) {
  std::vector<double> times;
  if (step == FrameStep::frame) {
    const double per_second = fps * slow;
    const auto count = static_cast<std::size_t>(std::floor(take.duration_s * per_second + 1e-9)) + 1;
    for (std::size_t k = 0; k < count; ++k) times.push_back(static_cast<double>(k) / per_second);
  } else if (step == FrameStep::segment) {
    for (std::size_t i = 0; i < take.track.segments.size(); ++i) times.push_back(step_time(take, i));
  } else {
    for (const auto& g : take.score.gestures)
      for (const double t : {g.onset_s, g.reached_s, g.release_s, g.offset_s}) times.push_back(std::clamp(t, 0.0, take.duration_s));
    std::sort(times.begin(), times.end());
    // moves that start together share one picture
    times.erase(std::unique(times.begin(), times.end(), [](double a, double b) { return b - a < 1e-3; }), times.end());
  }
  return times;
}

Result<Done> write_sequence(const Take& take, const std::vector<double>& times, const DrawFrame& draw,
                            const SequenceSettings& settings) {
  if (auto ready = prepare(settings); !ready) return ready;
  Queue queue;
  {
    std::vector<std::jthread> workers;
    for (unsigned w = 0; w < std::max(1u, settings.threads); ++w)
      workers.emplace_back([&, w] { work(w, queue, times, draw, settings); });
  }
  if (queue.problem) return *queue.problem;
  if (settings.interrupted != nullptr && *settings.interrupted) return Done{};
  if (settings.overwrite) remove_leftovers(settings.folder, times.size());
  const bool replace = settings.overwrite || settings.resume;
  if (auto csv = write_file(settings.folder / "index.csv", index_csv(take, times), replace); !csv) return csv;
  return write_file(settings.folder / "index.json", index_json(take, times), replace);
}

} // namespace mw
