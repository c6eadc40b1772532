#include "tract/work.h"

#include "anatomy/monotone.h"

#include <algorithm>
#include <cmath>
#include <numbers>

// One build of the tongue: a tapered sheet round five discs, its folds laid smooth, pushed out of the walls.
namespace mw {
namespace {
constexpr double dip_before_body = 35, dip_length = 35; // mm of arc (adult male): where bunched r is hollow

double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
double norm(Vec2 v) { return std::sqrt(v.x * v.x + v.y * v.y); }

template <typename T> void smooth_values(std::span<T> v, int passes, double w) {
  for (int pass = 0; pass < passes; ++pass) {
    T before = v[0];
    for (std::size_t i = 1; i + 1 < v.size(); ++i) {
      const T own = v[i];
      v[i] = w * before + (1 - 2 * w) * own + w * v[i + 1];
      before = own;
    }
  }
}

struct Nodes {
  std::array<Vec2, 5> at{};
  std::array<double, 5> radius{}, t{};
  std::array<double, 4> h{};
};

Nodes place_nodes(const TongueTask& task, double shift, double root, double drop, Vec2 hyoid_shift) {
  const Anatomy& a = *task.anatomy;
  const Vec2 base = a.tongue_base + hyoid_shift;
  double blade = std::min(task.blade_radius + 0.4 * drop, a.tip_radius + 0.82 * task.tip_reach);
  blade = std::max(blade, task.body_radius - 0.85 * task.body_blade);
  Nodes nodes;
  nodes.at = {base, 0.5 * (task.body + base) + Vec2(shift + root, 1.0), task.body, task.blade, task.tip};
  nodes.radius = {a.base_radius, std::min(a.root_radius, task.body_radius), task.body_radius, blade, a.tip_radius};
  for (std::size_t i = 0; i < 4; ++i) {
    const double d = norm(nodes.at[i + 1] - nodes.at[i]);
    nodes.h[i] = std::sqrt(d * std::sqrt(d)); // d^0.75
    nodes.t[i + 1] = nodes.t[i] + nodes.h[i];
  }
  return nodes;
}

// Slopes of the C2 cubic through the discs: free at the base, along the tip's direction at the tip.
std::array<Vec2, 5> centre_slopes(const Nodes& nodes, Vec2 end_slope) {
  const auto& h = nodes.h;
  const auto& p = nodes.at;
  std::array<double, 5> diagonal{2, 0, 0, 0, 1}, upper{1, 0, 0, 0, 0};
  std::array<Vec2, 5> m{};
  m[0] = 3.0 * (p[1] - p[0]) / h[0];
  for (std::size_t i = 1; i < 4; ++i) {
    diagonal[i] = 2 * (h[i - 1] + h[i]);
    upper[i] = h[i - 1];
    m[i] = 3.0 * ((p[i] - p[i - 1]) * (h[i] / h[i - 1]) + (p[i + 1] - p[i]) * (h[i - 1] / h[i]));
    const double w = h[i] / diagonal[i - 1];
    diagonal[i] -= w * upper[i - 1];
    m[i] -= w * m[i - 1];
  }
  m[4] = end_slope;
  for (std::size_t i = 4; i-- > 0;) m[i] = (m[i] - upper[i] * m[i + 1]) / diagonal[i];
  return m;
}

std::array<double, 5> radius_slopes(const Nodes& nodes) {
  const auto& h = nodes.h;
  std::array<double, 4> d{};
  for (std::size_t i = 0; i < 4; ++i) d[i] = (nodes.radius[i + 1] - nodes.radius[i]) / h[i];
  std::array<double, 5> m{};
  for (std::size_t i = 1; i < 4; ++i) m[i] = monotone_inner_slope(h[i - 1], h[i], d[i - 1], d[i]);
  m[0] = monotone_end_slope(h[0], h[1], d[0], d[1]);
  m[4] = monotone_end_slope(h[3], h[2], d[3], d[2]);
  return m;
}

void sample_discs(const TongueTask& task, const Nodes& nodes, TongueBuild& b) {
  const auto n = static_cast<std::size_t>(b.sampling.back);
  const auto slope = centre_slopes(nodes, task.tip_direction * (task.tip_reach / nodes.h[3]));
  const auto radius_slope = radius_slopes(nodes);
  std::size_t k = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double t = nodes.t[4] * static_cast<double>(i) / static_cast<double>(n - 1);
    while (k < 3 && t > nodes.t[k + 1]) ++k;
    const Hermite w = hermite((t - nodes.t[k]) / nodes.h[k], nodes.h[k]);
    b.centre[i] = nodes.at[k] * w.p0 + slope[k] * w.m0 + nodes.at[k + 1] * w.p1 + slope[k + 1] * w.m1;
    b.radius[i] = nodes.radius[k] * w.p0 + radius_slope[k] * w.m0 + nodes.radius[k + 1] * w.p1 + radius_slope[k + 1] * w.m1;
  }
  // no disc swallows the next one towards the tip
  for (std::size_t i = n - 1; i-- > 0;)
    b.radius[i] = std::min(b.radius[i], b.radius[i + 1] + 0.88 * norm(b.centre[i + 1] - b.centre[i]));
  // one pass of a third at three times the spacing diffuses as much as twelve of a quarter
  const bool fine = b.sampling.stride == 1;
  smooth_values(std::span(b.centre).first(n), fine ? 12 : 1, fine ? 0.25 : 1.0 / 3.0);
  smooth_values(std::span(b.radius).first(n), fine ? 12 : 1, fine ? 0.25 : 1.0 / 3.0);
}

// Envelope of the discs: back and under side.
void set_envelope(TongueBuild& b) {
  const auto n = static_cast<std::size_t>(b.sampling.back);
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t low = i > 0 ? i - 1 : 0, high = std::min(i + 1, n - 1);
    const double span = static_cast<double>(high - low);
    const Vec2 d = (b.centre[high] - b.centre[low]) / span;
    const double step = norm(d);
    const Vec2 t = d / step, n_right(t.y, -t.x);
    const double slope = std::clamp((b.radius[high] - b.radius[low]) / span / step, -0.9, 0.9);
    const double side = std::sqrt(1 - slope * slope);
    b.back[i] = b.centre[i] + b.radius[i] * (n_right * side - t * slope);
    b.ventral[i] = b.centre[i] - b.radius[i] * (n_right * side + t * slope);
  }
}

