#pragma once

#include "base/result.h"
#include "take/take.h"

#include <atomic>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace mw {

/// Which moments of a take become pictures.
enum class FrameStep { frame, segment, landmark };

/// Times in seconds: `frame`: k / (fps x slow), k from 0 while that is at most the duration; `segment`: the moment that
/// stands for each sound; `landmark`: every onset, reach, release and offset of a move, in order, doubles left out.
std::vector<double> frame_times(const Take& take, FrameStep step, double fps, double slow);

/// frame-00001.png for index 0.
std::string frame_name(std::size_t index);

/// One picture of the sequence as PNG bytes; `worker` numbers the thread, so that each may keep its own working memory.
using DrawFrame = std::function<Result<std::string>(unsigned worker, double time_s)>;

struct SequenceSettings {
  std::filesystem::path folder;
  bool overwrite = false, resume = false;
  unsigned threads = 2;
  std::function<void(std::size_t done, std::size_t all)> progress{}; // called from the workers, one at a time
  const std::atomic<bool>* interrupted = nullptr;                     // set: stop soon, leave no half-written file
};

/// Draws all frames in parallel and writes frame-*.png, index.csv and index.json into the folder (made if missing).
/// Problem (output): unwritable, full, a target exists and neither overwrite nor resume is set. Same request, same bytes.
Result<Done> write_sequence(const Take& take, const std::vector<double>& times, const DrawFrame& draw,
                            const SequenceSettings& settings);

} // namespace mw
