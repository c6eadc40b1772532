#include "score/movement.h"
#include "score/planning.h"

#include <algorithm>
#include <cmath>

namespace mw {
namespace {
constexpr TierChannel jaw_channels[] = {{&Pose::jaw_opening, &Target::jaw_weight, true},
                                        {&Pose::jaw_forward, &Target::jaw_weight, false}};
constexpr TierChannel lip_channels[] = {{&Pose::lip_opening, &Target::lips_weight, true},
                                        {&Pose::lip_protrusion, &Target::lips_weight, true},
                                        {&Pose::lip_rounding, &Target::lips_weight, false},
                                        {&Pose::lip_tuck, &Target::lips_weight, false}};
constexpr TierChannel tip_channels[] = {{&Pose::tip_x, &Target::tip_weight, true},
                                        {&Pose::tip_y, &Target::tip_weight, true},
                                        {&Pose::tip_curl, &Target::tip_weight, false}};
constexpr TierChannel blade_channels[] = {{&Pose::blade, &Target::tip_weight, true},
                                          {&Pose::sides, &Target::tip_weight, false},
                                          {&Pose::groove, &Target::tip_weight, false}};
constexpr TierChannel body_channels[] = {{&Pose::body_x, &Target::body_x_weight, true},
                                         {&Pose::body_y, &Target::body_y_weight, true},
                                         {&Pose::root, &Target::root_weight, false},
                                         {&Pose::epiglottis, &Target::root_weight, false},
                                         {&Pose::larynx, &Target::larynx_weight, false}};
// a chain ends where the next constriction is this far off (s), or after a vowel
constexpr double chain_gap_s = 0.3;
// a gesture that is not primary, between two constrictions of the tier closer than these (s): gives way if it is a
// closure's, else turns half way
constexpr double gives_way_s = 0.16, turns_s = 0.22;
// the tip takes over a row's target only if the row insists on it this much
constexpr double least_tip_weight = 0.7;
constexpr double back_release_s = 0.04; // a click's back closure outlives its front one (tract-model.md section 10)

double weight_of(Tier tier, const Unit& unit, const TierChannel& channel) {
  const Target& row = unit.target;
  const double w = row.*channel.weight;
  if (channel.weight == &Target::tip_weight && tier == Tier::tip && w < least_tip_weight) return 0;
  // the larynx of implosives and ejectives runs on its own clock (see make_larynx)
  if (channel.value == &Pose::larynx && has_larynx_move(unit)) return 0;
  return w;
}

bool is_primary(Tier tier, const Target& row) {
  switch (tier) {
  case Tier::jaw: return row.pose.tip_x < 1; // the tip between the teeth needs them apart
  case Tier::lips: return row.primary == Primary::lips || row.lips_weight >= 0.9;
  case Tier::tip:
  case Tier::blade: return row.primary == Primary::tip;
  case Tier::body: return row.primary == Primary::body || row.manner == "click";
  }
  return false;
}

std::optional<Draft> draft_of(const TierView& view, std::size_t index) {
  const Unit& u = view.units[index];
  if (u.vowel) return {};
  Draft d;
  d.unit = index;
  double most = 0;
  for (std::size_t c = 0; c < view.channels.size(); ++c) {
    d.weight[c] = weight_of(view.tier, u, view.channels[c]);
    d.target[c] = u.target.pose.*view.channels[c].value;
    most = std::max(most, d.weight[c]);
  }
  if (most <= 0) return {};
  d.primary = is_primary(view.tier, u.target);
  // a tier that does not make the constriction has the middle of the segment
  double c0 = d.primary ? u.effective_from : std::max(u.effective_from, 0.3);
  const double c1 = d.primary ? u.effective_to : std::min(u.effective_to, 0.65);
  c0 = std::min(c0, c1);
  const double lead = view.tier == Tier::body && !u.onset ? u.target.body_lead_s : 0.0; // dark l: body before tip
  d.effective_from_s = u.start_s + c0 * u.length() - lead;
  d.effective_to_s = u.start_s + c1 * u.length() - 0.5 * lead;
  if (view.tier == Tier::body && u.target.manner == "click") d.effective_to_s += back_release_s;
  if (view.tier == Tier::body && follows_the_palate(u.target)) d.curve = &dorsal_curve(view.anatomy, u.target);
  d.between_teeth = view.tier == Tier::tip && u.target.pose.tip_x < 1;
  return d;
}

bool vowel_between(const std::vector<Unit>& units, const Draft& p, const Draft& q) {
  for (std::size_t i = p.unit + 1; i < q.unit; ++i)
    if (units[i].vowel) return true;
  return false;
}

/// Whether this row holds the passage of its own tier shut.
bool shuts(const TierView& view, const Draft& m) {
  return m.primary && (view.holds_closed(m) || view.row(m).manner.starts_with("lateral"));
}

/// Two closures of one tier with an open sound of another tier between them (tip in "light fly", lips in "depth mate"):
/// held through, they would shut the mouth in the open sound.
bool opens_between(const TierView& view, const Draft& p, const Draft& q) {
  if (view.tier == Tier::jaw || !shuts(view, p) || !shuts(view, q)) return false;
  for (std::size_t i = p.unit + 1; i < q.unit; ++i) {
    const auto& manner = view.units[i].target.manner;
    if (manner == "fricative" || manner == "approximant") return true;
  }
  return false;
}

std::vector<DraftChain> collect(const TierView& view) {
  constexpr std::size_t usual_chain = 3; // moves
  std::vector<DraftChain> chains;
  chains.reserve(view.units.size() / 2);
  for (std::size_t i = 0; i < view.units.size(); ++i) {
    const auto draft = draft_of(view, i);
    if (!draft) continue;
    const Draft* p = chains.empty() ? nullptr : &chains.back().back();
    const bool joins = p != nullptr && draft->effective_from_s - p->effective_to_s < chain_gap_s &&
                       !vowel_between(view.units, *p, *draft) && !opens_between(view, *p, *draft);
    if (!joins) chains.emplace_back().reserve(usual_chain);
    chains.back().push_back(*draft);
  }
  return chains;
}

bool is_squeezed(const DraftChain& chain, std::size_t i, double limit_s) {
  if (i == 0 || i + 1 >= chain.size() || chain[i].primary) return false;
  const Draft &p = chain[i - 1], &n = chain[i + 1];
  return p.primary && n.primary && n.effective_from_s - p.effective_to_s < limit_s;
}

/// A weak gesture between two constrictions of the tier gives way or turns half way.
void settle_squeezed(const TierView& view, DraftChain& chain) {
  const auto gives_way = [&](std::size_t i) { return is_squeezed(chain, i, gives_way_s) && view.holds_closed(chain[i]); };
  bool all_stay = true;
  for (std::size_t i = 0; i < chain.size() && all_stay; ++i) all_stay = !gives_way(i);
  if (!all_stay) {
    DraftChain kept;
    for (std::size_t i = 0; i < chain.size(); ++i)
      if (!gives_way(i)) kept.push_back(chain[i]);
    chain = std::move(kept);
  }
  for (std::size_t i = 0; i < chain.size(); ++i)
    if (is_squeezed(chain, i, turns_s))
      chain[i].turn_s = 0.5 * (chain[i - 1].effective_to_s + chain[i + 1].effective_from_s);
}

/// Ramps 0 (into the chain), 1.. (hand-overs), n (out of it), written into the moves.
void set_ramps(const TierView& view, DraftChain& chain) {
  Ramp last{chain.front().hold_from_s - chain.front().closing_s, chain.front().hold_from_s};
  chain.front().in = last;
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    Draft &p = chain[i], &q = chain[i + 1];
    last = hand_over(view, p, q, last);
    q.hold_from_s = last.end;
    q.hold_to_s = std::max(q.hold_to_s, q.hold_from_s - q.gap_s);
    p.out = q.in = last;
  }
  // out of a squeezed move not before the way into it has begun, nor finished before it has
  const double start = std::max(chain.back().hold_to_s, last.start);
  chain.back().out = {start, std::max(start + chain.back().opening_s, last.end)};
}
} // namespace

std::span<const TierChannel> channels_of(Tier tier) {
  switch (tier) {
  case Tier::jaw: return jaw_channels;
  case Tier::lips: return lip_channels;
  case Tier::tip: return tip_channels;
  case Tier::blade: return blade_channels;
  case Tier::body: return body_channels;
  }
  return {};
}

bool TierView::holds_closed(const Move& m) const { return is_closure(units[m.unit]); }

std::vector<Chain> make_chains(Tier tier, const std::vector<Unit>& units, const Base& base, const Anatomy& anatomy) {
  const TierView view{tier, channels_of(tier), units, base, anatomy};
  auto drafts = collect(view);
  std::vector<Chain> chains;
  chains.reserve(drafts.size());
  for (std::size_t k = 0; k < drafts.size(); ++k) {
    settle_squeezed(view, drafts[k]);
    set_windows(view, drafts[k], k > 0 ? &drafts[k - 1].back() : nullptr,
                k + 1 < drafts.size() ? &drafts[k + 1].front() : nullptr);
    set_ramps(view, drafts[k]);
    chains.push_back({{drafts[k].begin(), drafts[k].end()}});
  }
  return chains;
}

} // namespace mw
