#include "take/posture.h"

#include "base/text.h"

namespace mw {

PostureShift to_shift(const Posture& posture) {
  PostureShift shift;
  const auto channels = pose_channels();
  for (std::size_t i = 0; i < channels.size(); ++i)
    if (const auto at = posture.find(std::string(channels[i].column)); at != posture.end())
      shift.by_channel[i] = parse_number(at->second.value).value_or(0);
  return shift;
}

} // namespace mw
