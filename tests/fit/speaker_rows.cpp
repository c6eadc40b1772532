// mouthwright_speaker_rows ID FOLDER: writes the target tables of a smaller speaker from the adult male's.
// Consonants: the same constriction at the same place (score/transfer.h), narrow ones drawn as narrow as the man's.
// Vowels: the same vowel in a smaller tract. Listeners take two voices for the same vowel when the whole pattern of
// formants is shifted by one factor (Turner et al. 2009), and a tract of the same form but shorter shifts it by the ratio of
// the lengths; so body, root and opening are searched near the transferred posture until the man's formants times that one
// ratio come out. One rule for all vowels; no measured formants of women or children are read.
#include "acoustics/formants.h"
#include "anatomy/places.h"
#include "base/assets.h"
#include "base/text.h"
#include "fit/search.h"
#include "score/relocate.h"
#include "score/transfer.h"
#include "support/targets.h"
#include "tract/measure.h"

#include <cstdio>
#include <numbers>
#include <set>

using namespace mw;

namespace {
struct Head {
  std::shared_ptr<const Anatomy> anatomy;
  Tracer tracer;
  AreaMeter meter;
  explicit Head(const std::string& id) : anatomy(read_anatomy(id).value()), tracer(anatomy), meter(anatomy) {}
};

struct Sounding {
  std::vector<double> formants;
  double length = 0, area_error = 0, turn = 0, gap = 0;
  double narrowest = 0; // cm2, of the whole tube
  double leaf = 0;      // mm between epiglottis and throat wall
  bool strained = false;
};

double sharpest_turn(const Outline& outline) {
  const Polyline line = resample(outline.dorsum, 1.0);
  double most = 0;
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i] - line[i - 1], b = line[i + 1] - line[i];
    most = std::max(most, std::abs(std::atan2(cross(a, b), glm::dot(a, b))) * 180 / std::numbers::pi);
  }
  return most;
}

Sounding sound(Head& head, const Pose& pose) {
  const Outline& outline = head.tracer.trace(pose);
  const AreaFunction& tube = head.meter.measure(outline, pose);
  const double narrowest = std::ranges::min_element(tube.sections, {}, &TubeSection::area_cm2)->area_cm2;
  double leaf = 1e9;
  for (const Vec2 p : outline.epiglottis_cap) leaf = std::min(leaf, nearest_on(outline.back_wall, p).distance);
  return {formants_hz(tube), tube.tract_length_mm, outline.area_error, sharpest_turn(outline),
          tongue_gap(*head.anatomy, outline).gap_mm, narrowest, leaf, outline.strained};
}

double rest_length(Head& head) { return sound(head, head.anatomy->rest).length; }

// The first formant is lifted by the yielding wall (203 Hz in quadrature, the same for every size of tract).
double scaled_first(double hz, double ratio) {
  return std::sqrt(std::max(hz * hz - 203.0 * 203.0, 1.0) * ratio * ratio + 203.0 * 203.0);
}
std::vector<double> wanted_formants(const std::vector<double>& male, double ratio) {
  return {scaled_first(male[0], ratio), male[1] * ratio, male[2] * ratio};
}

