#include "app/window.h"

namespace mw::app {

Result<std::unique_ptr<Pronouncer>> Window::make_pronouncer() const {
  if (options_.pronouncer) return options_.pronouncer();
  return Problem{ProblemKind::missing, "words cannot be looked up in this build", "", "type sounds between slashes: /hɒt/"};
}

} // namespace mw::app
