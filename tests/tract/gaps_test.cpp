// Openings, places, contact and the nasal port of the drawn outline, for every target row of every speaker.
#include "support/targets.h"
#include "tract/measure.h"

#include <doctest/doctest.h>
#include <set>

using namespace mw;

namespace {
// What the table's place may be called when it is read from the drawing.
const std::map<std::string, std::set<std::string_view>> drawn_places{
    {"bilabial", {"bilabial"}},         {"labiodental", {"labiodental"}},   {"interdental", {"dental"}},
    {"dental", {"dental"}},             {"alveolar", {"alveolar", "postalveolar"}}, {"postalveolar", {"postalveolar"}},
    {"alveolo-palatal", {"postalveolar"}}, {"retroflex", {"retroflex"}},    {"palatal", {"palatal"}},
    {"palatal (bunched)", {"palatal"}}, {"velar", {"velar"}},               {"uvular", {"uvular"}},
    {"pharyngeal", {"pharyngeal"}},     {"epiglottal", {"epiglottal"}},     {"labial-velar", {"velar", "bilabial"}},
};
// Rows with two places: a click's front closure may lie beside its letter's place, sj has its narrowest point at the
// velum.
const std::set<std::string> two_places{"ǃ", "ǂ", "ǁ", "ɧ"};

const std::map<std::string, Articulator> movers{
    {"bilabial", Articulator::lips}, {"labiodental", Articulator::lips}, {"interdental", Articulator::tip},
    {"dental", Articulator::tip},    {"alveolar", Articulator::tip},     {"postalveolar", Articulator::tip},
    {"retroflex", Articulator::tip}, {"palatal", Articulator::body},     {"velar", Articulator::body},
    {"uvular", Articulator::body},   {"pharyngeal", Articulator::root},  {"epiglottal", Articulator::root},
};

struct Drawn {
  test::Target target;
  Outline outline;
};
std::vector<Drawn> consonants() {
  std::vector<Drawn> out;
  for (const auto& anatomy : test::speakers()) {
    Tracer tracer(anatomy);
    for (auto& target : test::targets(anatomy, "consonants")) out.push_back({target, tracer.trace(target.pose)});
  }
  return out;
}

double u_of(const std::string& symbol, const std::vector<Drawn>& rows, const std::string& speaker) {
  for (const Drawn& row : rows)
    if (row.target.symbol == symbol && row.target.anatomy->id == speaker)
      return tongue_gap(*row.target.anatomy, row.outline).u_mm;
  FAIL("no row ", symbol);
  return 0;
}
} // namespace

TEST_CASE("gaps: the narrowest opening of every consonant lies within the limits of its row, at its place") {
  int checked = 0;
  for (const Drawn& row : consonants()) {
    CAPTURE(row.target.label());
    const test::Row& table = row.target.male_row;
    if (!table.has("gap_min")) continue;
    const Narrowest spot = narrowest(*row.target.anatomy, row.outline, row.target.pose);
    const std::string& place = table.at("place");
    // labial-velars: the lips may be the narrower of the two
    const double gap = place == "labial-velar" ? tongue_gap(*row.target.anatomy, row.outline).gap_mm : spot.gap_mm;
    // labiodentals: their limits are those of the lip opening, which other speakers' tables scale with the lips
    const double scale = place == "labiodental" ? row.target.anatomy->lip_scale : 1;
    CHECK(gap >= table.number("gap_min") * scale - 0.005);
    CHECK(gap <= table.number("gap_max") + 0.005);
    if (!two_places.contains(row.target.symbol)) CHECK(drawn_places.at(place).contains(spot.place));
    if (const auto mover = movers.find(place); mover != movers.end() && !two_places.contains(row.target.symbol))
      CHECK(to_text(spot.articulator) == to_text(mover->second));
    ++checked;
  }
  CHECK(checked > 200);
}

