#include "segments/inherent.h"
#include "segments/klatt.h"
#include "ipa/inventory.h"
#include "support/data.h"
#include "support/said.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
/// Milliseconds of sound `at` of an IPA phrase by the rules alone (tempo 1).
double ms(std::string_view ipa, std::size_t at) {
  const auto track = spell_out(test::said(ipa));
  const auto rules = apply_rules(track.segments, false);
  REQUIRE(at < rules.size());
  return 1000 * (rules[at].least_s + rules[at].stretch_s);
}
double published(std::size_t row) { return test::table("segments/klatt-examples.csv").at(row).number("duration_ms"); }
} // namespace

TEST_CASE("rules: the worked examples of the published formula come out") {
  CHECK(ms("ˈɹæk", 1) == doctest::Approx(published(0)).epsilon(0.001));        // before a voiceless plosive, final
  CHECK(ms("ˈɹæɡ", 1) == doctest::Approx(published(1)).epsilon(0.001));        // before a voiced one
  CHECK(ms("ˈbi ˈmæn", 1) == doctest::Approx(published(2)).epsilon(0.001));    // open syllable, more follows
  CHECK(ms("ˈlɛðəsə ˈmæn", 3) == doctest::Approx(published(3)).epsilon(0.002)); // weak middle vowel
  CHECK(ms("ˈstæn", 0) == doctest::Approx(published(4)).epsilon(0.001));       // first of a cluster
  CHECK(ms("ˈɪksts ˈmæn", 3) == doctest::Approx(published(5)).epsilon(0.001));  // between consonants
}

TEST_CASE("rules: rows of the published table stand as printed where the program does not say why it differs") {
  for (const auto& row : test::table("segments/klatt-segments.csv")) {
    const std::string ipa = row.at("ipa") == "g" ? "ɡ" : row.at("ipa");
    const auto sound = parse_sound(ipa, Notation::ipa);
    if (!sound || is_syllabic(*sound)) continue; // vowel + r, ju: two sounds here
    const bool differs = ipa == "ɾ" || ipa == "tʃ" || ipa == "dʒ";
    if (differs) continue;
    CAPTURE(ipa);
    const auto own = inherent_duration(*sound, is_vowel(*sound));
    CHECK(own.inherent_ms == doctest::Approx(row.number("inherent_ms")));
    CHECK(own.minimum_ms == doctest::Approx(row.number("minimum_ms")));
  }
}

TEST_CASE("rules: every letter has an inherent duration above its minimum, none below 20 ms") {
  for (const auto& letter : letters())
    for (const char* mark : {"", "ː", "ˑ", "\u0306"}) {
      CAPTURE(letter.ipa);
      Sound sound{letter.ipa};
      if (*mark != '\0' && !is_legal(*find_diacritic(mark), letter)) continue;
      if (*mark != '\0') sound.marks.push_back(mark);
      for (const bool nucleus : {false, true}) {
        const auto own = inherent_duration(sound, nucleus);
        CHECK(own.minimum_ms >= 20);
        CHECK(own.inherent_ms >= own.minimum_ms * 0.99);
        CHECK(own.inherent_ms <= 500);
      }
    }
}

TEST_CASE("rules: length marks order the lengths of a sound") {
  for (const char* letter : {"i", "ɑ", "ɛ", "u", "n", "t", "s"}) {
    CAPTURE(letter);
    const auto with = [&](const char* mark) { return inherent_duration({letter, {mark}}, false).inherent_ms; };
    const double plain = inherent_duration({letter}, false).inherent_ms;
    CHECK(with("\u0306") < plain);
    CHECK(plain < with("ˑ"));
    CHECK(with("ː") > plain);
  }
}

TEST_CASE("rules: the last syllable before a pause is longer") {
  CHECK(ms("ˈmæn", 1) > 1.3 * ms("ˈmæn ˈmæn", 1));
  CHECK(ms("ˈmæn | ˈmæn", 1) == doctest::Approx(ms("ˈmæn", 1)));
  CHECK(ms("ˈmæn", 2) > ms("ˈmæn ˈmæn", 2));      // and its final nasal
  CHECK(ms("ˈmæn", 0) == doctest::Approx(ms("ˈmæn ˈmæn", 0))); // not its onset
}

TEST_CASE("rules: a vowel is shorter before voiceless stops and longer before voiced fricatives") {
  CHECK(ms("ˈbɪt", 1) < ms("ˈbɪn", 1));
  CHECK(ms("ˈbɪn", 1) < ms("ˈbɪs", 1));
  CHECK(ms("ˈbɪs", 1) < ms("ˈbɪd", 1));
  CHECK(ms("ˈbɪd", 1) < ms("ˈbɪz", 1));
  CHECK(ms("ˈbɪtʃ", 1) == doctest::Approx(ms("ˈbɪt", 1)));
  CHECK(ms("ˈbɪd̥", 1) == doctest::Approx(ms("ˈbɪt", 1))); // a devoiced stop counts as voiceless
}

TEST_CASE("rules: vowels shrink in longer words and in weak syllables, consonants in clusters and inside words") {
  CHECK(ms("ˈmɛn ˈman", 1) > ms("ˈmɛndə ˈman", 1));
  CHECK(ms("ˈkɛtəl ˈman", 3) < ms("ˈkɛˌtəl ˈman", 3));
  CHECK(ms("ˈsɪp ˈman", 0) > ms("ˈspɪt ˈman", 0));
  CHECK(ms("ˈspɪt ˈman", 0) > ms("ˈɛksptəs ˈman", 2)); // between consonants, inside the word
  CHECK(ms("ˈseɪ ˈman", 0) > ms("ˈɛseɪ ˈman", 1));
}

TEST_CASE("rules: p t k are aspirated at the start of stressed syllables but not after s") {
  CHECK(ms("ˈpɪn", 0) > ms("ˈspɪn", 1) + 20);
  CHECK(ms("ˈpɪn", 0) > ms("ˈbɪn", 0));
  CHECK(ms("pʰəˈspɪn", 0) > ms("pəˈspɪn", 0));
}

TEST_CASE("rules: tempo never shortens a sound as it slows, and slow speech lengthens vowels most") {
  const auto track = spell_out(test::said("ˈkɛɾl̩ ˈspaʊt"));
  for (const auto& rule : apply_rules(track.segments, false))
    for (double k = 0.02; k < 20; k *= 1.1) {
      CHECK(duration_at(rule, k * 1.1) >= duration_at(rule, k));
      CHECK(duration_at(rule, k) >= 0.020);
      const double growth = duration_at(rule, 6) / duration_at(rule, 1.35);
      if (rule.vowel) CHECK(growth > 4);
      else if (rule.tap) CHECK(growth == doctest::Approx(1));
      else CHECK(growth < 2.5);
    }
}
