#include "scene/lit.h"
#include "support/scene_take.h"

#include <algorithm>
#include <array>

using namespace mw;

namespace {

const std::vector<std::string> phrases{"ˈθɪn ˈtɪn ˈlɪd ˈfɪts ˈðɪs ˈdɪʃ", "ˈsɪks ˈsaʃ ˈskɹuz ˈsɪksθ ˈʃɛlf", "ˈtɪn ˈkeɪks ˈkoʊld ˈtɹeɪz ˈɡoʊld ˈkiz",
                                       "ˈpak ðə ˈkap ˈkap ðə ˈpak", "ˈklin ˈklɔθ ˈklɪɹ ˈɡlas", "ˈsɪp ˈʃɪp ˈsɪp ˈʃɪp ˈsɪp ˈʃɪp ˈsɪp ˈʃɪp"};
constexpr double step_s = 0.005;

template <typename F> void each_moment(F f) {
  for (const std::string& phrase : phrases) {
    const Take take = take_of_ipa(phrase);
    for (const double slow : {1.0, 2.0, 4.0, 8.0, 32.0}) {
      INFO(phrase, " slow ", slow);
      f(take, slow, lighting(take, slow));
    }
  }
}

} // namespace

TEST_CASE("lit: over whole phrases no part goes off and on within a second, none for less than 350 ms, none at a blow") {
  std::size_t lit_somewhere = 0;
  each_moment([&](const Take& take, double slow, const std::vector<LitSpan>& spans) {
    std::array<double, articulator_count + 1> off{}, on{}, level{};
    off.fill(-100), on.fill(-100);
    for (double wall = -0.1; wall < take.duration_s * slow + 2; wall += step_s) {
      std::array<double, articulator_count + 1> now{};
      if (const auto lit = lit_at(spans, wall)) now[static_cast<std::size_t>(lit_part(take.clashes[lit->clash]))] = lit->opacity;
      for (std::size_t p = 0; p < now.size(); ++p) {
        CHECK(now[p] - level[p] <= step_s / lit_fade_on_s + 1e-6);
        CHECK(level[p] - now[p] <= step_s / lit_fade_off_s + 1e-6);
        if (now[p] > 0 && level[p] == 0) {
          CHECK(wall - off[p] >= lit_calm_s - 2 * step_s);
          on[p] = wall, ++lit_somewhere;
        }
        if (now[p] == 0 && level[p] > 0) {
          CHECK(wall - on[p] >= lit_hold_s);
          off[p] = wall;
        }
      }
      level = now;
    }
  });
  CHECK(lit_somewhere > 60);
}

TEST_CASE("lit: played slowly a clash of sounds that lie apart is lit on its own sounds, and dark between them") {
  std::size_t dark_between = 0, spans_seen = 0;
  each_moment([&](const Take& take, double slow, const std::vector<LitSpan>& spans) {
    if (slow < 8) return;
    for (const LitSpan& s : spans) {
      ++spans_seen;
      double lit_s = 0, on_sounds_s = 0;
      for (double wall = s.on_s; wall < s.off_s; wall += step_s) {
        lit_s += step_s;
        for (const auto& [from, to] : clash_spans(take, take.clashes[s.clash]))
          if (wall >= from * slow - 1e-9 && wall <= to * slow + 1e-9) { on_sounds_s += step_s; break; }
      }
      // outside its sounds only to hold, or across a gap too short to go off and on in
      if (slow == 32) CHECK(lit_s - on_sounds_s <= lit_calm_s + lit_fade_off_s + lit_hold_s + lit_fade_on_s);
      if (take.clashes[s.clash].end_s * slow > s.off_s + lit_calm_s && take.clashes[s.clash].kind == ClashKind::near_twins) ++dark_between;
    }
  });
  CHECK(spans_seen > 40);
  CHECK(dark_between > 3);
}

TEST_CASE("lit: at full speed a pattern stays steady over its sounds, one at a time, the strongest never left out") {
  each_moment([](const Take& take, double slow, const std::vector<LitSpan>& spans) {
    for (std::size_t i = 1; i < spans.size(); ++i) CHECK(spans[i].on_s >= spans[i - 1].off_s - 1e-9);
    if (take.clashes.empty()) return;
    const std::size_t strongest = take.clashes.front().kind == ClashKind::out_of_step && take.clashes.size() > 1 ? 1 : 0;
    CHECK(std::any_of(spans.begin(), spans.end(), [&](const LitSpan& s) { return s.clash == strongest; }));
    if (slow > 1) return;
    // spans of one clash are a second apart, or it is one
    for (const LitSpan& a : spans)
      for (const LitSpan& b : spans)
        if (&a != &b && a.clash == b.clash && b.on_s > a.off_s && !a.goes_on) CHECK(b.on_s - a.off_s >= lit_calm_s);
  });
}

TEST_CASE("lit: a clash in hand goes before stronger ones") {
  for (const std::string& phrase : phrases) {
    const Take take = take_of_ipa(phrase);
    for (std::size_t i = 0; i < take.clashes.size(); ++i) {
      const auto spans = lighting(take, 8, i);
      const auto [from, to] = clash_spans(take, take.clashes[i]).front();
      const auto lit = lit_at(spans, (from + to) / 2 * 8);
      REQUIRE(lit);
      CHECK(lit->clash == i);
    }
  }
}
