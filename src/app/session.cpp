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
  view.finding.reset();
  view.time_s = std::clamp(view.time_s, start_of(*session.take), end_of(*session.take));
  if (!other_phrase) return;
  view.playing = false;
  view.seam_s = 0;
  if (session.take->clashes.empty()) view = go_to(view, *session.take, start_of(*session.take));
  else view = take_in_hand(view, *session.take, 0);
}

Fades fades_on(Fades fades, const View& view, double wall_s, bool at_once) {
  fades.blank = fade_on(fades.blank, view.blank, wall_s, at_once);
  fades.cover = fade_on(fades.cover, view.covered, wall_s, at_once);
  if (view.spotlight) fades.part = view.spotlight; // from part to part without a dark moment
  fades.spotlight = fade_on(fades.spotlight, view.spotlight.has_value(), wall_s, at_once);
  if (fades.spotlight == 0) fades.part.reset();
  return fades;
}

std::optional<std::size_t> shown_clash(const Session& session) {
  if (!session.take || session.take->clashes.empty()) return {};
  if (session.view.clash && *session.view.clash < session.take->clashes.size()) return session.view.clash;
  if (session.glow.clash && *session.glow.clash < session.take->clashes.size()) return session.glow.clash;
  return 0;
}

Tracer& tracer_of(Session& session) {
  if (!session.tracer || &session.tracer->anatomy() != session.take->anatomy.get()) session.tracer = std::make_shared<Tracer>(session.take->anatomy);
  return *session.tracer;
}
const Outline& outline_now(Session& session) {
  return tracer_of(session).trace(pose_at(session.take->motion, session.view.time_s));
}

std::string accent_label(const Session& session, bool brief) {
  const auto& id = session.request.accent;
  const auto known = std::find_if(session.accents.begin(), session.accents.end(), [&](const AccentName& a) { return a.id == id; });
  const bool own = known != session.accents.end() && known->status == "yours";
  if (own) return brief ? known->name : known->name + (known->name.starts_with("Your ") ? "" : " (yours)");
  if (brief || known == session.accents.end()) return id;
  // what the list adds in brackets stays in the list
  return known->name.substr(0, known->name.find(" (")) + " (" + id + ")";
}

} // namespace mw::app