struct Search {
  Head& head;
  Pose base;
  std::vector<double> wanted;
  double narrowest = 0; // cm2: the man's, in proportion; a vowel of half that would be another sound
  double gap = 0;       // mm, of the tongue: the man's in proportion, but no narrower than his closest vowels
  double third_weight = 0.4;
  [[nodiscard]] Pose at(const std::vector<double>& x) const {
    Pose p = base;
    const auto round = [](double v) { return std::round(v * 100) / 100; };
    p.body_x = round(x[0]), p.body_y = round(x[1]), p.root = round(std::clamp(x[2], -4.0, 6.0));
    const double wider = std::clamp(x[3], 0.8, 1.3); // mouth and jaw, together
    const double jaw = round(base.jaw_opening * wider);
    const Vec2 tip = jaw_transform(*head.anatomy, base.jaw_opening).to_jaw({base.tip_x, base.tip_y});
    const Vec2 carried = jaw_transform(*head.anatomy, jaw).to_skull(tip); // the tip rides on the jaw
    p.jaw_opening = jaw, p.lip_opening = round(base.lip_opening * wider);
    p.tip_x = round(carried.x), p.tip_y = round(carried.y);
    return p;
  }
  [[nodiscard]] double disc_top(const Pose& p) const {
    return p.body_y + body_radius(*head.anatomy, {p.body_x, p.body_y});
  }
  [[nodiscard]] double cost(const std::vector<double>& x) const {
    const Pose p = at(x);
    const Sounding s = sound(head, p);
    if (s.formants.size() < 3) return 1e6;
    const auto off = [&](std::size_t n) { return std::log(s.formants[n] / wanted[n]) / 0.01; };
    const double k = head.anatomy->tongue_scale;
    const double far = std::hypot(p.body_x - base.body_x, p.body_y - base.body_y) / k, lean = (p.root - base.root) / k;
    double sum = off(0) * off(0) + off(1) * off(1) + third_weight * off(2) * off(2);
    sum += 0.6 * far * far + 0.6 * lean * lean + 3 * std::pow((x[3] - 1) / 0.1, 2);
    sum += 20 * std::pow(std::max(0.0, lean - 2), 2); // a root drawn back on purpose is the mark of other sounds
    sum += 60 * std::pow(std::max(0.0, std::log2(0.6 * narrowest / s.narrowest)), 2);
    sum += 40 * std::pow(std::max(0.0, std::abs(s.area_error) * 100 - 2), 2);
    sum += 20 * std::pow(std::max(0.0, s.turn - 18 / k), 2);
    sum += 60 * std::pow(std::max(0.0, 1.0 - s.leaf), 2); // a leaf on the wall would be an epiglottal sound
    sum += 20 * std::pow(std::log2(std::max(s.gap, 0.1) / gap), 2);
    // a close vowel stays high, or a glide that ends in it would not close
    if (gap < 2) sum += 8 * std::pow(std::max(0.0, disc_top(base) - disc_top(p)) / k, 2);
    sum += 60 * std::pow(std::max(0.0, 1.1 - s.gap), 2) + (s.strained ? 500 : 0);
    sum += 60 * std::pow(std::max(0.0, p.body_y / k - 0.5), 2); // as far up as the model's range goes
    sum += 60 * std::pow(std::max(0.0, 28 * head.anatomy->jaw_x - 1 - p.body_x), 2);
    if (p.velum == 0) { // a lowered soft palate must find room, too
      Pose nasal = p;
      nasal.velum = 0.6;
      const double wide = std::min(disc_opening(*head.anatomy, p, Disc::body), 3.0); // as the mark does it
      if (disc_opening(*head.anatomy, nasal, Disc::body) < wide) open_to(*head.anatomy, nasal, Disc::body, wide);
      sum += 400 * std::pow(std::max(0.0, 0.6 - tongue_gap(*head.anatomy, head.tracer.trace(nasal)).gap_mm), 2);
    }
    return sum;
  }
};

Pose fitted_vowel(Head& male, Head& own, const Pose& pose, const std::string& symbol, double ratio) {
  const Sounding his = sound(male, pose);
  Search search{own, transfer(pose, *male.anatomy, *own.anatomy), wanted_formants(his.formants, ratio),
                his.narrowest / (ratio * ratio), std::max(his.gap * own.anatomy->tongue_scale, std::min(his.gap, 1.1))};
  if (symbol == "ɝ" || symbol == "ɚ") search.third_weight = 1; // the third formant is what makes an r
  const auto cost = [&](const std::vector<double>& x) { return search.cost(x); };
  std::vector<double> x{search.base.body_x, search.base.body_y, search.base.root, 1};
  for (const double step : {2.0, -1.5, -1.0, 0.5}) x = fit::least(cost, x, {step, step, step, 0.04 * step}, 250);
  return search.at(x);
}

// Where along the walls the drawn tongue is narrowest, on the scale all speakers share.
double drawn_place(Head& head, const Pose& pose) {
  const Narrowest gap = tongue_gap(*head.anatomy, head.tracer.trace(pose));
  return normalised_place(wall_table(*head.anatomy, pose.velum), gap.u_mm);
}

