#include "anatomy/anatomy.h"
#include "support/data.h"

#include <doctest/doctest.h>
#include <future>
#include <set>

using namespace mw;

TEST_CASE("speaker: every listed id is read, and read twice is the same value") {
  for (const std::string& id : anatomy_ids()) {
    CAPTURE(id);
    const auto first = read_anatomy(id), second = read_anatomy(id);
    REQUIRE(first);
    CHECK(first->get() == second->get());
    CHECK((*first)->id == id);
    CHECK_FALSE((*first)->name.empty());
  }
}

TEST_CASE("speaker: an unknown id is wrong use and names the choices") {
  const auto anatomy = read_anatomy("giant");
  REQUIRE_FALSE(anatomy);
  CHECK(anatomy.error().kind == ProblemKind::usage);
  for (const std::string& id : anatomy_ids()) CHECK(anatomy.error().remedy.find(id) != std::string::npos);
}

TEST_CASE("speaker: reading from several threads gives one shared value") {
  std::vector<std::future<const Anatomy*>> readers;
  for (int i = 0; i < 8; ++i)
    readers.push_back(std::async(std::launch::async, [] { return read_anatomy("adult-female").value().get(); }));
  std::set<const Anatomy*> seen;
  for (auto& reader : readers) seen.insert(reader.get());
  CHECK(seen.size() == 1);
}

TEST_CASE("speaker: walls run from the lips to the larynx with steps near the stated ones") {
  for (const auto& anatomy : test::speakers()) {
    CAPTURE(anatomy->id);
    const auto check_steps = [](const Polyline& line, double step) {
      for (std::size_t i = 1; i < line.size(); ++i)
        CHECK(glm::distance(line[i], line[i - 1]) == doctest::Approx(step).epsilon(0.03));
    };
    check_steps(anatomy->palate, anatomy->palate_step);
    check_steps(anatomy->back_wall, 1.5 * anatomy->palate_step);
    CHECK(anatomy->palate.front().x < anatomy->palate.back().x);
    CHECK(anatomy->back_wall.front().y > anatomy->back_wall.back().y);
    CHECK(anatomy->upper_lip.size() == 13);
    CHECK(anatomy->lower_lip.size() == 13);
  }
}

TEST_CASE("speaker: the woman's and the child's mouths are smaller in every length") {
  const auto all = test::speakers();
  for (std::size_t i = 1; i < all.size(); ++i) {
    CHECK(mw::length(all[i]->palate) < mw::length(all[i - 1]->palate));
    CHECK(all[i]->tip_radius < all[i - 1]->tip_radius);
    CHECK(all[i]->glottis_y > all[i - 1]->glottis_y);
    CHECK(all[i]->rest_area_fine < all[i - 1]->rest_area_fine);
  }
}

TEST_CASE("jaw: opening drops the incisor edge by its millimetres, and the way back is exact") {
  for (const auto& anatomy : test::speakers()) {
    const Vec2 edge = anatomy->jaw.at("lower_incisor")[3];
    for (const double opening : {0.5, 3.5, 12.0, 20.0}) {
      const JawTransform jaw = jaw_transform(*anatomy, opening, 1.5);
      // an arc of 85 mm radius (male) round the condyle; the edge lies 2 % outside it
      const Vec2 closed = jaw_transform(*anatomy, 0, 1.5).to_skull(edge);
      CHECK(glm::distance(jaw.to_skull(edge), closed) ==
            doctest::Approx(opening * glm::distance(edge, anatomy->condyle) / anatomy->jaw_length).epsilon(0.005));
      CHECK(jaw.to_skull(edge).y < closed.y);
      CHECK(glm::distance(jaw.to_jaw(jaw.to_skull(edge)), edge) < 1e-12);
    }
  }
}
