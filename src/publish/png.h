#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace mw {

/// PNG bytes of RGBA rows (8 bits, straight alpha, from the top); without `alpha` three channels are stored. Filter none
/// and level 1: fastest and smallest for flat colour (measured before the project began, see DEVELOPERS). Deterministic.
std::string encode_png(std::span<const std::uint8_t> rgba, int width, int height, bool alpha);

} // namespace mw