TEST_CASE("gaps: the opening equals the one in the speaker's table, which the design prototype measured") {
  for (const Drawn& row : consonants()) {
    CAPTURE(row.target.label());
    const std::string& where = row.target.row.at("gap_where");
    if (!row.target.row.has("gap_mm") || where.substr(0, 2) != "x=") continue;
    CHECK(std::abs(tongue_gap(*row.target.anatomy, row.outline).gap_mm - row.target.row.number("gap_mm")) < 0.051);
  }
}

TEST_CASE("gaps: contact is as long as the kind of closure makes it") {
  // tip 2-6, velar stop 8-12 in the man, palatal and velar nasal 18-25; smaller heads have less room
  for (const Drawn& row : consonants()) {
    CAPTURE(row.target.label());
    const std::string &place = row.target.male_row.at("place"), &manner = row.target.male_row.at("manner");
    if (manner != "stop" && manner != "nasal") continue;
    const auto all = contacts(*row.target.anatomy, row.outline);
    double least = 2, most = 6;
    if (place == "velar" && manner == "stop") least = 8, most = 12;
    else if (place == "palatal" || (place == "velar" && manner == "nasal")) least = 15, most = 25;
    else if (place == "bilabial") least = 2, most = 6;
    else if (place == "uvular") least = 2, most = 12;
    else if (place != "dental" && place != "alveolar" && place != "retroflex") continue;
    REQUIRE(all.size() == 1);
    CHECK(all.front().length_mm > least);
    CHECK(all.front().length_mm < most);
    CHECK(drawn_places.at(place).contains(all.front().place));
  }
}

TEST_CASE("gaps: a click closes the mouth twice, in front and at the velum") {
  for (const Drawn& row : consonants()) {
    if (row.target.male_row.at("manner") != "click") continue;
    CAPTURE(row.target.label());
    std::set<std::string_view> movers_seen;
    for (const Contact& contact : contacts(*row.target.anatomy, row.outline))
      movers_seen.insert(to_text(contact.articulator));
    CHECK(movers_seen.contains("body"));
    CHECK(movers_seen.size() == 2);
  }
}

TEST_CASE("gaps: dental, alveolar, retroflex, palatal, velar, uvular stops come in this order, in every speaker") {
  const auto rows = consonants();
  for (const std::string& speaker : anatomy_ids()) {
    double before = -1;
    for (const char* symbol : {"t̪", "t", "ʈ", "c", "k", "q"}) {
      const double u = u_of(symbol, rows, speaker);
      CAPTURE(symbol);
      CHECK(u > before + 2);
      before = u;
    }
  }
}

TEST_CASE("gaps: the nasal port is open in nasals and shut in oral stops and fricatives") {
  for (const Drawn& row : consonants()) {
    CAPTURE(row.target.label());
    const std::string &place = row.target.male_row.at("place"), &manner = row.target.male_row.at("manner");
    const double port = nasal_port(row.outline);
    // a uvular nasal holds the velum down with the tongue: 1.8 mm in the man, about in proportion in the smaller heads
    if (manner == "nasal") CHECK(port > (place != "uvular" ? 3.0 : 1.3) * row.target.anatomy->palate_step);
    else if (manner == "stop" || manner == "fricative") CHECK(port <= 0.3);
  }
}

TEST_CASE("gaps: the lips' gap follows the lip opening, and pressed lips are closed") {
  for (const auto& anatomy : test::speakers()) {
    Tracer tracer(anatomy);
    double before = -1;
    for (const double opening : {-2.0, -0.5, 1.0, 2.0, 4.0, 8.0, 14.0}) {
      Pose pose = anatomy->rest;
      pose.lip_opening = opening * anatomy->lip_scale;
      pose.jaw_opening = std::max(pose.jaw_opening, pose.lip_opening);
      const double gap = lip_gap(tracer.trace(pose));
      CHECK(gap >= before);
      if (opening < 0) CHECK(gap == 0);
      else CHECK(gap == doctest::Approx(pose.lip_opening).epsilon(0.1));
      before = gap;
    }
  }
}
