#pragma once

#include "base/result.h"
#include "phrase/pronounce.h"

#include <memory>

namespace mw {

/// The Pronouncer over the espeak-ng library. The library is started once in the process and lives as long as it; calls
/// from several threads wait for each other. Looked-up words are kept. Problem (missing): the library, its data or its
/// English voices are not there.
Result<std::shared_ptr<Pronouncer>> open_espeak();

} // namespace mw
