#pragma once

#include "accent/accent.h"
#include "app/glow.h"
#include "app/layout.h"
#include "app/view.h"
#include "take/take.h"
#include "tract/outline.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace mw::app {

/// A list that is open over the window.
struct Menu {
  std::string id; // accent, slow, step, spotlight, word
  Rect under;     // the field it belongs to, window pixels
  struct Row { std::string text, note; };
  std::vector<Row> rows;
  int chosen = -1, at = 0;
  double scroll = 0; // rows
  std::string about{}; // the word whose readings these are
};

/// How far the switches of the picture have come, 0..1; `part` stays while its spotlight goes out.
struct Fades {
  double blank = 0, cover = 0, spotlight = 0;
  std::optional<Articulator> part;
  bool operator==(const Fades&) const = default;
};
/// The fades after so much wall time, on their way to what the view asks for.
Fades fades_on(Fades fades, const View& view, double wall_s, bool at_once);

/// What the pattern remembers between pictures; see pattern_play.h.
struct PatternMemory {
  double nearer_to_s = 0, settled_s = 0;
  std::vector<std::size_t> shown; // findings drawn in full in the last picture
  std::vector<double> strengths;  // of each finding, 0..1
};
struct CompareDesk; // compare.h

/// A name, or the sounds of a word, while it is written.
struct Writing {
  std::string text;
  Rect rect{};      // of the text, window pixels
  int pictures = 0; // since it began
  bool rests = false; // what has the focus is elsewhere
};
struct Correcting; // correcting.h

/// What a correction replaced: the line's own readings, and one's own word where it went there.
struct Corrected {
  std::map<std::string, std::string> before;
  std::string own_word{}, own_before{}; // empty: one's own dictionary was not touched
};

struct MyAccent; // my_accent.h

/// Everything the window knows; panels read and change it.
struct Session {
  Request request; // as edited
  View view;
  Glow glow, slip_glow; // of clashes; of likely slips
  Fades fades;
  PatternMemory pattern;
  std::shared_ptr<const Take> take; // the last good one
  std::optional<Problem> problem;   // of the request as it stands now
  std::shared_ptr<const Anatomy> anatomy; // of the quiet mouth before the first phrase
  std::vector<AccentName> accents;
  std::optional<Menu> menu;
  std::optional<Menu> opens; // the list that a row of the menu opens in its place
  std::shared_ptr<Tracer> tracer;          // of the take's speaker
  double drift_mm = 0;                     // of the marks of air, wall time
  std::shared_ptr<CompareDesk> compare;    // none before its view was opened
  std::shared_ptr<MyAccent> my_accent;     // none before its view was opened
  std::optional<Writing> naming;
  std::shared_ptr<Correcting> correcting;  // the card of a word, while it is open
  std::vector<Corrected> corrected;        // what corrections replaced, for undo
  std::optional<Request> aside;            // a second take that the view asks for, made when nothing else waits
  std::shared_ptr<const Take> aside_take;
  bool asks_anew = false;         // what the request names was changed, not the request
  bool field_active = false;      // the phrase is being edited
  bool wants_field = false;       // it should be, from the next picture on
  bool asks_again = false;        // the request changed at once (not by typing)
  bool wants_learner = false;     // the list of the learner's accent should open
  bool quits = false;
};

/// A phrase has been typed and computed.
inline bool has_phrase(const Session& s) { return s.take != nullptr && !s.request.phrase.empty(); }
/// A new take: the view stays where it can; a new phrase starts at its strongest clash, paused.
void accept(Session& session, std::shared_ptr<const Take> take);
/// Another speaker says the same; of the quiet mouth too. `id` of anatomy_ids().
void choose_speaker(Session& session, const std::string& id);
/// The speaker after this one, round the end.
std::string next_speaker(const std::string& id);
/// "man", "woman", "child"; the name of any other speaker.
std::string speaker_word(const std::string& id);
/// The clash whose text stands in the card: in hand, else under the time, else the strongest; none without clashes.
std::optional<std::size_t> shown_clash(const Session& session);
/// The clash, and the likely slip, that should be lit now; none: none.
std::optional<std::size_t> wanted_clash(const Session& session);
std::optional<std::size_t> wanted_slip(const Session& session);
/// How many of the clashes are gone through and flagged: the three that matter, or all.
std::size_t clashes_in_view(const Session& session);
/// The tracer of the take's speaker. Needs a take.
Tracer& tracer_of(Session& session);
/// The outline of the pose at the time shown; good until the next call. Needs a take.
const Outline& outline_now(Session& session);
/// Name of the accent in the request, "Southern British (SSBE)"; the id alone when `brief`.
std::string accent_label(const Session& session, bool brief);

} // namespace mw::app
