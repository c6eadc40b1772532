#pragma once

#include "accent/accent.h"

#include <memory>

namespace mw {

/// read_accent as a value to share. A shipped id is read once in the process; a path or a coach's
/// own accent is read anew on every call, since its file may have been edited. A failure is not kept.
Result<std::shared_ptr<const Accent>> read_shared_accent(const std::string& id_or_path);

} // namespace mw
