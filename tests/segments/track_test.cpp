#include "segments/track.h"
#include "ipa/inventory.h"
#include "support/said.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
double spoken_s(const SegmentTrack& track) {
  double total = 0;
  for (const auto& segment : track.segments) total += segment.end_s - segment.start_s;
  return total;
}
double rate_of(const SegmentTrack& track) {
  double syllables = 0;
  for (const auto& segment : track.segments) syllables += segment.slot == Slot::nucleus ? 1 : 0;
  return syllables / spoken_s(track);
}
double length(const Segment& segment) { return segment.end_s - segment.start_s; }
} // namespace

TEST_CASE("spell_out: an empty phrase is lead and tail") {
  CHECK(spell_out({}).segments.empty());
  CHECK(spell_out({}).duration_s == doctest::Approx(0.68));
}

TEST_CASE("spell_out: segments start at the lead, touch or leave a pause, and the take ends with the tail") {
  for (const auto phrase : test::spoken_phrases)
    for (double rate : {1.0, 4.5, 9.0}) {
      CAPTURE(phrase);
      const auto track = spell_out(test::said(phrase), {rate});
      REQUIRE_FALSE(track.segments.empty());
      CHECK(track.segments.front().start_s == doctest::Approx(lead_s));
      CHECK(track.duration_s == doctest::Approx(track.segments.back().end_s + tail_s));
      CHECK(track.segments.back().group_final);
      for (std::size_t i = 0; i < track.segments.size(); ++i) {
        CHECK(length(track.segments[i]) >= 0.020 - 1e-9);
        if (i == 0) continue;
        const double gap = track.segments[i].start_s - track.segments[i - 1].end_s;
        if (track.segments[i - 1].group_final) CHECK(gap >= 0.08);
        else CHECK(gap == doctest::Approx(0));
      }
    }
}

TEST_CASE("spell_out: syllables a second are the rate asked for, within 2 %") {
  for (const auto phrase : test::spoken_phrases)
    for (double rate : {1.0, 1.7, 2.5, 3.5, 4.5, 5.5, 6.6, 8.0, 9.0}) {
      CAPTURE(phrase);
      CAPTURE(rate);
      const auto track = spell_out(test::said(phrase), {rate});
      double syllables = 0;
      for (const auto& segment : track.segments) syllables += segment.slot == Slot::nucleus ? 1 : 0;
      // 20 ms a sound is the least a mouth could show
      const bool possible = 0.020 * static_cast<double>(track.segments.size()) < syllables / rate;
      if (possible) CHECK(rate_of(track) == doctest::Approx(rate).epsilon(0.02));
      else CHECK(rate_of(track) < rate);
    }
}

TEST_CASE("spell_out: a higher rate never lengthens any sound or pause") {
  for (const auto phrase : test::spoken_phrases) {
    CAPTURE(phrase);
    auto slower = spell_out(test::said(phrase), {1.0});
    for (double rate = 1.25; rate <= 9.0; rate += 0.25) {
      const auto faster = spell_out(test::said(phrase), {rate});
      for (std::size_t i = 0; i < faster.segments.size(); ++i) {
        CHECK(length(faster.segments[i]) <= length(slower.segments[i]) + 1e-9);
        if (i > 0)
          CHECK(faster.segments[i].start_s - faster.segments[i - 1].end_s <=
                slower.segments[i].start_s - slower.segments[i - 1].end_s + 1e-9);
      }
      slower = faster;
    }
  }
}

TEST_CASE("spell_out: every letter of the inventory gets a time") {
  for (const auto& letter : letters()) {
    CAPTURE(letter.ipa);
    Pronunciation phrase = test::said("ˈma");
    if (letter.vowel) phrase.words[0].syllables[0].nucleus = {letter.ipa};
    else phrase.words[0].syllables[0].onset = {{letter.ipa}};
    const auto track = spell_out(phrase);
    REQUIRE(track.segments.size() == 2);
    const double ms = 1000 * length(track.segments[letter.vowel ? 1 : 0]);
    CHECK(ms >= 20);
    CHECK(ms <= 300);
  }
}

TEST_CASE("spell_out: places in the word") {
  const auto track = spell_out(test::said("ˈkɛtn̩ z"));
  const auto& s = track.segments;
  REQUIRE(s.size() == 5);
  CHECK((s[0].word_initial && s[0].slot == Slot::onset && s[0].stress == 1 && s[0].syllable == 0));
  CHECK((s[1].slot == Slot::nucleus && !s[1].syllabic));
  CHECK((s[2].slot == Slot::onset && s[2].syllable == 1 && s[2].stress == 0));
  CHECK((s[3].syllabic && s[3].word_final && s[3].slot == Slot::nucleus));
  CHECK((s[4].word == 1 && s[4].word_initial && s[4].word_final));
}

TEST_CASE("spell_out: a loop does not lengthen its end and reads its start as what follows") {
  const auto once = spell_out(test::said("ˈtɪn ˈpæn"), {4.5, false});
  const auto loop = spell_out(test::said("ˈtɪn ˈpæn"), {4.5, true});
  const auto share = [](const SegmentTrack& track, std::size_t i) { return length(track.segments[i]) / spoken_s(track); };
  CHECK(share(loop, 4) < share(once, 4)); // the last vowel
  CHECK_FALSE(loop.segments.back().group_final);
  // a pass in the middle of many is what the loop shows
  const auto many = spell_out(test::said("ˈtɪn ˈpæn ˈtɪn ˈpæn ˈtɪn ˈpæn"), {4.5, false});
  for (std::size_t i = 0; i + 1 < loop.segments.size(); ++i)
    for (std::size_t k = 0; k + 1 < loop.segments.size(); ++k)
      CHECK(length(loop.segments[i]) / length(loop.segments[k]) ==
            doctest::Approx(length(many.segments[i + 6]) / length(many.segments[k + 6])).epsilon(0.05));
}

TEST_CASE("spell_out: same input, same track") {
  for (const auto phrase : test::spoken_phrases)
    CHECK((spell_out(test::said(phrase), {5.2}) == spell_out(test::said(phrase), {5.2})));
}

TEST_CASE("spell_out: at an ordinary rate stops and taps last about as long as measured in connected speech") {
  // Crystal & House 1988, J. Phonetics 16: all stops 66 (fast talkers) to 76 ms (slow), word-initial voiceless 96-122,
  // voiced 69-84, flap 29
  double all = 0, n_all = 0, initial = 0, n_initial = 0;
  for (const auto phrase : test::spoken_phrases)
    for (const auto& segment : spell_out(test::said(phrase), {4.8}).segments) {
      const Letter* letter = find_letter(segment.sound.letter);
      REQUIRE(letter != nullptr);
      if (letter->manner == "tap") CHECK(1000 * length(segment) == doctest::Approx(29).epsilon(0.2));
      if (letter->manner != "stop" || letter->place == "glottal") continue;
      all += 1000 * length(segment);
      n_all += 1;
      if (letter->voiced || !segment.word_initial || segment.stress == 0) continue;
      initial += 1000 * length(segment);
      n_initial += 1;
    }
  MESSAGE("all stops " << all / n_all << " ms, word-initial p t k " << initial / n_initial << " ms");
  CHECK(all / n_all == doctest::Approx(71).epsilon(0.15));
  CHECK(initial / n_initial == doctest::Approx(108).epsilon(0.25));
}
