#include "publish/picture.h"

#include "base/assets.h"
#include "base/text.h"
#include "paint/cairo/paint.h"
#include "paint/svg/svg.h"
#include "publish/png.h"
#include "text/shaper.h"

#include <cmath>

namespace mw {

Result<std::string> encode_picture(const Scene& scene, const std::filesystem::path& file, const std::string& title,
                                   bool transparent) {
  const std::string ending = to_lower(file.extension().string());
  if (ending != ".png" && ending != ".svg" && ending != ".pdf")
    return Problem{ProblemKind::usage, "the ending of the file tells its kind, and this one is not known", file.string(),
                   "try .png, .svg or .pdf"};
  if (const auto fonts = check_fonts(); !fonts) return fonts.error();
  if (ending == ".svg") return svg_of(scene, title);
  if (ending == ".pdf") return pdf_of({&scene, 1}, title);
  const Pixels pixels = render(scene, static_cast<int>(std::lround(scene.width)), static_cast<int>(std::lround(scene.height)), transparent);
  return encode_png(pixels.rgba, pixels.width, pixels.height, transparent);
}

Result<Done> write_picture(const Scene& scene, const std::filesystem::path& file, const std::string& title, bool transparent,
                           bool overwrite) {
  const auto bytes = encode_picture(scene, file, title, transparent);
  if (!bytes) return bytes.error();
  return write_file(file, *bytes, overwrite);
}

} // namespace mw
