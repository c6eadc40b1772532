#include "app/session.h"

#include "app/playback.h"
#include "scene/lit.h"
#include "scene/mouth_slip.h"

#include <algorithm>
#include <array>

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
  session.slip_glow = {};
  view.time_s = std::clamp(view.time_s, start_of(*session.take), end_of(*session.take));
  if (!other_phrase) return;
  view.playing = false;
  view.seam_s = 0;
  if (session.take->clashes.empty()) view = go_to(view, *session.take, start_of(*session.take));
  else view = take_in_hand(view, *session.take, 0);
}

namespace {
struct SpeakerWord { std::string_view id, word; };
constexpr std::array speaker_words{SpeakerWord{"adult-male", "man"}, SpeakerWord{"adult-female", "woman"}, SpeakerWord{"child", "child"}};
} // namespace

void choose_speaker(Session& session, const std::string& id) {
  const auto anatomy = read_anatomy(id);
  if (!anatomy) {
    session.problem = anatomy.error();
    return;
  }
  session.anatomy = *anatomy;
  session.request.anatomy = id;
  session.asks_again = true;
}

std::string next_speaker(const std::string& id) {
  const auto ids = anatomy_ids();
  const auto here = std::find(ids.begin(), ids.end(), id);
  return here == ids.end() || here + 1 == ids.end() ? ids.front() : *(here + 1);
}

std::string speaker_word(const std::string& id) {
  const auto row = std::find_if(speaker_words.begin(), speaker_words.end(), [&](const SpeakerWord& w) { return w.id == id; });
  if (row != speaker_words.end()) return std::string(row->word);
  const auto anatomy = read_anatomy(id);
  return anatomy ? (*anatomy)->name : id;
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

namespace {

// Kept while nothing it follows from changes: it is asked for every picture.
const std::vector<LitSpan>& lighting_of(const Session& session, int divisor, std::optional<std::size_t> first) {
  static std::shared_ptr<const Take> take; // held, so that no other can stand at its address
  static int slow = 0;
  static std::optional<std::size_t> front;
  static std::vector<LitSpan> spans;
  if (take != session.take || slow != divisor || front != first) take = session.take, slow = divisor, front = first, spans = lighting(*take, divisor, first);
  return spans;
}

std::optional<std::size_t> in_span(const std::vector<LitSpan>& spans, double wall_s) {
  for (const LitSpan& s : spans)
    if (wall_s >= s.on_s && wall_s < s.off_s) return s.clash;
  return {};
}

} // namespace

std::optional<std::size_t> wanted_clash(const Session& session) {
  if (!session.take) return {};
  const View& view = session.view;
  const bool in_hand = view.clash && *view.clash < session.take->clashes.size();
  if (!view.playing && in_hand) { // standing still in a clash that was chosen: that one
    const Clash& held = session.take->clashes[*view.clash];
    if (view.time_s >= held.start_s - 1e-9 && view.time_s <= held.end_s + 1e-9) return view.clash;
  }
  const int divisor = slow_divisors[static_cast<std::size_t>(view.slow)];
  return in_span(lighting_of(session, divisor, view.loop_span && in_hand ? view.clash : std::nullopt), view.time_s * divisor);
}

std::optional<std::size_t> wanted_slip(const Session& session) {
  if (!session.take || !session.view.slips) return {};
  const View& view = session.view;
  const int divisor = slow_divisors[static_cast<std::size_t>(view.slow)];
  if (view.playing) return in_span(slip_times(*session.take, divisor), view.time_s * divisor);
  const auto nearest = nearest_slip(*session.take, view.time_s);
  if (!nearest) return {};
  const Segment& s = session.take->track.segments[session.take->likely_slips[*nearest].segment];
  return view.time_s >= s.start_s - 1e-9 && view.time_s <= s.end_s + 1e-9 ? nearest : std::nullopt;
}

std::size_t clashes_in_view(const Session& session) {
  constexpr std::size_t matter = 3; // what a student can attend to
  const std::size_t all = session.take ? session.take->clashes.size() : 0;
  return session.view.all_clashes ? all : std::min(all, matter);
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
