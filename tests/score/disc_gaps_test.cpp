#include "score/disc_gaps.h"
#include "support/speaker.h"

#include <doctest/doctest.h>

using namespace mw;

TEST_CASE("disc gaps: the same to the last bit as the distance from the whole wall, wherever the disc stands") {
  for (const auto& id : anatomy_ids()) {
    const auto anatomy = testing::speaker(id);
    const DiscWalls& walls = disc_walls(*anatomy);
    int checked = 0;
    for (double x = -10; x <= 80; x += 1.7)
      for (double y = -40; y <= 30; y += 1.3) {
        Pose pose;
        pose.tip_x = pose.body_x = x;
        pose.tip_y = pose.body_y = y;
        const Vec2 p{x, y};
        const double radius = body_radius(*anatomy, p);
        const bool same = tip_gap(*anatomy, walls, pose) == nearest_on(walls.teeth_and_palate.points, p).distance - anatomy->tip_radius &&
                          body_gap(*anatomy, walls, pose, false) == nearest_on(walls.palate_shut.points, p).distance - radius &&
                          body_gap(*anatomy, walls, pose, true) == nearest_on(walls.palate_open.points, p).distance - radius;
        CHECK_MESSAGE(same, id << " at " << x << ", " << y);
        ++checked;
      }
    CHECK(checked > 2000);
  }
}

TEST_CASE("disc walls: built once for a speaker") {
  const auto anatomy = testing::speaker();
  CHECK(&disc_walls(*anatomy) == &disc_walls(*testing::speaker()));
  CHECK(&disc_walls(*anatomy) != &disc_walls(*testing::speaker("child")));
}
