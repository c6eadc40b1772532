#include "base/assets.h"
#include "base/curve.h"
#include "base/text.h"
#include "support/program.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

using mw::test::run_program;
using Json = nlohmann::json;

namespace {
mw::CsvTable motion(std::vector<std::string> words) {
  words.insert(words.begin(), "motion");
  const auto run = run_program(words);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  const auto table = mw::parse_csv(run.out, "motion");
  REQUIRE(table.has_value());
  return *table;
}
double cell(const mw::CsvTable& t, std::size_t row, const char* column) {
  return *mw::parse_number(t.rows.at(row).at(*t.column(column)));
}
Json shape(std::vector<std::string> words) {
  words.insert(words.begin(), {"shape", "--json"});
  const auto run = run_program(words);
  REQUIRE_MESSAGE(run.code == 0, run.err);
  return Json::parse(run.out);
}
mw::Polyline ring(const Json& points) {
  mw::Polyline out;
  for (const auto& p : points) out.push_back({p[0], p[1]});
  return out;
}
} // namespace

TEST_CASE("motion: rows stand at k / fps from 0 to the end of the take, columns in the order of the contract") {
  const auto table = motion({"kettle", "--fps", "50"});
  CHECK(table.columns.front() == "time_s");
  CHECK(table.columns[1] == "lip_opening_mm");
  CHECK(table.columns.back() == "glottis_opening");
  CHECK(table.columns.size() == 19);
  for (std::size_t k = 0; k < table.rows.size(); ++k)
    CHECK(cell(table, k, "time_s") == doctest::Approx(static_cast<double>(k) / 50.0).epsilon(1e-6));
  const double duration = Json::parse(run_program({"explain", "--json", "kettle"}).out)["duration_s"];
  CHECK(static_cast<double>(table.rows.size()) == std::floor(duration * 50 + 1e-6) + 1);
}

TEST_CASE("motion: the coarse rows are those of the fine ones at the same times") {
  const auto fine = motion({"lamps", "--fps", "200"}), coarse = motion({"lamps", "--fps", "100"});
  for (std::size_t k = 0; k < coarse.rows.size(); ++k) CHECK(coarse.rows[k] == fine.rows[2 * k]);
}

TEST_CASE("motion --gaps: the lips meet in p, the tip touches in t, the port opens in n only") {
  const auto lips = motion({"\u02c8\u0251p\u0259", "--notation", "ipa", "--gaps"});
  double least = 99;
  for (std::size_t k = 0; k < lips.rows.size(); ++k) least = std::min(least, cell(lips, k, "lip_gap_mm"));
  CHECK(least <= 0.05);
  const auto nose = motion({"\u02c8\u0251n\u0259", "--notation", "ipa", "--gaps"});
  double widest = 0;
  for (std::size_t k = 0; k < nose.rows.size(); ++k) widest = std::max(widest, cell(nose, k, "nasal_port_mm"));
  CHECK(widest >= 3);
}

TEST_CASE("shape --json: rings are closed lines, the tongue encloses its area to 1 %, numbers fit the sound") {
  for (const char* sound : {"s", "i", "\u0251", "k", "m", "l", "\u0279", "u"}) {
    const Json j = shape({sound});
    const auto tongue = ring(j["outline"]["tongue"]);
    CHECK(std::abs(mw::signed_area(tongue)) == doctest::Approx(j["tongue_area_mm2"].get<double>()).epsilon(0.01));
    CHECK(mw::is_simple(tongue, true));
    CHECK(tongue.front() != tongue.back());
    for (const char* key : {"tongue", "upper_lip", "lower_lip", "palate", "velum", "back_wall", "upper_incisor",
                            "lower_incisor", "jaw", "epiglottis", "larynx", "face"})
      CHECK_MESSAGE(j["outline"][key].size() >= 3, key);
    CHECK(j["pose"].size() == 18);
  }
  CHECK(shape({"s"})["narrowest"]["place"] == "alveolar");
  CHECK(shape({"s"})["formants_hz"] == Json::array());
  CHECK(shape({"i"})["formants_hz"].size() >= 3);
  CHECK(shape({"k"})["contact"]["midsagittal"].size() >= 1);
}

TEST_CASE("shape: a closing glide is drawn at its start, with --end at its end, higher") {
  const Json start = shape({"a\u026a"}), end = shape({"a\u026a", "--end"});
  CHECK(end["pose"]["body_height_mm"].get<double>() > start["pose"]["body_height_mm"].get<double>() + 1);
  CHECK(end["pose"]["jaw_opening_mm"].get<double>() < start["pose"]["jaw_opening_mm"].get<double>());
}

TEST_CASE("shape: speakers differ, X-SAMPA is understood, unknown signs are named with their place") {
  CHECK(shape({"i", "--anatomy", "child"})["tract_length_mm"].get<double>() < shape({"i"})["tract_length_mm"].get<double>() - 30);
  CHECK(shape({"S", "--notation", "xsampa"})["segment"] == "\u0283");
  CHECK(run_program({"shape", "s"}).code == 0);
  const auto bad = run_program({"shape", "q\u00bf"});
  CHECK(bad.code == 2);
  CHECK(bad.err.find("\u00bf") != std::string::npos);
  CHECK(run_program({"shape"}).code == 1);
  CHECK(run_program({"shape", ""}).code == 2);
}