// Friction and approximation: the man's drawn opening at the man's place, in small steps along the wall and its normal.
void correct_opening(Head& own, Pose& pose, const std::string& place, double opening, double at) {
  static const std::set<std::string> tips{"interdental", "dental", "alveolar", "postalveolar", "retroflex"};
  const bool tip = tips.contains(place);
  const WallTable& wall = wall_table(*own.anatomy, pose.velum);
  const int steps = place == "pharyngeal" || place == "epiglottal" ? 3 : 10;
  for (int step = 0; step < steps; ++step) {
    const double lack = opening - tongue_gap(*own.anatomy, own.tracer.trace(pose)).gap_mm;
    if (place == "pharyngeal") {
      pose.root = std::clamp(pose.root - 1.5 * lack, -4.0, 6.0);
      pose.body_x -= 0.5 * lack;
    } else if (place == "epiglottal") {
      pose.root -= lack;
    } else {
      double &x = tip ? pose.tip_x : pose.body_x, &y = tip ? pose.tip_y : pose.body_y;
      const Vec2 away = glm::normalize(Vec2(x, y) - nearest_on(own.tracer.trace(pose).upper_wall, {x, y}).foot);
      x += 0.8 * away.x * lack;
      y += 0.8 * away.y * lack;
      // another palate may bring the narrowest point to another place: slide it back
      const double here = place_of_normalised(wall, drawn_place(own, pose)), there = place_of_normalised(wall, at);
      if (place_name(*own.anatomy, wall, here) == place_name(*own.anatomy, wall, there)) continue;
      const Vec2 slide = wall_point(wall, there) - wall_point(wall, here);
      x += 0.3 * slide.x;
      y += 0.3 * slide.y;
      if (place != "alveolo-palatal") continue;
      pose.tip_x += 0.3 * slide.x; // the blade between tip and body makes this one
      pose.tip_y += 0.3 * slide.y;
    }
  }
}

bool opening_matters(const test::Row& row) {
  static const std::set<std::string> manners{"fricative", "approximant", "lateral fricative", "trill"};
  const std::string& place = row.at("place");
  return manners.contains(row.at("manner")) && place != "bilabial" && place != "labiodental" && place != "glottal";
}

constexpr const char* vowel_columns[] = {"jaw_open", "body_x", "body_y", "root", "tip_x", "tip_y", "tip_curl", "blade",
                                         "lip_aperture", "lip_protrusion", "lip_round", "sides", "larynx"};
constexpr const char* consonant_columns[] = {"jaw_open", "lip_aperture", "lip_protrusion", "lip_round", "lip_tuck",
                                             "tip_x", "tip_y", "tip_curl", "blade", "body_x", "body_y", "root",
                                             "sides", "velum", "larynx", "glottis", "epiglottis"};
double& value_of(Pose& pose, const std::string& column) {
  for (const auto& c : test::pose_columns)
    if (column == c.name) return pose.*c.value;
  MW_EXPECT(false);
  return pose.root;
}
std::string cell(double v, int digits = 2) { return "," + to_text(v, digits); }
template <typename Columns> std::string pose_cells(Pose pose, const Columns& columns) {
  std::string out;
  for (const char* column : columns) out += cell(value_of(pose, column));
  return out;
}
template <typename Columns> void round_pose(Pose& pose, const Columns& columns) {
  for (const char* column : columns) value_of(pose, column) = std::round(value_of(pose, column) * 100) / 100;
}
template <typename Columns> std::string header(const std::string& first, const Columns& columns, const std::string& last) {
  std::string out = first;
  for (const char* column : columns) out += std::string(",") + column;
  return out + last + "\n";
}
std::string sounding_cells(const Sounding& s) {
  return cell(s.formants[0], 0) + cell(s.formants[1], 0) + cell(s.formants[2], 0);
}

std::string consonants(Head& male, Head& own, const std::string& id) {
  std::string out = header("symbol", consonant_columns, ",gap_mm,contact_mm,gap_where,area_dev_pct");
  std::set<std::string> listed;
  for (const test::Row& row : test::asset_table("speakers/" + id + "/consonants.csv")) listed.insert(row.at("symbol"));
  for (const test::Target& target : test::targets(male.anatomy, "consonants")) {
    if (!listed.contains(target.symbol)) continue;
    Pose pose = transfer(target.pose, *male.anatomy, *own.anatomy);
    if (opening_matters(target.row)) {
      const double wanted = tongue_gap(*male.anatomy, male.tracer.trace(target.pose)).gap_mm;
      correct_opening(own, pose, target.row.at("place"), wanted, drawn_place(male, target.pose));
    }
    round_pose(pose, consonant_columns);
    const Outline& outline = own.tracer.trace(pose);
    const Narrowest gap = tongue_gap(*own.anatomy, outline);
    const auto touching = contacts(*own.anatomy, outline);
    std::string where = target.row.at("gap_where"), contact;
    std::string opening = where == "glottis" ? "" : to_text(gap.gap_mm, 2);
    if (where == "lips") opening = to_text(lip_gap(outline), 2);
    if (where.starts_with("x=")) {
      where = "x=" + to_text(gap.at.x, 0) + " y=" + to_text(gap.at.y, 0);
      contact = to_text(touching.empty() ? 0.0 : touching.front().length_mm, 2);
    }
    out += target.symbol + pose_cells(pose, consonant_columns) + "," + opening + "," + contact + "," + where +
           cell(100 * outline.area_error, 1) + "\n";
  }
  return out;
}

