#include "app/window.h"

#if MW_ESPEAK
#include "espeak/espeak.h"
#endif

namespace mw::app {

Result<std::shared_ptr<Pronouncer>> Window::make_pronouncer() const {
  if (options_.pronouncer) return options_.pronouncer();
#if MW_ESPEAK
  return open_espeak();
#else
  return Problem{ProblemKind::missing, "this build cannot look words up", "", "type sounds between slashes: /hɒt/"};
#endif
}

} // namespace mw::app