double arc_at_body(const TongueBuild& b, const Nodes& nodes) {
  const double at = nodes.t[2] / nodes.t[4] * static_cast<double>(b.sampling.back - 1);
  const auto whole = static_cast<std::size_t>(at);
  double arc = 0;
  for (std::size_t i = 1; i <= whole; ++i) arc += norm(b.back[i] - b.back[i - 1]);
  return arc + (at - static_cast<double>(whole)) * norm(b.back[whole + 1] - b.back[whole]);
}

// Deepest lie of a back sample inside another disc; 0 outside all.
double depth_inside(const TongueBuild& b, Vec2 q, std::size_t first, std::size_t last) {
  double depth = 0;
  for (std::size_t j = first; j < last; ++j) {
    const Vec2 e = q - b.centre[j];
    const double d2 = dot(e, e);
    if (d2 < b.radius[j] * b.radius[j]) depth = std::max(depth, b.radius[j] - std::sqrt(d2));
  }
  return depth;
}

// Lays the samples [first, last] of the back on a smooth bridge, as far as the fold is deep.
void bridge(std::span<Vec2> back, int first, int last, double depth, int stride) {
  const int n = static_cast<int>(back.size());
  const int reach = std::clamp(static_cast<int>(std::nearbyint((6 + 4 * depth) / stride)), 6 / stride, 16 / stride);
  const int a = std::max(first - reach, 32 / stride), e = std::min(last + reach, n - (stride == 1 ? 5 : 2)), d = 3 / stride;
  const auto at = [&](int i) -> Vec2& { return back[static_cast<std::size_t>(i)]; };
  const auto unit = [](Vec2 v) { return v / (norm(v) + 1e-9); };
  const Vec2 from = at(a), to = at(e);
  const Vec2 leave = unit(from - at(a - d)), arrive = unit(at(std::min(e + d, n - 1)) - to);
  const double chord = norm(to - from), share = smooth_step((depth - 0.1) / 0.5);
  for (int i = a; i <= e; ++i) {
    const Hermite w = hermite(static_cast<double>(i - a) / (e - a), chord);
    at(i) = at(i) * (1 - share) + share * (from * w.p0 + leave * w.m0 + to * w.p1 + arrive * w.m1);
  }
}