std::map<std::string, Pose> vowels(Head& male, Head& own, double ratio, std::string& out) {
  std::map<std::string, Pose> rows;
  out = header("symbol", vowel_columns, ",F1,F2,F3,tract_mm,area_dev_pct");
  for (const test::Target& target : test::targets(male.anatomy, "vowels")) {
    Pose pose = fitted_vowel(male, own, target.pose, target.symbol, ratio);
    round_pose(pose, vowel_columns);
    const Sounding s = sound(own, pose);
    const auto his = wanted_formants(sound(male, target.pose).formants, ratio);
    out += target.symbol + pose_cells(pose, vowel_columns) + sounding_cells(s) + cell(s.length, 1) +
           cell(100 * s.area_error, 1) + "\n";
    std::fprintf(stderr, "%-4s %+5.1f %+5.1f %+5.1f %%  body moved %+.1f %+.1f root %+.1f turn %.1f gap %.1f of %.1f\n",
                 target.symbol.c_str(), 100 * (s.formants[0] / his[0] - 1), 100 * (s.formants[1] / his[1] - 1),
                 100 * (s.formants[2] / his[2] - 1), pose.body_x - transfer(target.pose, *male.anatomy, *own.anatomy).body_x,
                 pose.body_y - transfer(target.pose, *male.anatomy, *own.anatomy).body_y,
                 pose.root - transfer(target.pose, *male.anatomy, *own.anatomy).root, s.turn, s.gap, sound(male, target.pose).gap);
    rows[target.symbol] = pose;
  }
  return rows;
}

// A glide's end: the speaker's own row, or the mix of two that the man's table names ("own: 0.45 e + 0.55 i").
Pose glide_end(const std::map<std::string, Pose>& rows, const std::string& from) {
  if (!from.starts_with("own:")) return rows.at(from);
  const auto words = split(from, ' ');
  const double share = parse_number(words[4]).value();
  Pose a = rows.at(words[2]), b = rows.at(words[5]), out = a;
  for (const char* column : vowel_columns)
    value_of(out, column) = value_of(a, column) + share * (value_of(b, column) - value_of(a, column));
  return out;
}

std::string glides(Head& male, Head& own, const std::map<std::string, Pose>& rows) {
  std::string out = header("symbol,closing,half,from", vowel_columns, ",F1,F2,F3,tongue_top_mm");
  for (const test::Target& target : test::targets(male.anatomy, "glides")) {
    Pose pose = glide_end(rows, target.row.at("from"));
    round_pose(pose, vowel_columns);
    const Sounding s = sound(own, pose);
    double top = -1e9;
    for (const Vec2 p : own.tracer.trace(pose).dorsum) top = std::max(top, p.y);
    out += target.row.at("symbol") + "," + target.row.at("closing") + "," + target.row.at("half") + "," +
           target.row.at("from") + pose_cells(pose, vowel_columns) + sounding_cells(s) + cell(top, 1) + "\n";
  }
  return out;
}
} // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::fprintf(stderr, "mouthwright_speaker_rows ID FOLDER\n");
    return 2;
  }
  const std::string id = words[1], folder = std::string(words[2]) + "/";
  Head male("adult-male"), own(id);
  const double ratio = rest_length(male) / rest_length(own);
  std::fprintf(stderr, "%s: tract %.1f mm, formants of the man times %.3f\n", id.c_str(), rest_length(own), ratio);
  std::string table;
  const auto rows = vowels(male, own, ratio, table);
  const auto store = [&](const char* name, const std::string& text) {
    return static_cast<bool>(write_file(folder + name, text, true));
  };
  const bool kept = store("vowels.csv", table) && store("glides.csv", glides(male, own, rows)) &&
                    store("consonants.csv", consonants(male, own, id));
  return kept ? 0 : 1;
}
