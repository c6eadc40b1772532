#include "score/compose.h"

#include "base/assets.h"
#include "base/text.h"
#include "ipa/inventory.h"

#include <algorithm>

namespace mw {
namespace {
constexpr std::array tongue_values{
    &Pose::jaw_opening, &Pose::jaw_forward, &Pose::body_x, &Pose::body_y, &Pose::root,    &Pose::tip_x,
    &Pose::tip_y,       &Pose::tip_curl,    &Pose::blade,  &Pose::sides,  &Pose::larynx,  &Pose::epiglottis,
    &Pose::velum,       &Pose::glottis,     &Pose::groove,
};
constexpr std::array lip_values{&Pose::lip_opening, &Pose::lip_protrusion, &Pose::lip_rounding, &Pose::lip_tuck};

Problem broken(const std::string& what) {
  return {ProblemKind::missing, what, "speakers/mixes.csv", "install the program again"};
}

const Result<CsvTable>& mixes() {
  static const auto table = read_csv_asset("speakers/mixes.csv");
  return table;
}

/// A vowel between others: tongue and jaw from two rows, lips from two rows.
Result<std::optional<Target>> mixed_vowel(const TargetTable& table, const std::string& letter) {
  if (!mixes()) return mixes().error();
  if (mixes()->columns.size() != 8) return broken("the table of mixed vowels needs eight columns");
  for (const auto& row : mixes()->rows) {
    if (to_nfd(row[0]) != letter) continue;
    const Target* source[4] = {table.vowel(to_nfd(row[1])), table.vowel(to_nfd(row[2])), table.vowel(to_nfd(row[4])),
                               table.vowel(to_nfd(row[5]))};
    const auto tongue = parse_number(row[3]), lips = parse_number(row[6]);
    if (!tongue || !lips || std::ranges::count(source, nullptr) > 0) return broken("a mixed vowel is broken: " + row[0]);
    Target t = *source[0];
    t.symbol = t.place = letter;
    const Pose below = mix(source[0]->pose, source[1]->pose, *tongue), front = mix(source[2]->pose, source[3]->pose, *lips);
    for (const auto value : lip_values) t.pose.*value = front.*value;
    for (const auto value : tongue_values) t.pose.*value = below.*value;
    return std::optional(t);
  }
  return std::optional<Target>();
}

/// The closure with which an affricate begins: at the place of its friction where the tables have one there.
const Target* closure_of(const TargetTable& table, const std::string& stop, const Target& friction) {
  const Target* own = table.consonant(stop);
  if (own == nullptr || own->manner != "stop") return nullptr;
  if (friction.place == "interdental")
    if (const Target* dental = table.consonant(to_nfd(stop + "\u032A"))) return dental;
  if (friction.place == "alveolo-palatal")
    if (const Target* behind = table.consonant(own->voiced ? "dʒ" : "tʃ")) return behind;
  return own;
}

/// Stop and fricative in one: the closure row, body, lips and jaw already those of the friction.
std::optional<Target> affricate(const TargetTable& table, const std::string& stop, const std::string& fricative) {
  const Target* friction = table.consonant(fricative);
  if (friction == nullptr || friction->manner.find("fricative") == std::string::npos) return {};
  const Target* closure = closure_of(table, stop, *friction);
  if (closure == nullptr) return {};
  Target t = *closure;
  t.symbol = stop + fricative;
  t.place = closure->primary == Primary::tip ? friction->place : closure->place;
  t.manner = "affricate";
  t.second_phase = fricative;
  t.effective_from = 0.02; // as the affricate rows: the whole of the closure half
  t.effective_to = 0.98;
  if (closure->primary != Primary::tip || friction->primary != Primary::tip) return t;
  t.pose.body_x = friction->pose.body_x;
  t.pose.body_y = friction->pose.body_y;
  t.pose.jaw_opening = friction->pose.jaw_opening;
  for (const auto value : lip_values) t.pose.*value = friction->pose.*value;
  t.body_x_weight = friction->body_x_weight;
  t.body_y_weight = friction->body_y_weight;
  t.jaw_weight = friction->jaw_weight;
  t.lips_weight = friction->lips_weight;
  return t;
}

/// Two closures at once: the body's row with the lips of the other.
std::optional<Target> double_closure(const TargetTable& table, const std::string& back, const std::string& front) {
  const Target *body = table.consonant(back), *lips = table.consonant(front);
  if (body == nullptr || lips == nullptr || body->primary != Primary::body || lips->primary != Primary::lips) return {};
  if (lips->place != "bilabial" || (lips->manner != "stop" && lips->manner != "nasal")) return {};
  Target t = *body;
  t.symbol = back + front;
  t.place = "labial-velar";
  for (const auto value : lip_values) t.pose.*value = lips->pose.*value;
  t.pose.jaw_opening = std::min(body->pose.jaw_opening, lips->pose.jaw_opening);
  t.lips_weight = lips->lips_weight;
  return t;
}

/// A click whose back closure is voiced or nasal.
std::optional<Target> backed_click(const TargetTable& table, const std::string& back, const std::string& click) {
  const Target *front = table.consonant(click), *behind = table.consonant(back);
  if (front == nullptr || behind == nullptr || front->manner != "click" || behind->place != "velar") return {};
  Target t = *front;
  t.symbol = back + click;
  t.voiced = behind->voiced;
  t.pose.glottis = behind->pose.glottis;
  t.pose.velum = behind->pose.velum;
  if (behind->pose.velum > 0.5) { // the soft palate hangs lower: the closure of the velar nasal
    t.pose.body_x = behind->pose.body_x;
    t.pose.body_y = behind->pose.body_y;
  }
  return t;
}

int openness(std::string_view letter) {
  constexpr std::array<std::string_view, 7> heights{"close", "near-close", "close-mid", "mid", "open-mid", "near-open", "open"};
  const Letter* row = find_letter(letter);
  if (row == nullptr) return -1;
  const auto at = std::ranges::find(heights, row->height);
  return at == heights.end() ? -1 : static_cast<int>(at - heights.begin());
}
} // namespace

Pose mix(const Pose& a, const Pose& b, double share) {
  Pose out;
  for (const auto* values : {&tongue_values}) for (const auto value : *values) out.*value = (1 - share) * a.*value + share * b.*value;
  for (const auto value : lip_values) out.*value = (1 - share) * a.*value + share * b.*value;
  return out;
}

Result<std::optional<Target>> composed_row(const Anatomy&, const TargetTable& table, const std::string& letter) {
  auto vowel = mixed_vowel(table, letter);
  if (!vowel || vowel->has_value()) return vowel;
  // every way to cut the letter in two; the first that makes sense
  for (std::size_t cut = 1; cut < letter.size(); ++cut) {
    if ((static_cast<unsigned char>(letter[cut]) & 0xC0) == 0x80) continue; // inside a UTF-8 sign
    const std::string first = letter.substr(0, cut), second = letter.substr(cut);
    for (const auto make : {affricate, double_closure, backed_click})
      if (auto row = make(table, first, second)) return row;
  }
  return std::optional<Target>();
}

bool is_closing(std::string_view start_letter, std::string_view end_letter) {
  if (start_letter == "ɚ" || start_letter == "ɝ") return false; // bunched: the body is as high as in i already
  const int from = openness(start_letter), to = openness(end_letter);
  return from >= 0 && to >= 0 && to <= 2 && to < from;
}

Target draw_on(const Anatomy& anatomy, const TargetTable& table, const Target& start, Target end) {
  // at least 1 mm higher and 0.6 mm more closed as drawn; the disc top runs up to 1.3 mm off the drawn top between two
  // vowels (tract-model.md section 3, body_y), hence the margin on the disc
  const double rise = 1.5 * anatomy.tongue_scale, close = 0.6;
  const auto top = [&](const Pose& p) { return p.body_y + body_radius(anatomy, {p.body_x, p.body_y}); };
  const auto closes = [&](const Pose& p) {
    return top(p) >= top(start.pose) + rise && p.jaw_opening <= start.pose.jaw_opening - close;
  };
  const Target *i = table.vowel("i"), *u = table.vowel("u");
  if (i == nullptr || u == nullptr) return end;
  const Target* goal = end.pose.body_x < anatomy.body_neutral.x ? i : u;
  const Pose own = end.pose;
  for (int step = 0; step <= 20 && !closes(end.pose); ++step) // twentieths of the way
    end.pose = mix(own, goal->pose, step / 20.0);
  // a back vowel lower than a raised front start: the tongue comes forward to rise, the lips stay
  const Pose back = end.pose;
  for (int step = 1; step <= 20 && !closes(end.pose); ++step) {
    end.pose = mix(back, i->pose, step / 20.0);
    for (const auto value : lip_values) end.pose.*value = back.*value;
  }
  return end;
}

} // namespace mw
