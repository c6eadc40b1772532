#pragma once

#include "acoustics/formants.h"
#include "take/take.h"
#include "tract/outline.h"

#include <nlohmann/json.hpp>

namespace mw::cli {

using Json = nlohmann::ordered_json;

/// A number as JSON, rounded to `decimals`; never NaN.
Json number(double value, int decimals = 4);
/// Text with LF at its end.
std::string json_text(const Json& value, int indent = 1);

/// Kind, text and, where it has one, the place in the phrase.
Json note_json(const Note& note);

/// contract.md section 3.
Json explain_json(const Take& take);

/// The pose columns of `motion`, without time.
Json pose_json(const Anatomy& anatomy, const Pose& pose);
Json points_json(const Polyline& line);

} // namespace mw::cli
