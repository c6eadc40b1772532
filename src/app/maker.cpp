#include "app/maker.h"

#include <utility>

namespace mw::app {

Maker::Maker(Make make, std::function<void()> wake)
    : make_(std::move(make)), wake_(std::move(wake)), thread_([this](const std::stop_token& stop) { work(stop); }) {}
Maker::~Maker() = default;

void Maker::ask(Request request) {
  {
    const std::lock_guard lock{guard_};
    next_ = std::move(request);
  }
  asked_.notify_one();
}

std::optional<Maker::Made> Maker::collect() {
  const std::lock_guard lock{guard_};
  return std::exchange(made_, std::nullopt);
}

bool Maker::is_busy() {
  const std::lock_guard lock{guard_};
  return busy_ || next_.has_value() || made_.has_value();
}

void Maker::work(const std::stop_token& stop) {
  for (;;) {
    Request request;
    {
      std::unique_lock lock{guard_};
      if (!asked_.wait(lock, stop, [&] { return next_.has_value(); })) return;
      request = *std::exchange(next_, std::nullopt);
      busy_ = true;
    }
    auto take = make_(request);
    {
      const std::lock_guard lock{guard_};
      made_ = Made{std::move(request), std::move(take)};
      busy_ = false;
    }
    wake_();
  }
}

} // namespace mw::app
