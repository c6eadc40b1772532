#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <vector>

namespace mw::fit {

/// Least value of `cost` near `start` by the simplex of Nelder & Mead 1965; `step` sizes the first simplex.
inline std::vector<double> least(const std::function<double(const std::vector<double>&)>& cost,
                                 const std::vector<double>& start, const std::vector<double>& step, int rounds) {
  const std::size_t n = start.size();
  std::vector<std::vector<double>> corner(n + 1, start);
  for (std::size_t i = 0; i < n; ++i) corner[i + 1][i] += step[i];
  std::vector<double> value(n + 1);
  for (std::size_t i = 0; i <= n; ++i) value[i] = cost(corner[i]);
  const auto mix = [&](const std::vector<double>& a, const std::vector<double>& b, double t) {
    std::vector<double> out(n);
    for (std::size_t i = 0; i < n; ++i) out[i] = a[i] + t * (b[i] - a[i]);
    return out;
  };
  std::vector<std::size_t> order(n + 1);
  for (int round = 0; round < rounds; ++round) {
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](auto a, auto b) { return value[a] < value[b]; });
    const std::size_t best = order.front(), worst = order.back(), second = order[n - 1];
    std::vector<double> middle(n, 0.0);
    for (const std::size_t i : order)
      if (i != worst)
        for (std::size_t j = 0; j < n; ++j) middle[j] += corner[i][j] / static_cast<double>(n);
    const auto take = [&](const std::vector<double>& at, double v) { corner[worst] = at, value[worst] = v; };
    const auto across = mix(middle, corner[worst], -1);
    const double v = cost(across);
    if (v < value[best]) {
      const auto far = mix(middle, corner[worst], -2);
      const double w = cost(far);
      w < v ? take(far, w) : take(across, v);
    } else if (v < value[second]) {
      take(across, v);
    } else {
      const auto in = mix(middle, corner[worst], v < value[worst] ? -0.5 : 0.5);
      const double w = cost(in);
      if (w < std::min(v, value[worst])) take(in, w);
      else
        for (std::size_t i = 0; i <= n; ++i)
          if (i != best) corner[i] = mix(corner[best], corner[i], 0.5), value[i] = cost(corner[i]);
    }
  }
  return corner[static_cast<std::size_t>(std::min_element(value.begin(), value.end()) - value.begin())];
}

} // namespace mw::fit
