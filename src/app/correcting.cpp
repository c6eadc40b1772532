#include "app/correcting.h"

#include "app/writing.h"
#include "base/text.h"
#include "phrase/correct.h"
#include "phrase/words.h"
#include "scene/take_text.h"
#include "text/shaper.h"

#include <SDL_keycode.h>

#include <algorithm>

namespace mw::app {
namespace {

constexpr std::size_t most_steps = 200; // of undo

const Word* word_of(const Session& session) {
  const auto& words = session.take->pronunciation.words;
  return session.correcting->word < words.size() ? &words[session.correcting->word] : nullptr;
}

std::string key_of(const Session& session) { return to_lower(session.correcting->text); }

std::string where_from(const Session& session, const Word& word) {
  switch (word.source) {
    case WordSource::guess: return "guessed from its spelling; in no word list I know";
    case WordSource::correction: return session.request.corrections.contains(key_of(session)) ? "your own reading, kept with this line" : "your own reading, for every line";
    default: break;
  }
  if (session.request.corrections.contains(key_of(session))) return "by your own lexical set, kept with this line";
  switch (word.source) {
    case WordSource::override_list: return "from the list of words that the voices get wrong";
    case WordSource::choice: return "the likelier of its readings here";
    case WordSource::typed: return "as it was typed";
    default: return "as the pronouncing voices say it";
  }
}

std::vector<LexicalSet> sets_of(const Phonemes& phonemes) {
  std::vector<LexicalSet> out;
  for (const Phoneme& phoneme : phonemes)
    if (phoneme.set) out.push_back(*phoneme.set);
  return out;
}

/// What each other reading of a spelling means, in the order of its choices. Known where the vowels tell which reading is
/// said now; else empty.
std::vector<std::string> meanings_of(const Word& word) {
  const auto& tables = word_tables();
  if (!tables) return {};
  const auto row = tables->heteronyms.find(to_lower(word.text));
  if (row == tables->heteronyms.end() || row->second.size() != word.choices.size() + 1) return {};
  std::vector<LexicalSet> now;
  for (const Syllable& syllable : word.syllables)
    if (syllable.set) now.push_back(*syllable.set);
  std::vector<std::string> out;
  for (const HeteronymReading& reading : row->second)
    if (sets_of(reading.phonemes) != now) out.push_back(reading.meaning);
  return out.size() == word.choices.size() ? out : std::vector<std::string>{};
}

/// What the line says of the word is put by for undo, then changed.
void put(Session& session, const std::string& said) {
  session.corrected.push_back({session.request.corrections});
  if (session.corrected.size() > most_steps) session.corrected.erase(session.corrected.begin());
  if (said.empty()) session.request.corrections.erase(key_of(session));
  else session.request.corrections[key_of(session)] = said;
  session.asks_again = session.asks_anew = true;
}

std::string own_word(const std::string& key) {
  const auto own = read_own_words()->corrections;
  const auto at = own.find(key);
  return at == own.end() ? "" : at->second;
}

/// Once it can be said: into one's own dictionary, where the line finds it again.
void keep_everywhere(Session& session) {
  Correcting& card = *session.correcting;
  const std::string key = key_of(session), before = own_word(key);
  const auto said = session.request.corrections.find(key);
  if (said == session.request.corrections.end()) return;
  if (auto kept = keep_own_word(key, said->second); !kept) {
    card.problem = kept.error();
    return;
  }
  session.corrected.back().own_word = key, session.corrected.back().own_before = before;
  session.request.corrections.erase(said);
  session.asks_again = session.asks_anew = true;
}

void say_it(Session& session, const std::string& said) {
  Correcting& card = *session.correcting;
  card.problem.reset();
  if (trim(said).empty()) return;
  if (const auto parsed = parse_correction(said); !parsed) {
    card.problem = parsed.error();
    return;
  }
  put(session, std::string(trim(said)));
  card.waits = true;
}

/// Without any reading of one's own, here and in one's dictionary.
void say_as_listed(Session& session) {
  const std::string key = key_of(session), before = own_word(key);
  put(session, "");
  if (before.empty()) return;
  if (auto gone = keep_own_word(key, ""); !gone) session.correcting->problem = gone.error();
  else session.corrected.back().own_word = key, session.corrected.back().own_before = before;
}

// The take with the new reading is there, or says why there is none: then the line is as it was.
void follow(Session& session) {
  Correcting& card = *session.correcting;
  if (!card.waits || session.asks_again) return;
  if (session.take->request.corrections == session.request.corrections) {
    card.waits = false;
    if (card.everywhere) keep_everywhere(session);
    if (!card.problem) session.correcting.reset(), session.field_active = false;
  } else if (session.problem) {
    card.waits = false;
    card.problem = session.problem;
    session.problem.reset();
    session.request.corrections = session.corrected.back().before;
    session.corrected.pop_back();
    session.asks_again = session.asks_anew = true;
  }
}

} // namespace

void open_correcting(Session& session, std::size_t word, std::optional<Rect> under) {
  if (!session.take || word >= session.take->pronunciation.words.size() || session.take->request.notation != Notation::text) return;
  Correcting card;
  card.word = word, card.text = session.take->pronunciation.words[word].text, card.under = under.value_or(Rect{});
  const auto said = session.request.corrections.find(to_lower(card.text));
  if (said != session.request.corrections.end()) card.writing.text = said->second;
  else if (const std::string own = own_word(to_lower(card.text)); !own.empty()) card.writing.text = own, card.everywhere = true;
  session.view.playing = false;
  session.correcting = std::make_shared<Correcting>(std::move(card));
}

void correct_word_now(Session& session) {
  if (!has_phrase(session) || session.view.presenting) return;
  const auto sound = segment_at(*session.take, session.view.time_s); // before the first sound: its word
  if (!sound || session.take->track.segments[*sound].word < 0) return;
  open_correcting(session, static_cast<std::size_t>(session.take->track.segments[*sound].word), std::nullopt);
}

void undo_correction(Session& session) {
  if (session.corrected.empty()) return;
  const Corrected last = std::move(session.corrected.back());
  session.corrected.pop_back();
  session.request.corrections = last.before;
  if (!last.own_word.empty())
    if (auto back = keep_own_word(last.own_word, last.own_before); !back) session.problem = back.error();
  session.asks_again = session.asks_anew = true;
}

namespace {

struct CardPen {
  Ui& ui;
  Session& session;
  Correcting& card;
  const Word& word;
  double u, width;
  double y = 0; // the next line

