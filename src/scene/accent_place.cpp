#include "scene/accent_chart.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/parse.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw {
namespace {

constexpr std::string_view raised = "\u031D", lowered = "\u031E", advanced = "\u031F", retracted = "\u0320", centralised = "\u0308", mid_centralised = "\u033D",
                           more_rounded = "\u0339", less_rounded = "\u031C";
// marks that say where the tongue is and how the lips are held; the others of a vowel are kept when it is moved
constexpr std::array place_marks{raised, lowered, advanced, retracted, centralised, mid_centralised, more_rounded, less_rounded};
// rounding (0..1, for the vowel's height) below which lips count as not rounded, and above which as fully rounded
constexpr double half_from = 0.15, round_from = 0.8;

double full_rounding(double y) { return 1 - 0.5 * y; } // as vowel_place: open vowels round less

constexpr std::string_view hook = "\u02DE"; // r-colour as a mark, where the letter itself does not carry it
bool is_r_letter(const std::string& letter) { return letter == "\u025D" || letter == "\u025A"; }

bool is_place_mark(const std::string& mark) { return std::find(place_marks.begin(), place_marks.end(), mark) != place_marks.end(); }

struct Candidate {
  Sound sound;
  VowelPlace place;
  Lips lips;
};

/// Every letter with every legal set of at most one mark of height, of fronting or centring, and of rounding.
std::vector<Candidate> all_candidates() {
  constexpr std::array<std::string_view, 3> heights{"", raised, lowered}, roundings{"", more_rounded, less_rounded};
  constexpr std::array<std::string_view, 7> sideways{"", advanced, retracted, centralised, mid_centralised, "\u031F\u0308", "\u0320\u0308"};
  std::vector<Candidate> out;
  for (const Letter& letter : letters()) {
    if (!letter.vowel || letter.ipa == "\u025A" || letter.ipa == "\u025D") continue; // r-coloured ones have an r to keep
    for (const auto side : sideways)
      for (const auto height : heights)
        for (const auto rounding : roundings) {
          if (rounding == (letter.rounded ? more_rounded : less_rounded)) continue; // beyond full, below none
          const auto sound = parse_sound(letter.ipa + std::string(side) + std::string(height) + std::string(rounding), Notation::ipa);
          if (!sound) continue;
          if (const auto place = vowel_place(*sound)) out.push_back({*sound, *place, lips_of(*place)});
        }
  }
  return out;
}

const std::vector<Candidate>& candidates() {
  static const auto known = all_candidates();
  return known;
}

} // namespace

const Sound& vowel_of(const Accent& accent, LexicalSet set, std::optional<std::size_t> row) {
  const auto& rows = accent.contexts[static_cast<std::size_t>(set)];
  return row && *row < rows.size() ? rows[*row].value.vowel : accent.of(set).vowel;
}

std::string place_of_row(std::string_view context) {
  std::string out(context.substr(0, context.find(" in its ")));
  if (const auto comma = out.find(','); comma != std::string::npos) out = out.substr(0, comma) + " \u2026";
  return out;
}

std::string_view to_words(Lips lips) {
  constexpr std::array<std::string_view, 3> words{"lips spread or neutral", "lips a little rounded", "lips rounded"};
  return words[static_cast<std::size_t>(lips)];
}

Lips lips_of(VowelPlace place) {
  const double share = place.rounding / full_rounding(place.y);
  return share < half_from ? Lips::spread : share < round_from ? Lips::half : Lips::round;
}

VowelPlace with_lips(VowelPlace place, Lips lips) {
  place.rounding = lips == Lips::spread ? 0 : full_rounding(place.y) * (lips == Lips::half ? 0.5 : 1);
  return place;
}

Sound vowel_at(VowelPlace place) {
  // plain letters win where a mark would gain nothing that can be heard
  constexpr double mark_cost = 0.006;
  const Lips lips = lips_of(place);
  const Candidate* best = nullptr;
  double least = 1e300;
  for (const Candidate& candidate : candidates()) {
    if (candidate.lips != lips) continue;
    const double cost = std::hypot(candidate.place.x - place.x, candidate.place.y - place.y) + mark_cost * static_cast<double>(candidate.sound.marks.size());
    if (cost < least) least = cost, best = &candidate;
  }
  MW_EXPECT(best != nullptr);
  return best->sound;
}

Sound moved_vowel(const Sound& vowel, VowelPlace place, bool end) {
  const Sound there = vowel_at(place);
  Sound out = vowel;
  auto& letter = end ? out.glide_letter : out.letter;
  auto& marks = end ? out.glide_marks : out.marks;
  std::string text = there.letter + join(there.marks, "");
  for (const std::string& mark : marks)
    if (!is_place_mark(mark)) text += mark;
  if (is_r_letter(letter)) text += hook;
  // through the reader, so that the marks stand in their order; one that this letter cannot carry is dropped
  const auto whole = parse_sound(text, Notation::ipa);
  letter = whole ? whole->letter : there.letter;
  marks = whole ? whole->marks : there.marks;
  return out;
}

std::string place_words(const Sound& vowel, bool end) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 6> words{{{raised, "a little higher"},
                                                                               {lowered, "a little lower"},
                                                                               {advanced, "further forward"},
                                                                               {retracted, "further back"},
                                                                               {centralised, "nearer the middle"},
                                                                               {mid_centralised, "nearer the centre"}}};
  const bool second = end && is_glide(vowel);
  std::string out = "at " + (second ? vowel.glide_letter : vowel.letter);
  for (const std::string& mark : second ? vowel.glide_marks : vowel.marks)
    for (const auto& [sign, word] : words)
      if (mark == sign) out += ", " + std::string(word);
  return out;
}

std::optional<LexicalSet> set_under(const Accent& accent, LexicalSet moved, const Sound& vowel, double reach) {
  const auto apart = [](const Sound& a, const Sound& b, bool end) {
    const auto p = vowel_place(a, end), q = vowel_place(b, end);
    if (!p || !q || lips_of(*p) != lips_of(*q)) return 1e300;
    return std::hypot(p->x - q->x, p->y - q->y);
  };
  std::optional<LexicalSet> best;
  for (int i = 0; i < lexical_set_count; ++i) {
    const auto set = static_cast<LexicalSet>(i);
    const Sound& other = accent.of(set).vowel;
    if (set == moved || is_glide(other) != is_glide(vowel)) continue;
    double distance = apart(vowel, other, false);
    if (is_glide(vowel)) distance = std::max(distance, apart(vowel, other, true));
    if (distance <= reach) reach = distance, best = set;
  }
  return best;
}

bool shows(ChartFilter filter, const Accent& accent, LexicalSet set, const std::vector<LexicalSet>& in_phrase) {
  const Sound& vowel = accent.of(set).vowel;
  const bool glide = is_glide(vowel), held = std::find(vowel.marks.begin(), vowel.marks.end(), "\u02D0") != vowel.marks.end();
  switch (filter) {
    case ChartFilter::short_vowels: return !glide && !held;
    case ChartFilter::long_vowels: return !glide && held;
    case ChartFilter::glides: return glide;
    case ChartFilter::in_phrase: return std::find(in_phrase.begin(), in_phrase.end(), set) != in_phrase.end();
    case ChartFilter::all: break;
  }
  return true;
}

} // namespace mw
