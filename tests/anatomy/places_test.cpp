#include "anatomy/places.h"
#include "base/text.h"
#include "support/data.h"

#include <doctest/doctest.h>

using namespace mw;

TEST_CASE("places: wall, normals, landmarks and goals are those of the design prototype") {
  // tests/data/anatomy/walls.csv was written by the design prototype
  int rows = 0;
  for (const auto& row : test::table("anatomy/walls.csv")) {
    CAPTURE(row.at("speaker"));
    CAPTURE(row.at("kind"));
    const auto anatomy = read_anatomy(row.at("speaker")).value();
    const double velum = row.number("velum"), u = row.number("u_mm"), opening = row.number("opening_mm");
    const Vec2 wanted(row.number("x_mm"), row.number("y_mm"));
    const WallTable& table = wall_table(*anatomy, velum);
    const std::string& kind = row.at("kind");
    if (kind == "landmark") CHECK(std::abs(table.landmarks[static_cast<std::size_t>(opening)] - u) < 0.01);
    else {
      const Vec2 got = kind == "wall" ? wall_point(table, u) : kind == "normal" ? wall_normal(table, u)
                     : kind == "tip" ? tip_goal(*anatomy, u, opening, velum) : body_goal(*anatomy, u, opening, velum);
      CHECK(glm::distance(got, wanted) < 0.01);
    }
    ++rows;
  }
  CHECK(rows > 100);
}

TEST_CASE("places: normals are unit vectors that point into the airway, away from bone") {
  for (const auto& anatomy : test::speakers()) {
    const WallTable& table = wall_table(*anatomy, 0.85);
    const double palate_end = table.landmarks[1];
    for (std::size_t i = 0; i < table.u.size(); ++i) {
      CHECK(glm::length(table.normal[i]) == doctest::Approx(1).epsilon(1e-9));
      if (table.u[i] < palate_end) CHECK(table.normal[i].y < 0.1); // the palate faces down
      else if (table.u[i] > table.landmarks[2] + 12) CHECK(table.normal[i].x < 0); // the throat wall faces forwards
    }
  }
}

TEST_CASE("places: the normalised place runs through the landmarks and back") {
  for (const auto& anatomy : test::speakers())
    for (const double velum : {0.0, 0.6}) {
      const WallTable& table = wall_table(*anatomy, velum);
      for (int i = 0; i < 4; ++i)
        CHECK(normalised_place(table, table.landmarks[static_cast<std::size_t>(i)]) == doctest::Approx(i));
      for (const double z : {0.2, 1.1, 1.7, 2.5})
        CHECK(normalised_place(table, place_of_normalised(table, z)) == doctest::Approx(z));
    }
}

TEST_CASE("places: going back along the wall the IPA places come in their order, each once, in every speaker") {
  const std::vector<std::string_view> order{"dental", "alveolar", "postalveolar", "retroflex", "palatal",
                                            "velar", "uvular", "pharyngeal", "epiglottal", "glottal"};
  for (const auto& anatomy : test::speakers())
    for (const double velum : {0.0, 0.85}) {
      const WallTable& table = wall_table(*anatomy, velum);
      std::vector<std::string_view> seen;
      for (double u = 0; u <= table.u.back(); u += 0.5)
        if (const auto name = place_name(*anatomy, table, u); seen.empty() || seen.back() != name) seen.push_back(name);
      CHECK(seen == order);
    }
}

TEST_CASE("places: a disc at its goal touches the wall by its opening") {
  for (const auto& anatomy : test::speakers())
    for (const double opening : {-1.0, 0.0, 2.8}) {
      const Vec2 tip = tip_goal(*anatomy, 14 * anatomy->jaw_x, opening);
      CHECK(nearest_on(anatomy->palate, tip).distance - anatomy->tip_radius == doctest::Approx(opening).epsilon(0.2));
      const Vec2 body = body_goal(*anatomy, 36 * anatomy->jaw_x, opening);
      CHECK(std::abs(nearest_on(anatomy->palate, body).distance - body_radius(*anatomy, body) - opening) < 0.6);
    }
}
