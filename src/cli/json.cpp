#include "cli/json.h"

#include "base/text.h"
#include "clash/speeds.h"

#include <cmath>

namespace mw::cli {
namespace {
Json names(const std::vector<Sound>& sounds) {
  Json list = Json::array();
  for (const auto& sound : sounds) list.push_back(to_ipa(sound));
  return list;
}

Json syllable_json(const Syllable& s) {
  return {{"onset", names(s.onset)}, {"nucleus", Json::array({to_ipa(s.nucleus)})}, {"coda", names(s.coda)}, {"stress", s.stress}};
}

Json word_json(const Word& word) {
  Json sets = Json::array(), syllables = Json::array();
  for (const auto& s : word.syllables) {
    if (s.set) sets.push_back(to_keyword(*s.set));
    syllables.push_back(syllable_json(s));
  }
  Json out{{"text", word.text}, {"ipa", to_ipa(word)}, {"source", to_text(word.source)}, {"lexical_sets", sets},
           {"syllables", syllables}, {"start", word.span.start}, {"end", word.span.end}};
  if (!word.choices.empty()) out["choices"] = word.choices;
  return out;
}

Json segment_json(const Segment& s) {
  return {{"ipa", to_ipa(s.sound)}, {"start_s", number(s.start_s)}, {"end_s", number(s.end_s)}, {"word", s.word},
          {"syllable", s.syllable}, {"slot", to_text(s.slot)}};
}

Json gesture_json(const Gesture& g) {
  Json goal{{"place", g.place}, {"degree", to_text(g.degree)}};
  if (g.opening_mm) goal["opening_mm"] = number(*g.opening_mm, 2);
  return {{"articulator", to_text(g.articulator)}, {"start_s", number(g.onset_s)}, {"end_s", number(g.offset_s)},
          {"segment", g.segment}, {"goal", goal}, {"reached_s", number(g.reached_s)}, {"release_s", number(g.release_s)}};
}

Json clash_json(const Clash& c) {
  Json articulators = Json::array();
  for (const auto a : c.articulators) articulators.push_back(to_text(a));
  return {{"kind", to_text(c.kind)}, {"level", c.level}, {"start_s", number(c.start_s)}, {"end_s", number(c.end_s)},
          {"articulators", articulators}, {"segments", c.segments}, {"title", c.title}, {"text", c.text}, {"feel", c.feel}};
}

Json difficulty_json(const Difficulty& d) {
  return {{"slips", number(d.slips)}, {"slowing", number(d.slowing)}, {"late_start", number(d.late_start)},
          {"drift", number(d.drift)}, {"label", d.label}, {"overall", number(d.overall)}, {"reasons", d.reasons},
          {"scale", d.scale}};
}

// Words are told with the sounds they are made of; that a t before th is touched at the teeth stands in the segments and
// in the processes. Gives the words with that one detail taken back.
std::vector<Word> as_words(const Pronunciation& pronunciation) {
  constexpr std::string_view at_the_teeth = "\u032a";
  std::vector<Word> words = pronunciation.words;
  std::vector<Sound*> sounds;
  for (auto& word : words)
    for (auto& s : word.syllables) {
      for (auto& sound : s.onset) sounds.push_back(&sound);
      sounds.push_back(&s.nucleus);
      for (auto& sound : s.coda) sounds.push_back(&sound);
    }
  for (const Process& p : pronunciation.processes)
    if (p.name == "assimilation" && p.sound < sounds.size() && to_nfd(p.to) == to_nfd(p.from) + std::string(at_the_teeth))
      std::erase(sounds[p.sound]->marks, at_the_teeth);
  return words;
}

template <typename T, typename F> Json list_of(const std::vector<T>& values, F&& f) {
  Json list = Json::array();
  for (const auto& value : values) list.push_back(f(value));
  return list;
}

// The time each articulator has, against what adults do when they repeat one syllable as fast as they can.
Json speeds_json(const Take& take) {
  const auto limits = speed_limits(take.track, take.request.loop);
  const double rate = take.request.rate;
  return {{"judgement", to_text(judge_speed(limits, rate))},
          {"articulators", list_of(limits, [&](const SpeedLimit& l) {
             return Json{{"articulator", to_text(l.articulator)}, {"returns_per_syllable", number(l.returns)},
                         {"comfortable_up_to_syllables_per_s", number(l.comfortable)},
                         {"fast_up_to_syllables_per_s", number(l.fast)}, {"judgement", to_text(judge_speed(l, rate))}};
           })}};
}

std::string_view notation_name(Notation n) {
  return n == Notation::text ? "text" : n == Notation::ipa ? "ipa" : "xsampa";
}
} // namespace

Json number(double value, int decimals) {
  MW_EXPECT(std::isfinite(value));
  const double scale = std::pow(10.0, decimals), rounded = std::round(value * scale) / scale;
  return rounded == 0 ? 0.0 : rounded; // no minus zero
}

std::string json_text(const Json& value, int indent) { return value.dump(indent, ' ', false) + "\n"; }

Json note_json(const Note& n) {
  Json out{{"kind", n.kind}, {"text", n.text}};
  if (n.span) {
    out["start"] = n.span->start;
    out["end"] = n.span->end;
  }
  return out;
}

Json explain_json(const Take& take) {
  const Request& r = take.request;
  Json out{{"schema", 1}, {"phrase", r.phrase}, {"notation", notation_name(r.notation)}, {"accent", take.accent->id},
           {"anatomy", r.anatomy}, {"rate", number(r.rate)}, {"duration_s", number(take.duration_s)}};
  if (take.learner) {
    out["learner"] = take.learner->id;
    out["learner_words"] = list_of(take.learner_pronunciation.words, word_json);
  }
  out["words"] = list_of(as_words(take.pronunciation), word_json);
  out["segments"] = list_of(take.track.segments, segment_json);
  out["gestures"] = list_of(take.score.gestures, gesture_json);
  out["processes"] = list_of(take.pronunciation.processes, [](const Process& p) {
    return Json{{"name", p.name}, {"segment", p.sound}, {"from", p.from}, {"to", p.to}, {"text", p.text}};
  });
  out["clashes"] = list_of(take.clashes, clash_json);
  out["difficulty"] = difficulty_json(take.difficulty);
  out["speeds"] = speeds_json(take);
  out["likely_slips"] = list_of(take.likely_slips, [](const LikelySlip& s) {
    return Json{{"segment", s.segment}, {"wanted", s.wanted}, {"instead", s.instead}, {"strength", number(s.strength)},
                {"text", s.text}};
  });
  out["notes"] = list_of(take.notes, note_json);
  return out;
}

Json pose_json(const Anatomy& anatomy, const Pose& pose) {
  Json out = Json::object();
  const auto channels = pose_channels();
  for (std::size_t i = 0; i < channels.size(); ++i)
    out[std::string(channels[i].column)] = number(column_value(anatomy, pose, i));
  return out;
}

Json points_json(const Polyline& line) {
  Json list = Json::array();
  for (const Vec2 p : line) list.push_back(Json::array({number(p.x, 3), number(p.y, 3)}));
  return list;
}

} // namespace mw::cli
