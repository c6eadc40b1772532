#pragma once

#include "accent/lexical_set.h"
#include "base/result.h"
#include "ipa/sound.h"

#include <array>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace mw {

/// A value with where it comes from (contract: accents ID --json).
struct Sourced {
  std::string value, source, status;
  std::string note{}; // what a person should know; kept by reading and writing
  bool operator==(const Sourced&) const = default;
};

/// How one lexical set sounds; glides have an end. Context rows change it ("before l", "before voiceless", ...).
struct SetValue {
  std::string ipa; // as written in the file
  Sound vowel;
  bool r_follows = false; // a coda r is said after it
  std::string source, status;
  std::string note{};
  bool operator==(const SetValue&) const = default;
};
struct ContextValue {
  std::string context;
  SetValue value;
  bool operator==(const ContextValue&) const = default;
};

/// Settings of the mouth at rest and as a bias of every gesture: pose channel name -> shift (units of the channel).
using Posture = std::map<std::string, Sourced>;

/// One accent: data over lexical sets and rules, read from assets/accents/<id>.toml or a coach's own file.
struct Accent {
  std::string id, name, status;
  std::array<SetValue, lexical_set_count> sets;
  std::array<std::vector<ContextValue>, lexical_set_count> contexts;
  std::map<std::string, Sourced, std::less<>> rules; // name -> one of named values
  Posture posture;
  std::string based_on{}; // id of the accent that a coach's own one began as; empty for others
  [[nodiscard]] const SetValue& of(LexicalSet set) const { return sets[static_cast<std::size_t>(set)]; }
  /// The chosen value of a rule, "" when the accent does not name it.
  [[nodiscard]] std::string_view rule(std::string_view name) const;
  bool operator==(const Accent&) const = default;
};

struct AccentName {
  std::string id, name, status;
};
/// Shipped accents, in the order of the list.
Result<std::vector<AccentName>> list_accents();
/// The vowel text of an accent file ("\u025b", "a\u026a", "\u0251\u0279"): one vowel or two, with marks, and a last
/// \u0279 for a coda r. Problem (input) names what does not fit.
Result<SetValue> parse_set_value(const std::string& ipa);
/// A shipped id, the id of a coach's own accent (own.h), or a path to an accent file. Problem: usage for an unknown id, input for a missing or broken file
/// (file, line, reason).
Result<Accent> read_accent(const std::string& id_or_path);
Result<Accent> parse_accent(std::string_view toml, const std::string& file_name);
/// TOML text that parse_accent reads back to an equal accent.
std::string write_accent(const Accent& accent);

} // namespace mw