// A tip curled up makes a hollow tighter than the discs: back samples inside another disc are bridged.
void unfold(TongueBuild& b) {
  const int n = b.sampling.back, f = b.sampling.stride;
  const auto at = [](int i) { return static_cast<std::size_t>(i); };
  // only where the back hardly advances, or runs backwards, can a sample lie inside another disc
  int slow_first = n, slow_last = 0;
  for (int i = 1; i < n - 1; ++i) {
    const Vec2 step = b.centre[at(i + 1)] - b.centre[at(i)];
    if (dot(b.back[at(i + 1)] - b.back[at(i)], step) >= 0.15 * dot(step, step)) continue;
    slow_first = std::min(slow_first, i);
    slow_last = i;
  }
  if (slow_first == n) return;
  const int low = slow_first - 20 / f, high = slow_last + 20 / f;
  const auto disc_first = at(std::max(0, low - 20 / f)), disc_last = at(std::min(n, high + 20 / f));
  int first = -1, last = -1;
  double depth = 0;
  for (int i = std::max(30 / f, low); i < std::min(n - (f == 1 ? 4 : 2), high + 1); ++i) {
    const double d = depth_inside(b, b.back[at(i)], disc_first, disc_last);
    if (d > 0.1) {
      if (first < 0) first = i;
      last = i;
    }
    if (first >= 0) depth = std::max(depth, d);
  }
  if (first >= 0) bridge(std::span(b.back).first(at(n)), first, last, depth, f);
}

// Equal arc steps along a monotone cubic through the samples.
void space_evenly(TongueBuild& b) {
  constexpr std::size_t n = 121;
  std::array<double, n> s{}, h{};
  std::array<Vec2, n> m{};
  const auto& q = b.back;
  for (std::size_t i = 1; i < n; ++i) {
    h[i - 1] = std::max(norm(q[i] - q[i - 1]), 1e-4);
    s[i] = s[i - 1] + h[i - 1];
  }
  const auto chord = [&](std::size_t i) { return (q[i + 1] - q[i]) / h[i]; };
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const Vec2 a = chord(i - 1), c = chord(i);
    m[i] = {monotone_inner_slope(h[i - 1], h[i], a.x, c.x), monotone_inner_slope(h[i - 1], h[i], a.y, c.y)};
  }
  const Vec2 a = chord(0), c = chord(1), y = chord(n - 2), z = chord(n - 3);
  m[0] = {monotone_end_slope(h[0], h[1], a.x, c.x), monotone_end_slope(h[0], h[1], a.y, c.y)};
  m[n - 1] = {monotone_end_slope(h[n - 2], h[n - 3], y.x, z.x), monotone_end_slope(h[n - 2], h[n - 3], y.y, z.y)};
  std::size_t k = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double u = s[n - 1] * static_cast<double>(i) / (n - 1);
    while (k < n - 2 && u > s[k + 1]) ++k;
    const Hermite w = hermite(std::clamp((u - s[k]) / h[k], 0.0, 1.0), h[k]);
    b.scratch[i] = q[k] * w.p0 + m[k] * w.m0 + q[k + 1] * w.p1 + m[k + 1] * w.m1;
  }
  b.back = b.scratch;
}

// Extra smoothing where the back bends tightly inwards: the crotch behind a curled tip.
void soften(TongueBuild& b) {
  const auto n = static_cast<std::size_t>(b.sampling.back);
  bool tight = false;
  b.weight.fill(0);
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const Vec2 u = b.back[i] - b.back[i - 1], v = b.back[i + 1] - b.back[i];
    const double ahead = norm(v);
    // concave turn (right turn: the tongue lies on the left), degrees per mm
    const double turn = std::max(-cross(u, v) / (norm(u) * ahead), 0.0) * (180 / std::numbers::pi) / ahead;
    b.weight[i] = std::clamp((turn - 7.0) / 14.0, 0.0, 1.0);
    tight = tight || b.weight[i] > 0;
  }
  if (!tight) return;
  smooth_values(std::span(b.weight).first(n), 10, 0.25);
  b.scratch = b.back;
  smooth_values(std::span(b.scratch).first(n), 24, 0.25);
  for (std::size_t i = 0; i + 5 < n; ++i)
    b.back[i] += std::clamp(2.5 * b.weight[i], 0.0, 1.0) * (b.scratch[i] - b.back[i]);
}

