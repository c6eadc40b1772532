#include "window/driver.h"

#include "app/compare.h"

#include <algorithm>

using namespace driver;

namespace {

/// Texts of one role in a sheet, with those inside its groups.
void collect(const std::vector<Mark>& marks, std::string_view role, std::vector<std::string>& out) {
  for (const Mark& mark : marks) {
    if (const auto* group = std::get_if<Group>(&mark)) collect(group->marks, role, out);
    if (const auto* text = std::get_if<Text>(&mark); text && text->mark.role == role) out.push_back(text->text);
  }
}
std::vector<std::string> texts(const Window& window, std::string_view role) {
  std::vector<std::string> out;
  for (const Sheet& sheet : window.ui().sheets()) collect(sheet.scene.marks, role, out);
  return out;
}

} // namespace

TEST_CASE("speaker: C goes from man to woman to child and round; line, time and accent stay, the mouth is another") {
  const auto window = open("Glass kettles, brass ladles");
  play(*window, "settle\nkey home\nkey right\nkey right\nsettle\nmove 3 300\nsettle");
  const double t = window->session().view.time_s;
  const Pixels man = window->picture();
  std::vector<std::string> seen;
  for (int i = 0; i < 3; ++i) {
    play(*window, "key c\nsettle");
    const Take& take = *window->session().take;
    seen.push_back(take.anatomy->id);
    CHECK(take.request.phrase == "Glass kettles, brass ladles");
    CHECK(take.request.accent == "SSBE");
    CHECK(window->session().view.time_s == doctest::Approx(t).epsilon(0.05));
    if (i < 2) CHECK(changed(*window, man, window->picture(), window->layout().stage) > 0.03);
  }
  CHECK(seen == std::vector<std::string>{"adult-female", "child", "adult-male"});
}

TEST_CASE("speaker: chosen from the field beside the picture at every size; Compare and My accent show the same one; before a line the quiet mouth too") {
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}}) {
    CAPTURE(w);
    const auto window = open("Glass kettles", w, h);
    play(*window, "settle\nspot speaker\nwait 0.1");
    REQUIRE(window->session().menu);
    CHECK(window->session().menu->rows.size() == 3);
    play(*window, "spot menu-2\nsettle");
    CHECK(window->session().take->anatomy->id == "child");
    const Rect field = window->ui().find("speaker")->rect;
    CHECK(field.right() <= w);
    for (const Spot& spot : window->ui().spots()) {
      if (spot.id == "speaker" || spot.rect.width == 0) continue;
      const bool apart = spot.rect.x >= field.right() - 0.5 || field.x >= spot.rect.right() - 0.5 || spot.rect.y >= field.bottom() - 0.5 || field.y >= spot.rect.bottom() - 0.5;
      CHECK_MESSAGE(apart, spot.id);
    }
  }
  auto window = open("Glass kettles");
  play(*window, "settle\nspot screen-Compare\nsettle\nkey c\nsettle");
  REQUIRE(window->session().compare->comparing);
  CHECK(window->session().compare->comparing->own->anatomy->id == "adult-female");
  CHECK(window->session().compare->comparing->target->anatomy->id == "adult-female");
  play(*window, "spot screen-My accent\nsettle\nspot speaker\nwait 0.1\nspot menu-0\nsettle");
  CHECK(window->session().take->anatomy->id == "adult-male");
  window.reset(); // one window at a time
  const auto quiet = open();
  play(*quiet, "settle\nmove 3 300\nsettle");
  const Pixels man = quiet->picture();
  play(*quiet, "spot speaker\nwait 0.1\nspot menu-2\nmove 3 300\nsettle");
  CHECK(quiet->session().anatomy->id == "child");
  CHECK(changed(*quiet, man, quiet->picture(), {10, 62, 700, 500}) > 0.03);
}

TEST_CASE("speaker: labels stand on demand with the technical term beside, for all three, inside the stage and apart") {
  for (const auto& [w, h] : {std::pair{1280, 720}, std::pair{1024, 768}, std::pair{800, 600}}) {
    const auto window = open("Glass kettles", w, h);
    play(*window, "settle");
    CHECK(texts(*window, "label").empty());
    play(*window, "key l\nsettle");
    for (int speaker = 0; speaker < 3; ++speaker) {
      const auto words = texts(*window, "label"), terms = texts(*window, "label-term");
      CHECK(words.size() >= 6);
      CHECK(std::count(words.begin(), words.end(), std::string("soft palate")) == 1);
      CHECK(std::count(terms.begin(), terms.end(), std::string("velum")) == 1);
      CHECK(std::count(terms.begin(), terms.end(), std::string("apex")) == 1);
      play(*window, "key c\nsettle");
    }
  }
}

TEST_CASE("speaker: leaders of labels do not cross, in the quiet mouth and at sounds of a line, for all three") {
  const auto leaders = [](const Window& window) {
    std::vector<std::pair<Vec2, Vec2>> out;
    const auto collect_lines = [&](const auto& self, const std::vector<Mark>& marks) -> void {
      for (const Mark& mark : marks) {
        if (const auto* group = std::get_if<Group>(&mark)) self(self, group->marks);
        const auto* stroke = std::get_if<Stroke>(&mark);
        if (!stroke || stroke->mark.role != "label" || stroke->path.steps.size() != 2) continue;
        const auto *from = std::get_if<Path::Move>(&stroke->path.steps[0]);
        const auto *to = std::get_if<Path::Line>(&stroke->path.steps[1]);
        if (from && to) out.emplace_back(from->to, to->to);
      }
    };
    for (const Sheet& sheet : window.ui().sheets())
      if (sheet.name == "stage") collect_lines(collect_lines, sheet.scene.marks);
    return out;
  };
  const auto cross = [](const std::pair<Vec2, Vec2>& one, const std::pair<Vec2, Vec2>& two) {
    const auto side = [](Vec2 p, Vec2 q, Vec2 r) { return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x); };
    return side(one.first, one.second, two.first) * side(one.first, one.second, two.second) < -1e-6 && side(two.first, two.second, one.first) * side(two.first, two.second, one.second) < -1e-6;
  };
  const auto check = [&](const Window& window) {
    const auto lines = leaders(window);
    CHECK(lines.size() >= 24); // casing and line of at least twelve
    for (std::size_t i = 0; i < lines.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(cross(lines[i], lines[j]));
  };
  auto window = open();
  for (int i = 0; i < 3; ++i) {
    play(*window, "spot speaker\nwait 0.1\nspot menu-" + std::to_string(i) + "\nsettle");
    check(*window);
  }
  window.reset();
  window = open("Which thin king");
  play(*window, "settle\nkey l\nkey home\nsettle");
  for (int i = 0; i < 24; ++i) {
    play(*window, i % 8 == 7 ? "key c\nkey home\nsettle" : "key right\nsettle");
    check(*window);
  }
}
