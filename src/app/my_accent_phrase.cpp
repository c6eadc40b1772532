#include "app/my_accent.h"

#include "app/panels.h"

#include "accent/own.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>

namespace mw::app {
namespace {

/// Sounds of a word one under the other; empty where one has none.
struct Cell { std::string before, after; };
struct WordCells { std::string text; std::vector<Cell> cells; };

std::vector<std::string> sounds_of(const Word& word) {
  std::vector<std::string> out;
  for (const Syllable& syllable : word.syllables) {
    for (const Sound& sound : syllable.onset) out.push_back(to_ipa(sound));
    out.push_back(to_ipa(syllable.nucleus));
    for (const Sound& sound : syllable.coda) out.push_back(to_ipa(sound));
  }
  return out;
}

/// The fewest differing cells; of equal ways the one with fewer gaps.
std::vector<Cell> aligned(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  const std::size_t n = a.size(), m = b.size();
  constexpr double gap = 1.1;
  std::vector<std::vector<double>> cost(n + 1, std::vector<double>(m + 1, 0));
  for (std::size_t i = n + 1; i-- > 0;)
    for (std::size_t j = m + 1; j-- > 0;) {
      if (i == n || j == m) {
        cost[i][j] = gap * static_cast<double>((n - i) + (m - j));
        continue;
      }
      cost[i][j] = std::min({cost[i + 1][j + 1] + (a[i] == b[j] ? 0 : 1.5), cost[i + 1][j] + gap, cost[i][j + 1] + gap});
    }
  std::vector<Cell> out;
  for (std::size_t i = 0, j = 0; i < n || j < m;) {
    if (i < n && j < m && cost[i][j] == cost[i + 1][j + 1] + (a[i] == b[j] ? 0 : 1.5)) out.push_back({a[i++], b[j++]});
    else if (i < n && cost[i][j] == cost[i + 1][j] + gap) out.push_back({a[i++], ""});
    else out.push_back({"", b[j++]});
  }
  return out;
}

std::vector<WordCells> cells_of(const Pronunciation& before, const Pronunciation& after) {
  std::vector<WordCells> out;
  const std::size_t n = std::min(before.words.size(), after.words.size());
  for (std::size_t i = 0; i < n; ++i) out.push_back({after.words[i].text, aligned(sounds_of(before.words[i]), sounds_of(after.words[i]))});
  return out;
}

/// The phrase in the start accent: the take in hand when nothing was changed, else the one made aside.
std::shared_ptr<const Take> take_before(Session& session, const MyAccent& mine) {
  Request wanted = session.take->request;
  wanted.accent = mine.start.id;
  if (session.take->request.accent == wanted.accent) return session.take;
  session.aside = wanted;
  return session.aside_take && session.aside_take->request == wanted ? session.aside_take : nullptr;
}

struct Row { double size, word_gap, pad, height; };

double width_of(const Row& row, const Cell& cell) { return std::max({text_width(cell.before, row.size), text_width(cell.after, row.size), 0.5 * row.size}) + 2 * row.pad; }
double width_of(const Row& row, const WordCells& word) {
  double width = 0;
  for (const Cell& cell : word.cells) width += width_of(row, cell);
  return std::max(width, text_width(word.text, 13 * row.size / 18));
}
double width_of(const Row& row, const std::vector<WordCells>& words) {
  double width = 0;
  for (const WordCells& word : words) width += width_of(row, word) + row.word_gap;
  return width;
}
bool differs(const WordCells& word) {
  return std::any_of(word.cells.begin(), word.cells.end(), [](const Cell& c) { return c.before != c.after; });
}

void draw_cells(Ui& ui, const std::vector<WordCells>& words, const Row& row, Rect r) {
  const Theme& theme = *ui.theme;
  const double u = ui.u, top = r.y + 18 * u, low = top + row.height;
  double x = r.x;
  for (const WordCells& word : words) {
    const double whole = width_of(row, word);
    if (x + whole > r.right() + 1) {
      ui.canvas.text({}, {x, low}, "…", {18 * u, theme.quiet});
      return;
    }
    ui.canvas.text({"foot-word", word.text}, {x + row.pad, r.y + 13 * u}, word.text, {13 * u, differs(word) ? theme.ink : theme.quiet, differs(word)});
    double at = x;
    for (const Cell& cell : word.cells) {
      const double w = width_of(row, cell);
      const bool other = cell.before != cell.after;
      if (other) {
        ui.canvas.box({"foot-changed", cell.after}, {at + 0.5 * u, low, w - u, row.height}, 5 * u, theme.changed, theme.edge, u);
        if (cell.after.empty()) ui.canvas.box({}, {at + 0.5 * u, low, w - u, row.height}, 5 * u, clear, theme.edge, u, {2 * u, 3 * u});
      }
      ui.canvas.text_middle({"foot-before", cell.before}, {at + w / 2, top + row.height / 2}, cell.before, {row.size, other ? theme.ink : theme.quiet, false, Anchor::middle});
      ui.canvas.text_middle({"foot-after", cell.after}, {at + w / 2, low + row.height / 2}, cell.after, {row.size, theme.ink, other, Anchor::middle});
      at += w;
    }
    x += whole + row.word_gap;
  }
}

} // namespace

void draw_before_and_after(Ui& ui, Session& session, Rect r) {
  MyAccent& mine = my_accent(session);
  const Theme& theme = *ui.theme;
  const double u = ui.u;
  ui.panel(r);
  const double x = r.x + 14 * u, names = std::min(150 * u, r.width * 0.17);
  if (!has_phrase(session)) {
    ui.canvas.text_middle({}, {x, r.centre().y}, "Type a line above: here stands what your accent changes in it, sound under sound.", {14.5 * u, theme.quiet});
    return;
  }
  const double height = (r.height - 26 * u) / 2;
  Row row{18 * u, 16 * u, 3 * u, height};
  const double top = r.y + 4 * u;
  const std::string from = mine.start.name.substr(0, mine.start.name.find(" ("));
  ui.canvas.fitted({}, {x, middle_baseline(top + 18 * u + height / 2, 13.5 * u)}, mine.own ? from : "as it is said", {13.5 * u, theme.quiet}, names - 8 * u);
  ui.canvas.fitted({}, {x, middle_baseline(top + 18 * u + 1.5 * height, 13.5 * u, true)}, mine.own ? "yours" : "yours, so far the same", {13.5 * u, theme.action, true}, names - 8 * u);
  const auto before = take_before(session, mine);
  if (!before) return;
  auto words = cells_of(before->pronunciation, session.take->pronunciation);
  const Rect room{x + names, top, r.right() - 12 * u - x - names, r.height};
  // smaller, then only the words that change
  const double wide = width_of(row, words);
  if (wide > room.width) {
    const double shrink = std::max(room.width / wide, 0.8);
    row.size *= shrink, row.word_gap *= shrink, row.pad *= shrink;
    if (width_of(row, words) > room.width && std::any_of(words.begin(), words.end(), differs)) std::erase_if(words, [](const WordCells& w) { return !differs(w); });
  }
  draw_cells(ui, words, row, room);
}

void draw_problem_card(Ui& ui, Session& session, Rect r) {
  MyAccent& mine = my_accent(session);
  const double u = ui.u;
  const double y = draw_problem(ui, *mine.problem, {r.x + 16 * u, r.y + 14 * u}, r.width - 32 * u);
  const Rect good{r.x + 16 * u, std::min(y + 8 * u, r.bottom() - 42 * u), 200 * u, 32 * u};
  if (last_good_accent(session.request.accent)) {
    if (ui.button("last-good", good, {}, "Take the last good one", {"The last good one", "As it was last saved; what stands there now is kept beside it", ""})) choose_of_accent(session, "take the last good state");
  } else if (ui.button("go-on", {good.x, good.y, 150 * u, good.height}, {}, "Try again", {"Try again", "Read or save it once more", ""})) {
    mine.asked.clear();
    my_accent(session);
  }
}

} // namespace mw::app
