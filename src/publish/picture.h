#pragma once

#include "base/result.h"
#include "scene/scene.h"

#include <filesystem>
#include <string>

namespace mw {

/// The scene as bytes of the kind that the file's ending names: .png (scene size in pixels), .svg or .pdf. Problem (usage)
/// for another ending; (missing) when the program's font is not installed.
Result<std::string> encode_picture(const Scene& scene, const std::filesystem::path& file, const std::string& title,
                                   bool transparent);

/// encode_picture and a whole-or-nothing write.
Result<Done> write_picture(const Scene& scene, const std::filesystem::path& file, const std::string& title, bool transparent,
                           bool overwrite);

} // namespace mw
