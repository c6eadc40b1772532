#include "base/text.h"
#include "cli/commands.h"
#include "cli/run.h"
#include "tract/measure.h"

#include <cmath>

namespace mw::cli {
namespace {
std::string header(bool gaps) {
  std::string line = "time_s";
  for (const auto& channel : pose_channels()) line += "," + std::string(channel.column);
  if (gaps) line += ",tongue_gap_mm,tongue_gap_place,lip_gap_mm,nasal_port_mm";
  return line + "\n";
}

std::string gap_cells(Tracer& tracer, const Pose& pose) {
  const Outline& outline = tracer.trace(pose);
  const Narrowest tongue = tongue_gap(tracer.anatomy(), outline);
  return "," + to_text(tongue.gap_mm, 3) + "," + std::string(tongue.place) + "," + to_text(lip_gap(outline), 3) + "," +
         to_text(nasal_port(outline), 3);
}
} // namespace

int run_motion(const Options& options) {
  const auto take = take_of(options);
  if (!take) return tell(take.error());
  const Take& t = **take;
  Tracer tracer(t.anatomy);
  std::string out = header(options.gaps);
  // rows at k / fps from 0 to the end of the take; the small term keeps a last row that rounding would lose
  const auto rows = static_cast<long>(std::floor(t.duration_s * options.fps + 1e-9)) + 1;
  for (long k = 0; k < rows; ++k) {
    const double time = static_cast<double>(k) / options.fps;
    const Pose pose = pose_at(t.motion, time);
    out += to_text(time, 6);
    for (std::size_t i = 0; i < pose_channels().size(); ++i) out += "," + to_text(column_value(*t.anatomy, pose, i), 4);
    if (options.gaps) out += gap_cells(tracer, pose);
    out += "\n";
  }
  return print(out);
}

} // namespace mw::cli