  [[nodiscard]] const Theme& theme() const { return *ui.theme; }
  void head(Rect r) {
    ui.canvas.fitted({"correct", card.text}, {r.x, y + 22 * u}, card.text, {17 * u, theme().ink, true}, 0.45 * width);
    const double at = std::min(text_width(card.text, 17 * u, true), 0.45 * width) + 14 * u;
    ui.canvas.fitted({"correct", "now"}, {r.x + at, y + 22 * u}, to_ipa(word), {19 * u, theme().ink}, width - at - 28 * u);
    y += 30 * u;
    y = ui.canvas.paragraph({}, {r.x, y}, where_from(session, word), {13.5 * u, theme().quiet}, width, 2) + 6 * u;
  }
  // Other readings of the spelling, each a button; in rows, or one a row with what it means.
  void readings(Rect r) {
    double x = r.x;
    const auto meanings = meanings_of(word);
    for (std::size_t i = 0; i < word.choices.size(); ++i) {
      const std::string& choice = word.choices[i];
      if (choice == to_ipa(word)) continue;
      const double w = std::min(text_width(choice, 14 * u) + 26 * u, width);
      if (x + w > r.x + width + 1 || (!meanings.empty() && x > r.x)) x = r.x, y += 38 * u;
      if (ui.button("reading-" + to_text(static_cast<int>(i)), {x, y, w, 32 * u}, {}, choice, {"Say it so", "Another reading of this spelling", ""})) say_it(session, "/" + choice + "/");
      if (!meanings.empty()) ui.canvas.fitted({"meaning", choice}, {x + w + 12 * u, middle_baseline(y + 16 * u, 14 * u)}, meanings[i], {14 * u, theme().quiet}, width - w - 12 * u);
      x += w + 8 * u;
    }
    if (x > r.x) y += 40 * u;
  }
  void field(Rect r) {
    ui.canvas.text({}, {r.x, y + 14 * u}, "Say it as", {14.5 * u, theme().ink, true});
    y += 21 * u;
    const Rect box{r.x, y, width, 34 * u};
    ui.canvas.box({"field", "correct"}, box, 8 * u, theme().raised, card.problem ? theme().second : theme().action, 1.8 * u);
    card.writing.rect = inset(box, 0);
    card.writing.rect = {box.x + 10 * u, box.y + 1, box.width - 20 * u, box.height - 2};
    y += 40 * u;
    if (card.problem) {
      y = ui.canvas.paragraph({"problem", ""}, {r.x, y}, card.problem->what + (card.problem->where.empty() ? "" : " (" + card.problem->where + ")"), {13.5 * u, theme().second, true}, width, 3);
      y = ui.canvas.paragraph({}, {r.x, y}, card.problem->remedy, {13.5 * u, theme().ink}, width, 2) + 4 * u;
    } else
      y = ui.canvas.paragraph({}, {r.x, y}, "Sounds /\u02c8k\u025btl\u0329/ or [\"kEtl=], or the lexical set of its vowel: DRESS", {13 * u, theme().quiet}, width, 2) + 4 * u;
  }
  void buttons(Rect r) {
    // for how long
    const Rect tick{r.x, y, width, 26 * u};
    if (ui.spot("correct-everywhere", tick, {"In every line", "Kept in your own dictionary; else with this line alone", ""}, true, 6)) card.everywhere = !card.everywhere;
    const Rect box{r.x + 1 * u, y + 4 * u, 18 * u, 18 * u};
    ui.canvas.box({}, box, 4 * u, card.everywhere ? theme().action : theme().raised, ui.is_hovered("correct-everywhere") ? theme().action : theme().edge, 1.4 * u);
    if (card.everywhere) ui.canvas.add(draw_sign(Sign::tick, box.centre(), 6 * u, theme().on_action));
    ui.canvas.text_middle({}, {r.x + 28 * u, tick.centre().y}, "in every line, not only in this one", {14 * u, theme().ink});
    y += 34 * u;
    if (ui.button("correct-say", {r.x, y, 96 * u, 34 * u}, {}, "Say it so", {"Say it so", "", "Enter"}, false, true)) say_it(session, card.writing.text);
    const bool own = word.source == WordSource::correction || session.request.corrections.contains(key_of(session)) || card.everywhere;
    if (own && ui.button("correct-listed", {r.x + 104 * u, y, 126 * u, 34 * u}, {}, "As the list has it", {"As the list has it", "Your own reading is taken away", ""})) {
      say_as_listed(session);
      if (!card.problem) session.correcting.reset(), session.field_active = false;
    }
    y += 34 * u;
  }
};

} // namespace

void show_correcting(Ui& ui, Session& session, const Layout& layout) {
  if (!session.correcting) return;
  if (!has_phrase(session) || !word_of(session) || session.view.presenting) {
    session.correcting.reset();
    session.field_active = false;
    return;
  }
  follow(session);
  const auto held = session.correcting; // an answer may close it
  if (!held) return;
  const double u = layout.u, width = std::min(360 * u, layout.whole.width - 60 * u);
  CardPen pen{ui, session, *held, *word_of(session), u, width};
  // once without drawing, for its height
  Rect under = held->under;
  if (under.width == 0) under = {layout.whole.width / 2 - width / 2, layout.top.bottom(), width, 8 * u};
  const double x = std::clamp(under.centre().x - width / 2, 24 * u, layout.whole.width - width - 24 * u);
  const double readings = static_cast<double>(word_of(session)->choices.size() + 1) / 2 * 40 * u;
  const double most = (held->problem ? 300 : 262) * u + (word_of(session)->choices.empty() ? 0 : readings);
  const double top = std::clamp(under.bottom() + 14 * u, layout.top.bottom(), std::max(layout.top.bottom(), layout.whole.height - most - 10 * u));
  // its paper lies below what is written on it
  Canvas before = std::move(ui.canvas);
  ui.canvas = {};
  pen.y = top + 8 * u;
  const Rect r{x, top, width, 0};
  pen.head(r), pen.readings(r), pen.field(r), pen.buttons(r);
  Canvas written = std::move(ui.canvas);
  ui.canvas = std::move(before);
  const Rect card{x - 16 * u, top, width + 32 * u, pen.y + 14 * u - top};
  ui.canvas.box({"correct", "card"}, card, 10 * u, ui.theme->panel, ui.theme->edge, 1.4 * u);
  ui.canvas.add(std::move(written.marks));
  const Vec2 m = ui.input.mouse;
  const bool outside = m.x < card.x || m.x > card.right() || m.y < card.y || m.y > card.bottom();
  if (ui.input.pressed && outside) session.correcting.reset(), session.field_active = false;
}

bool show_correcting_field(const Ui& ui, Session& session, const Theme& theme, const Input& input, double u, double wall_s, int width, int height) {
  const auto held = session.correcting;
  // Tab went on to a button: Enter is its own; a click into the field comes back
  held->writing.rests = ui.shows_focus() && !ui.focused().empty() && ui.find(ui.focused()) != nullptr;
  const Written now = write_on(held->writing, theme, input, 17 * u, wall_s, width, height);
  session.field_active = !held->writing.rests;
  if (now == Written::given_up) {
    session.correcting.reset();
    session.field_active = false;
    return true;
  }
  if (now == Written::entered) say_it(session, held->writing.text);
  if (now != Written::goes_on && !held->writing.rests && !held->waits) held->writing.pictures = 0; // it stays in the field until the card goes
  return (now != Written::goes_on && !held->writing.rests && !held->waits) || held->writing.pictures < 5;
}

} // namespace mw::app
