#pragma once

#include "base/result.h"

#include <optional>
#include <string>
#include <vector>

namespace mw {

/// One figure of the model beside a published one, as shown to people.
struct EvidenceRow {
  std::string what;           // "[i] F1, heed"
  std::string ours;           // with its unit
  std::string published;      // with its unit, or the rule it must meet
  std::string source;         // who and when; the status of what was read in brackets unless the data were at hand
  std::string difference;     // "inside", "+3.0 %"; may be empty
  std::optional<bool> pass{}; // none: told for comparison, not checked
};
/// A table computed when asked. `pass` holds when no checked row and no overall demand fails.
struct EvidenceTable {
  std::string name, title;
  std::vector<EvidenceRow> rows{};
  std::string summary{}; // one line
  bool pass = true;
};

/// Formants of the adult male's vowels against Peterson & Barney 1952 and Hillenbrand et al. 1995; third formants of r;
/// FACE and GOAT in running words at 20 and 80 % of their time; the other heads' vowels against the man's, scaled by length.
Result<EvidenceTable> formants_table();
/// IPA place and manner of every English consonant against where and how far the drawn mouth is narrowest.
Result<EvidenceTable> places_table();
/// The same for any speaker.
Result<EvidenceTable> places_table_of(const std::string& anatomy_id);
/// Area functions of the adult male's vowels against Story, Titze & Hoffman 1996 and Fant 1960 along the normalised
/// tract.
Result<EvidenceTable> areas_table();

} // namespace mw
