#include "app/session.h"

#include "app/playback.h"

#include <algorithm>

namespace mw::app {

void accept(Session& session, std::shared_ptr<const Take> take) {
  const bool other_phrase = !session.take || session.take->request.phrase != take->request.phrase;
  session.take = std::move(take);
  session.problem.reset();
  View& view = session.view;
  view.glide.reset();
  view.loop_span.reset();
  view.clash.reset();
  view.time_s = std::min(view.time_s, session.take->duration_s);
  if (!other_phrase) return;
  view.playing = false;
  view.seam_s = 0;
  if (session.take->clashes.empty()) view = go_to(view, *session.take, 0);
  else view = take_in_hand(view, *session.take, 0);
}

std::optional<std::size_t> shown_clash(const Session& session) {
  if (!session.take || session.take->clashes.empty()) return {};
  if (session.view.clash && *session.view.clash < session.take->clashes.size()) return session.view.clash;
  if (session.glow.clash && *session.glow.clash < session.take->clashes.size()) return session.glow.clash;
  return 0;
}

std::string accent_label(const Session& session, bool brief) {
  const auto& id = session.request.accent;
  const auto known = std::find_if(session.accents.begin(), session.accents.end(), [&](const AccentName& a) { return a.id == id; });
  if (brief || known == session.accents.end()) return id;
  return known->name + " (" + id + ")";
}

} // namespace mw::app
