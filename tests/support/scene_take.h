#pragma once

#include "clash/clash.h"
#include "ipa/parse.h"
#include "take/take.h"

#include <doctest/doctest.h>

#include <string>

/// A take from IPA alone, without a pronouncer: what scene tests draw.
inline mw::Take take_of_ipa(const std::string& ipa, const std::string& anatomy_id = "adult-male", double rate = 4.5) {
  using namespace mw;
  Take take;
  take.request.phrase = ipa;
  take.request.notation = Notation::ipa;
  take.request.anatomy = anatomy_id;
  const auto words = parse_transcription(ipa, Notation::ipa);
  REQUIRE(words.has_value());
  for (const SpelledWord& w : *words) {
    Word word;
    word.text = w.text;
    word.span = w.span;
    word.source = WordSource::typed;
    word.group_end = w.group_end;
    for (const SpelledSyllable& s : w.syllables) word.syllables.push_back({s.onset, s.nucleus, s.coda, s.stress, {}});
    take.pronunciation.words.push_back(std::move(word));
  }
  const auto anatomy = read_anatomy(anatomy_id);
  REQUIRE(anatomy.has_value());
  take.anatomy = *anatomy;
  const auto targets = read_targets(**anatomy);
  REQUIRE(targets.has_value());
  take.targets = *targets;
  take.track = spell_out(take.pronunciation, {rate, false});
  const auto score = plan(take.track, *anatomy);
  REQUIRE(score.has_value());
  take.score = *score;
  take.motion = bake(take.score);
  take.duration_s = take.track.duration_s;
  take.clashes = find_clashes(take.pronunciation, take.track, take.score, take.motion);
  take.difficulty = judge(take.pronunciation, take.track, take.score, take.clashes, false);
  return take;
}
