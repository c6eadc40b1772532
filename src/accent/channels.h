#pragma once

#include <span>
#include <string_view>

namespace mw {

/// The articulator values that a posture may shift: the columns of `motion` (contract section 4), with the largest
/// shift in the unit of the name that still is a setting and not another sound (ours).
struct PostureChannel {
  std::string_view name;
  double most;
};
std::span<const PostureChannel> posture_channels();
const PostureChannel* find_posture_channel(std::string_view name);

} // namespace mw
