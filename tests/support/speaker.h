#pragma once

#include "anatomy/anatomy.h"

namespace mw::testing {
inline std::shared_ptr<const Anatomy> speaker(const std::string& id = "adult-male") {
  const auto anatomy = read_anatomy(id);
  MW_EXPECT(anatomy.has_value());
  return *anatomy;
}
} // namespace mw::testing
