#include "motion/baked.h"
#include "motion/motion.h"

#include <algorithm>

namespace mw {
namespace {
template <std::size_t width>
BaseTrack<width> base_track(const Base& base, const std::vector<Ramp>& ramps,
                            const std::array<double Pose::*, width>& channels) {
  BaseTrack<width> track;
  track.keys.reserve(base.keys.size());
  for (const Pose& key : base.keys) {
    auto& values = track.keys.emplace_back();
    for (std::size_t c = 0; c < width; ++c) values[c] = key.*channels[c];
  }
  track.ramps = ramps;
  track.cells = make_timeline(ramps);
  const std::size_t cells = track.cells.edges.size() + 1, n = ramps.size();
  track.from.assign(cells, 0);
  track.to.assign(cells, 0);
  // cell k reaches from edge k - 1 to edge k
  std::size_t begun = 0, done = 0;
  for (std::size_t k = 1; k < cells; ++k) {
    const double low = track.cells.edges[k - 1];
    // neighbours may begin out of order, never by a second
    for (std::size_t i = begun; i < n && ramps[i].start <= low + 1; ++i)
      if (ramps[i].start <= low) begun = i + 1;
    while (done < n && ramps[done].end <= low) ++done;
    track.from[k] = static_cast<std::uint32_t>(done);
    track.to[k] = static_cast<std::uint32_t>(std::max(begun, done));
  }
  return track;
}

/// A ramp to or from a tip between the teeth: entering, the tip goes down in the first 70 % and forward in the last 70 %;
/// leaving, the reverse. It passes under the upper incisors.
Ramp round_the_teeth(Ramp r, bool to_teeth, bool from_teeth, std::size_t axis) {
  if (to_teeth == from_teeth) return r;
  const double part = 0.3 * (r.end - r.start);
  return (axis == 1) == to_teeth ? Ramp{r.start, r.end - part} : Ramp{r.start + part, r.end};
}

BakedMove baked_move(const Chain& chain, std::size_t i, std::size_t chain_index) {
  const Move& m = chain.moves[i];
  const bool before = i > 0 && chain.moves[i - 1].between_teeth;
  const bool after = i + 1 < chain.moves.size() && chain.moves[i + 1].between_teeth;
  BakedMove b;
  b.chain = chain_index;
  b.weight = m.weight;
  for (std::size_t c = 0; c < tier_width; ++c) b.pull[c] = m.weight[c] * m.target[c];
  b.curve = m.curve;
  for (std::size_t axis = 0; axis < 2; ++axis) {
    b.in[axis] = round_the_teeth(m.in, m.between_teeth, before, axis);
    b.out[axis] = round_the_teeth(m.out, after, m.between_teeth, axis);
  }
  return b;
}

TierTrack tier_track(const std::vector<Chain>& chains) {
  TierTrack track;
  std::size_t moves = 0;
  for (const Chain& chain : chains) moves += chain.moves.size();
  track.moves.reserve(moves);
  std::vector<Ramp> spans;
  spans.reserve(moves);
  for (std::size_t k = 0; k < chains.size(); ++k)
    for (std::size_t i = 0; i < chains[k].moves.size(); ++i) {
      const Move& m = chains[k].moves[i];
      track.moves.push_back(baked_move(chains[k], i, k));
      spans.push_back({std::min(m.in.start, m.out.start), std::max(m.in.end, m.out.end)});
    }
  track.timeline = make_timeline(spans);
  return track;
}

template <typename Item> Timeline timeline_of(const std::vector<Item>& items) {
  std::vector<Ramp> spans;
  spans.reserve(items.size());
  for (const auto& item : items) spans.push_back({item.in.start, std::max(item.in.end, item.out.end)});
  return make_timeline(spans);
}
ValveTrack valve_track(const std::vector<Valve>& valves) { return {valves, timeline_of(valves)}; }
} // namespace

std::size_t Timeline::cell(double t) const {
  return static_cast<std::size_t>(std::upper_bound(edges.begin(), edges.end(), t) - edges.begin());
}

std::span<const std::uint32_t> Timeline::live(double t) const {
  const std::size_t k = cell(t);
  return std::span(items).subspan(first[k], first[k + 1] - first[k]);
}

Timeline make_timeline(const std::vector<Ramp>& spans) {
  Timeline line;
  line.edges.reserve(2 * spans.size());
  for (const Ramp& s : spans) {
    line.edges.push_back(s.start);
    line.edges.push_back(s.end);
  }
  std::ranges::sort(line.edges);
  line.edges.erase(std::unique(line.edges.begin(), line.edges.end()), line.edges.end());
  std::vector<std::uint32_t> count(line.edges.size() + 1, 0);
  std::vector<std::pair<std::size_t, std::size_t>> cells; // of each span: first, and the one after its last
  cells.reserve(spans.size());
  for (const Ramp& s : spans) cells.emplace_back(line.cell(s.start), line.cell(s.end));
  for (auto [k, end] : cells)
    for (; k < end; ++k) ++count[k];
  line.first.assign(count.size() + 1, 0);
  for (std::size_t k = 0; k < count.size(); ++k) line.first[k + 1] = line.first[k] + count[k];
  line.items.resize(line.first.back());
  auto next = line.first;
  for (std::size_t i = 0; i < spans.size(); ++i)
    for (auto [k, end] = cells[i]; k < end; ++k) line.items[next[k]++] = static_cast<std::uint32_t>(i);
  return line;
}

Motion bake(const Score& score) {
  MW_EXPECT(score.plan != nullptr);
  const ScorePlan& plan = *score.plan;
  auto baked = std::make_shared<BakedMotion>();
  baked->anatomy = plan.anatomy;
  baked->base = base_track(plan.base, plan.base.ramps, base_channels);
  baked->lips = base_track(plan.base, plan.base.lip_ramps, lip_base_channels);
  for (const Tier tier : all_tiers) baked->tiers[index_of(tier)] = tier_track(plan.chains[index_of(tier)]);
  baked->velum = valve_track(plan.velum);
  baked->glottis = valve_track(plan.glottis);
  baked->larynx = valve_track(plan.larynx);
  baked->overlays = {plan.overlays, timeline_of(plan.overlays)};
  baked->rest_velum = plan.rest_velum;
  baked->rest_glottis = plan.rest_glottis;
  baked->duration_s = score.duration_s;
  return {std::move(baked), score.duration_s};
}

} // namespace mw