void draw_dip(const TongueTask& task, TongueBuild& b) {
  const auto n = static_cast<std::size_t>(b.sampling.back);
  const double k = task.anatomy->tongue_scale;
  b.scratch = b.back;
  const std::span<const Vec2> before(b.scratch.data(), n);
  double arc = 0;
  for (std::size_t i = 0; i < n; ++i) {
    if (i > 0) arc += norm(before[i] - before[i - 1]);
    const double q = std::clamp((arc - (b.body_arc - dip_before_body * k)) / (dip_length * k), 0.0, 1.0);
    const double s = std::sin(std::numbers::pi * q);
    b.back[i] -= right_normal_at(before, i) * (task.dip * s * s);
  }
}

// Round tip: from the last back direction through the front to the last under-side direction.
void set_cap(TongueBuild& b) {
  const auto last = static_cast<std::size_t>(b.sampling.back - 1);
  const Vec2 centre = b.centre[last], v0 = b.back[last] - centre, v1 = b.ventral[last] - centre;
  double a0 = std::atan2(v0.y, v0.x), a1 = std::atan2(v1.y, v1.x);
  if (a1 < a0) a1 += 2 * std::numbers::pi;
  const double step = (a1 - a0) / (b.sampling.cap + 1), c = std::cos(step), s = std::sin(step);
  Vec2 d(std::cos(a0), std::sin(a0));
  for (std::size_t i = 0; i < static_cast<std::size_t>(b.sampling.cap); ++i) {
    d = {d.x * c - d.y * s, d.x * s + d.y * c};
    b.cap[i] = centre + d * b.radius[last];
  }
}

// The free part of the under side: the envelope, over an arc that grows as the tip rises.
void set_free_underside(const TongueTask& task, TongueBuild& b) {
  const double keep = (2.2 + 4.8 * smooth_step(task.raised * 1.5)) * task.anatomy->tongue_scale;
  auto j = static_cast<std::size_t>(b.sampling.back - 1);
  double passed = 0, step = norm(b.ventral[j] - b.ventral[j - 1]);
  for (int i = 0; i < b.sampling.free; ++i) {
    const double arc = keep * i / (b.sampling.free - 1);
    while (j > 1 && arc > passed + step) {
      passed += step;
      --j;
      step = norm(b.ventral[j] - b.ventral[j - 1]);
    }
    const double share = std::min((arc - passed) / step, 1.0);
    b.under[static_cast<std::size_t>(i)] = b.ventral[j] * (1 - share) + b.ventral[j - 1] * share;
  }
}
} // namespace

void build_tongue(const TongueTask& task, double shift, double root, double drop, const Sampling& sampling,
                  TongueBuild& b) {
  const Anatomy& a = *task.anatomy;
  const Pose& pose = task.pose;
  b.sampling = sampling;
  const auto n = static_cast<std::size_t>(sampling.back);
  // the hyoid follows root, body and larynx
  const Vec2 hyoid_shift(0.38 * (shift + pose.root) + 0.10 * (pose.body_x - a.body_neutral.x),
                         0.5 * pose.larynx + 0.28 * (pose.body_y - a.body_neutral.y) - drop);
  b.hyoid = a.hyoid_rest + hyoid_shift;
  const Nodes nodes = place_nodes(task, shift, root, drop, hyoid_shift);
  sample_discs(task, nodes, b);
  set_envelope(b);
  if (task.dip > 0) b.body_arc = arc_at_body(b, nodes);
  unfold(b);
  if (sampling.stride == 1) {
    space_evenly(b);
    smooth_values(std::span(b.back).first(n), 3, 0.25);
    soften(b);
  }
  if (task.dip > 0) draw_dip(task, b);
  set_cap(b);
  set_free_underside(task, b);
  push_from_walls(task, std::span(b.back).first(n));
  push_from_walls(task, std::span(b.cap).first(static_cast<std::size_t>(sampling.cap)));
  push_from_walls(task, std::span(b.under).first(static_cast<std::size_t>(sampling.free)));
  close_underside(task, b);
  if (sampling.stride == 1) {
    uncross(b);
    rest_on_teeth(task, b);
  }
  b.area = outline_area(task, b);
}

} // namespace mw
