// A moment of a phrase, drawn and measured, asks for no memory once the first rounds are over.
#include "acoustics/formants.h"
#include "support/allocations.h"
#include "support/moving.h"
#include "tract/outline.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace mw;

using test::allocations, test::counting;

TEST_CASE("moment: pose, outline and area function at any time allocate nothing after warm-up, on every speaker") {
  // stops, nasals, a lateral, sibilants, both r, a tip between the teeth, a click, an ejective
  const std::string phrase = "n:60:so ɛ:80:v l:80: z:50: k:90:so ɛ:100:v t:60: l:90:y s:110:so ɹ:80:o ɝ:120:v θ:90:o iː:100:v "
                             "ʃ:110: ŋ:80: ǃ:120:o a:100:v kʼ:90:o u:120:v p:80: ɹ̩:90:";
  for (const std::string& id : anatomy_ids()) {
    CAPTURE(id);
    const auto m = testing::moving(phrase, id);
    const auto anatomy = testing::speaker(id);
    Tracer tracer(anatomy);
    AreaMeter meter(anatomy);
    double sum = 0;
    const auto run = [&](int moments) {
      for (int i = 0; i < moments; ++i) {
        const Pose pose = pose_at(m.motion, m.motion.duration_s * i / moments);
        sum += meter.measure(tracer.trace(pose), pose).tract_length_mm;
      }
    };
    run(97); // other moments than those counted
    counting = true;
    allocations = 0;
    run(700);
    counting = false;
    CHECK(allocations == 0);
    CHECK(std::isfinite(sum));
  }
}

TEST_CASE("moment: the area function that keeps its memory is the one that does not") {
  for (const std::string& id : anatomy_ids()) {
    const auto anatomy = testing::speaker(id);
    const auto m = testing::moving("s:110:so l:80:o i:100:v θ:90:o u:120:v ŋ:80:", id);
    Tracer tracer(anatomy);
    AreaMeter meter(anatomy);
    for (int i = 0; i < 200; ++i) {
      const Pose pose = pose_at(m.motion, m.motion.duration_s * ((i * 73) % 200) / 200);
      const Outline& outline = tracer.trace(pose);
      const AreaFunction fresh = area_function(*anatomy, outline, pose), &kept = meter.measure(outline, pose);
      REQUIRE(fresh.sections.size() == kept.sections.size());
      for (std::size_t k = 0; k < fresh.sections.size(); ++k) CHECK(fresh.sections[k].area_cm2 == kept.sections[k].area_cm2);
      CHECK(fresh.side_volume_cm3 == kept.side_volume_cm3);
      CHECK(fresh.side_at_section == kept.side_at_section);
    }
  }
}
