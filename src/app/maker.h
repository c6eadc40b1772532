#pragma once

#include "take/take.h"

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

namespace mw::app {

/// Computes takes in a thread of its own; the newest request wins. `wake` is called from that thread when one is done.
class Maker {
public:
  using Make = std::function<Result<std::shared_ptr<const Take>>(const Request&)>;
  struct Made { Request request; Result<std::shared_ptr<const Take>> take; };

  Maker(Make make, std::function<void()> wake);
  ~Maker();

  /// What is asked for and not begun is replaced.
  void ask(Request request);
  /// The last finished take, once.
  std::optional<Made> collect();
  [[nodiscard]] bool is_busy(); // works, or has something to collect

private:
  void work(const std::stop_token& stop);

  Make make_;
  std::function<void()> wake_;
  std::mutex guard_;
  std::condition_variable_any asked_;
  std::optional<Request> next_;
  std::optional<Made> made_;
  bool busy_ = false;
  std::jthread thread_; // last: it ends before the rest goes
};

} // namespace mw::app
