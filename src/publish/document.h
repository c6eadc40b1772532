#pragma once

#include "base/result.h"
#include "scene/scene.h"

#include <filesystem>
#include <span>
#include <string>

namespace mw {

/// Pages as one file, by its ending: .pdf a page each; .svg one below the other. Problem (usage) for another ending,
/// (missing) when the program's font is not installed, (output) when it cannot be written.
Result<Done> write_document(std::span<const Scene> pages, const std::filesystem::path& file, const std::string& title,
                            bool overwrite);

} // namespace mw
