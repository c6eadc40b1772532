#include "take/take.h"

#include "accent/shared.h"
#include "clash/accent_shifts.h"
#include "clash/analysis.h"
#include "phrase/correct.h"
#include "take/posture.h"

#include <algorithm>

namespace mw {

namespace {

/// The phrase as the learner's own accent has it, and what shifts between the two. The bars stay those of the phrase.
std::optional<Problem> add_learner(Take& take, Pronouncer& pronouncer, const PronounceSettings& settings) {
  auto accent = read_shared_accent(take.request.learner);
  if (!accent) return accent.error();
  take.learner = *accent;
  auto said = pronounce(take.request.phrase, *take.learner, pronouncer, settings);
  if (!said) return said.error();
  take.learner_pronunciation = std::move(*said);
  take.clashes = with_accent_shifts(std::move(take.clashes),
                                    find_accent_shifts(take.learner_pronunciation, take.pronunciation, take.track,
                                                       take.learner.get(), take.accent.get()));
  return std::nullopt;
}

} // namespace

Result<std::shared_ptr<const Take>> make_take(const Request& request, Pronouncer& pronouncer) {
  auto take = std::make_shared<Take>();
  take->request = request;

  // who speaks, in which accent
  auto anatomy = read_anatomy(request.anatomy);
  if (!anatomy) return anatomy.error();
  take->anatomy = *anatomy;
  auto targets = read_targets(*take->anatomy);
  if (!targets) return targets.error();
  take->targets = *targets;
  auto accent = read_shared_accent(request.accent);
  if (!accent) return accent.error();
  take->accent = *accent;

  // what the coach has written down
  const auto own = request.notation == Notation::text ? read_own_words() : std::make_shared<const OwnWords>();
  const PronounceSettings settings{.notation = request.notation, .casual = request.casual,
                                   .corrections = request.corrections, .own_words = &own->corrections};

  // phrase -> pronunciation -> segments -> score -> motion
  auto said = pronounce(request.phrase, *take->accent, pronouncer, settings);
  if (!said) return said.error();
  take->pronunciation = std::move(*said);
  take->track = spell_out(take->pronunciation, {.rate = request.rate, .loop = request.loop});
  auto score = plan(take->track, take->anatomy, to_shift(take->accent->posture));
  if (!score) return score.error();
  take->score = std::move(*score);
  take->motion = bake(take->score);
  take->duration_s = take->track.duration_s;

  // why it is hard
  const Analysis analysis = analyse(take->track, request.loop);
  take->clashes = find_clashes(take->pronunciation, take->track, take->score, analysis);
  take->difficulty = judge(take->pronunciation, take->track, take->score, take->motion, take->clashes, analysis);
  take->likely_slips = find_likely_slips(take->pronunciation, take->track, analysis);
  if (!request.learner.empty())
    if (auto problem = add_learner(*take, pronouncer, settings)) return *problem;
  take->notes = take->pronunciation.notes;
  take->notes.insert(take->notes.end(), own->notes.begin(), own->notes.end());
  return std::shared_ptr<const Take>(std::move(take));
}

std::optional<std::size_t> segment_at(const Take& take, double t) {
  const auto& segments = take.track.segments;
  if (segments.empty()) return std::nullopt;
  const auto after = std::find_if(segments.begin(), segments.end(), [&](const Segment& s) { return t < s.end_s; });
  if (after == segments.end()) return segments.size() - 1;
  const auto i = static_cast<std::size_t>(after - segments.begin());
  // within a pause the nearer neighbour counts
  if (i > 0 && t < after->start_s && t - segments[i - 1].end_s < after->start_s - t) return i - 1;
  return i;
}

} // namespace mw
