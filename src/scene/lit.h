#pragma once

#include "take/take.h"

#include <optional>

namespace mw {

/// The clash that is lit at a time of the take, with its fade.
struct Lit {
  std::size_t clash = 0;
  double opacity = 1;
};
/// Fades on in 150 ms, stays at least 350 ms, fades off in 250 ms, all of wall time (`slow` stretches the take). Clashes
/// of one articulator closer than 1 s stay lit through, so that no part goes off and on within a second.
std::optional<Lit> lit_clash(const Take& take, double t, double slow = 1);

} // namespace mw
