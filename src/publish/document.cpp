#include "publish/document.h"

#include "base/assets.h"
#include "base/text.h"
#include "paint/cairo/paint.h"
#include "publish/picture.h"
#include "text/shaper.h"

#include <algorithm>

namespace mw {
namespace {
// Pages below each other, each on its own ground.
Scene stacked(std::span<const Scene> pages) {
  Scene all;
  for (const Scene& page : pages) {
    Group group;
    group.mark = {"page", std::to_string(all.marks.size() + 1)};
    group.ty = all.height;
    group.marks.push_back(Fill{{"ground", ""}, rounded_rectangle({0, 0}, {page.width, page.height}, 0), page.ground});
    group.marks.insert(group.marks.end(), page.marks.begin(), page.marks.end());
    all.ground = page.ground;
    all.width = std::max(all.width, page.width);
    all.height += page.height;
    all.marks.push_back(std::move(group));
  }
  return all;
}
} // namespace

Result<Done> write_document(std::span<const Scene> pages, const std::filesystem::path& file, const std::string& title,
                            bool overwrite) {
  const std::string ending = to_lower(file.extension().string());
  if (ending != ".svg" && ending != ".pdf")
    return Problem{ProblemKind::usage, "the ending of the file tells its kind, and this one is not known", file.string(),
                   "try .pdf or .svg"};
  if (ending == ".svg") return write_picture(stacked(pages), file, title, false, overwrite);
  if (const auto fonts = check_fonts(); !fonts) return fonts.error();
  const auto pdf = pdf_of(pages, title);
  if (!pdf) return pdf.error();
  return write_file(file, *pdf, overwrite);
}

} // namespace mw
