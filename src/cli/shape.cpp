#include "cli/commands.h"
#include "acoustics/formants.h"
#include "base/text.h"
#include "cli/json.h"
#include "cli/run.h"
#include "ipa/inventory.h"
#include "publish/picture.h"
#include "scene/frame.h"
#include "scene/theme.h"
#include "tract/measure.h"
#include "tract/sides.h"

namespace mw::cli {
namespace {
struct Shape {
  Sound sound;
  Target target;
  Pose pose;
  std::shared_ptr<const Anatomy> anatomy;
  Outline outline;
};

Result<Shape> make_shape(const Options& options) {
  const auto sound = parse_sound(options.arguments.front(), options.notation);
  if (!sound) return sound.error();
  const auto anatomy = read_anatomy(options.anatomy);
  if (!anatomy) return anatomy.error();
  const auto targets = read_targets(**anatomy);
  if (!targets) return targets.error();
  const auto target = target_of(**anatomy, **targets, *sound, options.at_end);
  if (!target) return target.error();
  const auto pose = pose_of(**anatomy, **targets, *sound, options.at_end);
  if (!pose) return pose.error();
  return Shape{*sound, *target, *pose, *anatomy, trace(*anatomy, *pose)};
}

// formants where the tube is open and unbranched: vowels and approximants
bool has_formants(const Shape& s) { return s.target.vowel || s.target.manner == "approximant"; }

Json outline_json(const Outline& o) {
  Json larynx = points_json(o.larynx_front);
  for (auto it = o.larynx_back.rbegin(); it != o.larynx_back.rend(); ++it)
    larynx.push_back(Json::array({number(it->x, 3), number(it->y, 3)}));
  return {{"tongue", points_json(o.tongue)}, {"upper_lip", points_json(o.upper_lip)}, {"lower_lip", points_json(o.lower_lip)},
          {"palate", points_json(o.palate)}, {"velum", points_json(o.velum)}, {"back_wall", points_json(o.back_wall)},
          {"upper_incisor", points_json(o.upper_incisor)}, {"lower_incisor", points_json(o.lower_incisor)},
          {"jaw", points_json(o.jaw)}, {"epiglottis", points_json(o.epiglottis)}, {"larynx", larynx},
          {"face", points_json(o.face)}};
}

Json contact_json(const Shape& s) {
  Json midsagittal = Json::array(), sides = Json::array();
  for (const auto& c : contacts(*s.anatomy, s.outline))
    midsagittal.push_back(Json{{"articulator", to_text(c.articulator)}, {"place", c.place}, {"length_mm", number(c.length_mm, 2)}});
  const PalateMap map = palate_map(*s.anatomy, s.outline, s.pose);
  for (std::size_t i = 0; i < map.grid.size(); ++i)
    if (map.contact[i]) sides.push_back(Json::array({number(map.grid[i].x, 2), number(map.grid[i].y, 2)}));
  return {{"midsagittal", midsagittal}, {"sides", sides}};
}

// the parts of the mouth that the sound uses, in a student's words
std::vector<std::string> parts_of(const Shape& s) {
  std::vector<std::string> parts;
  const auto add = [&](Articulator a) { parts.emplace_back(learner_name(a)); };
  if (s.target.vowel) {
    add(Articulator::body);
    add(Articulator::jaw);
    add(Articulator::lips);
  }
  if (s.target.primary == Primary::lips || s.pose.lip_rounding > 0.4) add(Articulator::lips);
  if (s.target.primary == Primary::tip) add(Articulator::tip);
  if (s.target.primary == Primary::body) add(Articulator::body);
  if (s.target.root_weight > 0.5) add(Articulator::root);
  if (s.pose.velum > 0.3) add(Articulator::velum);
  add(Articulator::glottis);
  std::vector<std::string> unique;
  for (auto& part : parts)
    if (std::find(unique.begin(), unique.end(), part) == unique.end()) unique.push_back(std::move(part));
  return unique;
}

Json shape_json(const Shape& s) {
  const AreaFunction tube = area_function(*s.anatomy, s.outline, s.pose);
  Json areas = Json::array(), formants = Json::array(), notes = Json::array();
  for (const auto& section : tube.sections)
    areas.push_back(Json{{"from_glottis_mm", number(section.from_glottis_mm, 2)}, {"area_cm2", number(section.area_cm2)}});
  if (has_formants(s))
    for (double f : formants_hz(tube)) formants.push_back(number(f, 1));
  if (s.outline.strained) notes.push_back(Json{{"kind", "strain"}, {"text", s.outline.strain_reason}});
  const Narrowest place = narrowest(*s.anatomy, s.outline, s.pose);
  return {{"schema", 1}, {"segment", to_ipa(s.sound)}, {"anatomy", s.anatomy->id}, {"pose", pose_json(*s.anatomy, s.pose)},
          {"outline", outline_json(s.outline)}, {"tongue_area_mm2", number(s.outline.tongue_area_mm2, 1)},
          {"tract_length_mm", number(tube.tract_length_mm, 1)}, {"area_function", areas}, {"formants_hz", formants},
          {"narrowest", {{"articulator", to_text(place.articulator)}, {"place", place.place}, {"gap_mm", number(place.gap_mm, 2)}}},
          {"contact", contact_json(s)}, {"parts", parts_of(s)}, {"notes", notes}};
}

std::string in_words(const Shape& s) {
  const Letter* letter = find_letter(s.sound.letter);
  const Narrowest place = narrowest(*s.anatomy, s.outline, s.pose);
  std::string out = to_ipa(s.sound) + (letter != nullptr ? ": " + letter->name : "") + "\n";
  out += place.gap_mm <= 0.05
             ? "The " + std::string(learner_name(place.articulator)) + " closes the passage (" + std::string(place.place) + ").\n"
             : "The passage is narrowest at the " + std::string(learner_name(place.articulator)) + " (" +
                   std::string(place.place) + "), " + to_text(place.gap_mm, 1) + " mm.\n";
  out += nasal_port(s.outline) > 1.0 ? "The soft palate is open: air goes through the nose.\n" : "The soft palate is shut.\n";
  const FoldState folds = fold_state(s.pose);
  out += folds == FoldState::voiceless ? "The vocal folds are apart: no voice.\n"
         : folds == FoldState::closed  ? "The vocal folds are shut.\n"
                                       : "The vocal folds vibrate: voice.\n";
  if (s.outline.strained) out += "Strain: " + s.outline.strain_reason + "\n";
  return out + "A model, not a medical picture.\n";
}

Result<Done> draw(const Shape& s, const Options& options) {
  const auto theme = find_theme(options.theme);
  if (!theme) return theme.error();
  Tracer tracer(s.anatomy);
  const Scene scene = compose_shape(tracer, s.pose, s.sound,
                                    {.width = static_cast<double>(options.width),
                                     .height = static_cast<double>(options.height),
                                     .theme = *theme,
                                     .transparent = options.transparent});
  return write_picture(scene, options.output, to_ipa(s.sound), options.transparent, options.overwrite);
}
} // namespace

int run_shape(const Options& options) {
  const auto shape = make_shape(options);
  if (!shape) return tell(shape.error());
  if (!options.output.empty())
    if (const auto drawn = draw(*shape, options); !drawn) return tell(drawn.error());
  if (!options.output.empty() && !options.json) return 0;
  return print(options.json ? json_text(shape_json(*shape)) : in_words(*shape));
}

} // namespace mw::cli
