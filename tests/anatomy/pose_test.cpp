#include "anatomy/anatomy.h"
#include "support/data.h"

#include <doctest/doctest.h>
#include <set>

using namespace mw;

TEST_CASE("pose: eighteen channels, each field and each column once, the rest pose inside every range") {
  const auto channels = pose_channels();
  CHECK(channels.size() == 18);
  std::set<std::string_view> columns;
  const Pose rest;
  Pose marked;
  int mark = 100;
  for (const PoseChannel& channel : channels) {
    columns.insert(channel.column);
    CHECK(channel.low < channel.high);
    CHECK(rest.*channel.value >= channel.low);
    CHECK(rest.*channel.value <= channel.high);
    marked.*channel.value = ++mark;
  }
  CHECK(columns.size() == channels.size());
  mark = 100;
  for (const PoseChannel& channel : channels) CHECK(marked.*channel.value == ++mark); // no field twice
}

TEST_CASE("pose: body height is the top of the body disc, and converts back") {
  for (const auto& anatomy : test::speakers()) {
    std::size_t row = 0;
    while (pose_channels()[row].column != "body_height_mm") ++row;
    for (const double x : {28.0, 41.0, 52.0, 60.0})
      for (const double y : {-22.0, -10.5, 0.0}) {
        Pose pose = anatomy->rest;
        pose.body_x = x * anatomy->tongue_scale;
        pose.body_y = y * anatomy->tongue_scale;
        const double height = column_value(*anatomy, pose, row);
        CHECK(height > pose.body_y + 0.7 * anatomy->body_radius);
        CHECK(height <= pose.body_y + anatomy->body_radius);
        CHECK(body_y_of_height(*anatomy, pose.body_x, height) == doctest::Approx(pose.body_y).epsilon(1e-9));
      }
  }
}

TEST_CASE("pose: every articulator has a name for files and one for learners") {
  std::set<std::string_view> names;
  for (int i = 0; i < articulator_count; ++i) {
    names.insert(to_text(static_cast<Articulator>(i)));
    CHECK_FALSE(learner_name(static_cast<Articulator>(i)).empty());
  }
  CHECK(names.size() == articulator_count);
}
