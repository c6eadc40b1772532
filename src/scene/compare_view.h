#pragma once

#include "scene/compare_takes.h"
#include "scene/stage.h"

namespace mw {

/// Where the parts of Compare stand. Wide: three columns over the rows; small: the third column shows its chart or its
/// list, not both; upright (paper): the third column lies under the stages.
struct CompareLayout {
  Rect own{}, target{}, side{}, rows{};
  bool one_card = false;
};
CompareLayout lay_out_compare(Rect room, double u);

/// One of the two mouths, with whose it is, the sound now, the lips and the other tongue as a ghost; in the target's an
/// arrow from the learner's tongue to its own where a sound differs.
struct CompareStageView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  bool target = false;
  bool field = false;  // the name is a field that opens a list
  bool brief = false;  // large letters in a small stage (Present)
  std::string role;    // under the name
  bool mirrored = false, labels = false, shadows = true, mouth = true; // mouth false: covered
  std::optional<Articulator> spotlight{};
  double spotlight_strength = 1, drift_mm = 0;
};
struct CompareStagePicture { Group group; Rect name{}; };
CompareStagePicture compose_compare_stage(const Comparing& comparing, Tracer& tracer, double target_s, const CompareStageView& view);

/// Both accents' vowels that differ, with both moving points while a vowel is said.
Group compose_compare_chart(const Comparing& comparing, double target_s, const Theme& theme, Rect rect, double u);
/// Whose marks are whose, in one line that ends at `right`.
std::vector<Mark> draw_compare_legend(const Comparing& comparing, const Theme& theme, Vec2 right, double u, double width);

/// What changes, a flag, a title and a line each. Starts at `first`; as many as fit, at most `most`.
struct ChangesView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  std::size_t first = 0, most = 3;
  std::optional<std::size_t> lit{}; // the one under the time or in hand
  int lines = 2, title_lines = 1;   // of a detail, of a title
};
struct ChangesPicture {
  Group group;
  std::vector<std::pair<std::size_t, Rect>> rows; // change, where it stands
  double bottom = 0;
};
ChangesPicture compose_changes(const Comparing& comparing, const ChangesView& view);
/// The change that holds a column, the weightiest.
std::optional<std::size_t> change_at(const Comparing& comparing, std::size_t column);

/// Two rows of sounds, slot under slot. A long phrase shows the page that holds `now`.
struct CompareRowsView {
  const Theme* theme = nullptr;
  Rect rect{};
  double u = 1;
  std::optional<std::size_t> now{}; // column
  std::optional<std::size_t> page{}; // instead of the page of `now`
  bool brief = false;                // a mark and the accent's id only (Present)
};
struct CompareRowsPicture {
  Group group;
  std::vector<std::pair<std::size_t, Rect>> cells; // column, both its cells
  Rect swap{};                                     // over the names, room for a button
  std::size_t page = 0, pages = 1;
};
CompareRowsPicture compose_compare_rows(const Comparing& comparing, const CompareRowsView& view);

/// The whole of it as one picture.
struct ComparePictureView {
  const Theme* theme = nullptr;
  double width = 1280, height = 720;
  std::size_t column = 0; // the place shown
};
Scene compose_compare(const Comparing& comparing, Tracer& tracer, const ComparePictureView& view);
/// The moment of the target that shows a column best.
double moment_of_column(const Comparing& comparing, std::size_t column);
/// The place that a picture shows when none is asked for: the first of the weightiest change.
std::size_t telling_column(const Comparing& comparing);

} // namespace mw
