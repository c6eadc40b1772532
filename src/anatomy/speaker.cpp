#include "anatomy/anatomy.h"

#include "anatomy/velum.h"
#include "base/assets.h"
#include "base/text.h"

#include <algorithm>
#include <mutex>

namespace mw {
namespace {
constexpr std::array<std::string_view, 3> ids{"adult-male", "adult-female", "child"};

Problem broken(const std::string& file, const std::string& what) {
  return {ProblemKind::missing, what, file, "install the program again"};
}

struct Scalar {
  std::string_view key;
  double Anatomy::*value;
};
constexpr std::array scalars{
    Scalar{"tongue_scale", &Anatomy::tongue_scale},     Scalar{"jaw_x", &Anatomy::jaw_x},
    Scalar{"jaw_y", &Anatomy::jaw_y},                   Scalar{"width", &Anatomy::width},
    Scalar{"lip_scale", &Anatomy::lip_scale},           Scalar{"larynx_scale", &Anatomy::larynx_scale},
    Scalar{"palate_step", &Anatomy::palate_step},       Scalar{"tip_radius", &Anatomy::tip_radius},
    Scalar{"body_radius", &Anatomy::body_radius},       Scalar{"root_radius", &Anatomy::root_radius},
    Scalar{"base_radius", &Anatomy::base_radius},       Scalar{"jaw_length", &Anatomy::jaw_length},
    Scalar{"glottis_y", &Anatomy::glottis_y},           Scalar{"epiglottis_tip_y", &Anatomy::epiglottis_tip_y},
    Scalar{"epiglottis_x_min", &Anatomy::epiglottis_x_min}, Scalar{"epiglottis_x_max", &Anatomy::epiglottis_x_max},
    Scalar{"tuck_reach", &Anatomy::tuck_reach},         Scalar{"rest_area_fine", &Anatomy::rest_area_fine},
    Scalar{"rest_area_coarse", &Anatomy::rest_area_coarse},
};
struct RestValue {
  std::string_view key;
  double Pose::*value;
};
constexpr std::array rest_values{
    RestValue{"rest_jaw_opening", &Pose::jaw_opening}, RestValue{"rest_lip_opening", &Pose::lip_opening},
    RestValue{"rest_body_x", &Pose::body_x},           RestValue{"rest_body_y", &Pose::body_y},
    RestValue{"rest_tip_x", &Pose::tip_x},             RestValue{"rest_tip_y", &Pose::tip_y},
};

struct SinglePoint {
  std::string_view piece;
  Vec2 Anatomy::*value;
};
constexpr std::array single_points{
    SinglePoint{"velum_start", &Anatomy::velum_start},       SinglePoint{"condyle", &Anatomy::condyle},
    SinglePoint{"tongue_base", &Anatomy::tongue_base},       SinglePoint{"hyoid_rest", &Anatomy::hyoid_rest},
    SinglePoint{"body_neutral", &Anatomy::body_neutral},     SinglePoint{"grid_centre", &Anatomy::grid_centre},
    SinglePoint{"epiglottis_base", &Anatomy::epiglottis_base},
};

Result<Done> read_scalars(Anatomy& anatomy, const std::string& file) {
  const auto table = read_csv_asset(file);
  if (!table) return table.error();
  if (table->columns.size() != 2) return broken(file, "the speaker's figures need the columns key, value");
  std::map<std::string, std::string> values;
  for (const auto& row : table->rows) values[row[0]] = row[1];
  anatomy.name = values["name"];
  std::string missing;
  const auto take = [&](const std::string& key, double& value) {
    const auto number = parse_number(values[key]);
    if (number) value = *number;
    else missing += (missing.empty() ? "" : ", ") + key;
  };
  for (const auto& scalar : scalars) take(std::string(scalar.key), anatomy.*scalar.value);
  for (const auto& rest : rest_values) take(std::string(rest.key), anatomy.rest.*rest.value);
  for (std::size_t i = 0; i < 4; ++i) take("path_share_" + std::to_string(i + 1), anatomy.path_shares[i]);
  for (std::size_t i = 0; i < 7; ++i) take("velum_length_" + std::to_string(i + 1), anatomy.velum_lengths[i]);
  for (std::size_t i = 0; i < 8; ++i) {
    take("velum_closed_radius_" + std::to_string(i), anatomy.velum_closed_radius[i]);
    take("velum_open_radius_" + std::to_string(i), anatomy.velum_open_radius[i]);
  }
  if (!missing.empty()) return broken(file, "these figures of the speaker are missing or no numbers: " + missing);
  return Done{};
}

Result<Done> read_geometry(Anatomy& anatomy, const std::string& file) {
  const auto table = read_csv_asset(file);
  if (!table) return table.error();
  if (table->columns != std::vector<std::string>{"name", "frame", "closed", "index", "x_mm", "y_mm"})
    return broken(file, "the geometry needs the columns name, frame, closed, index, x_mm, y_mm");
  std::map<std::string, Polyline> points;
  for (const auto& row : table->rows) {
    const auto x = parse_number(row[4]), y = parse_number(row[5]);
    if (!x || !y) return broken(file, "a coordinate is no number in piece " + row[0]);
    auto& frame = row[1] == "skull" ? anatomy.skull : row[1] == "jaw" ? anatomy.jaw
                : row[1] == "larynx" ? anatomy.larynx : points;
    frame[row[0]].emplace_back(*x, *y);
  }
  const auto find = [&](std::string_view name) -> const Polyline* {
    for (const auto* frame : {&points, &anatomy.skull, &anatomy.jaw, &anatomy.larynx})
      if (const auto at = frame->find(std::string(name)); at != frame->end()) return &at->second;
    return nullptr;
  };
  for (const char* name : {"palate", "back_wall", "upper_incisor_edge_labial", "lower_incisor", "mouth_floor", "genial",
                           "nose_profile", "chin_skin", "mandible", "upper_incisor_tooth", "lower_incisor_tooth",
                           "thyroid_cartilage", "larynx_front_wall", "larynx_back_wall"})
    if (find(name) == nullptr) return broken(file, std::string("a piece of the speaker is missing: ") + name);
  for (const auto& single : single_points) {
    const auto* at = find(single.piece);
    if (at == nullptr) return broken(file, "a point of the speaker is missing: " + std::string(single.piece));
    anatomy.*single.value = at->front();
    for (auto* frame : {&anatomy.skull, &anatomy.larynx}) frame->erase(std::string(single.piece));
  }
  anatomy.genial = anatomy.jaw.at("genial").front();
  return Done{};
}

Result<Done> read_lips(Anatomy& anatomy, const std::string& file) {
  const auto table = read_csv_asset(file);
  if (!table) return table.error();
  if (table->columns.size() != 11) return broken(file, "the lips need eleven columns");
  for (const auto& row : table->rows) {
    std::array<double, 9> v{};
    for (std::size_t i = 0; i < v.size(); ++i) {
      const auto number = parse_number(row[i + 2]);
      if (!number) return broken(file, "a value of the lips is no number: " + row[i + 2]);
      v[i] = *number;
    }
    auto& lip = row[0] == "upper" ? anatomy.upper_lip : anatomy.lower_lip;
    lip.push_back({{v[0], v[1]}, v[2], v[3], {v[4], v[5]}, {v[6], v[7]}, v[8]});
  }
  if (anatomy.upper_lip.size() != 13 || anatomy.lower_lip.size() != 13)
    return broken(file, "each lip needs thirteen control points");
  return Done{};
}

Result<std::shared_ptr<const Anatomy>> read_speaker(const std::string& id) {
  auto anatomy = std::make_shared<Anatomy>();
  anatomy->id = id;
  const std::string folder = "speakers/" + id + "/";
  if (const auto done = read_scalars(*anatomy, folder + "speaker.csv"); !done) return done.error();
  if (const auto done = read_geometry(*anatomy, folder + "geometry.csv"); !done) return done.error();
  if (const auto done = read_lips(*anatomy, folder + "lips.csv"); !done) return done.error();
  // the walls are met at every trace: sampled once, 1 mm on the palate and 1.5 mm in the throat of the adult male
  anatomy->palate = resample(spline_through(anatomy->skull.at("palate"), 200), 1.0 * anatomy->palate_step);
  anatomy->back_wall = resample(spline_through(anatomy->skull.at("back_wall"), 300), 1.5 * anatomy->palate_step);
  anatomy->upper_incisor = anatomy->skull.at("upper_incisor_edge_labial");
  anatomy->velum_weights = velum_spline_weights(anatomy->velum_lengths);
  return std::shared_ptr<const Anatomy>(std::move(anatomy));
}
} // namespace

std::vector<std::string> anatomy_ids() { return {ids.begin(), ids.end()}; }

Result<std::shared_ptr<const Anatomy>> read_anatomy(const std::string& id) {
  static std::mutex guard;
  static std::map<std::string, std::shared_ptr<const Anatomy>> known;
  if (std::find(ids.begin(), ids.end(), id) == ids.end())
    return Problem{ProblemKind::usage, "unknown anatomy", id, "choose one of " + join(anatomy_ids(), ", ")};
  const std::lock_guard lock(guard);
  if (const auto at = known.find(id); at != known.end()) return at->second;
  auto anatomy = read_speaker(id);
  if (anatomy) known[id] = *anatomy; // a failure is not kept: the next call may find the files
  return anatomy;
}

} // namespace mw
