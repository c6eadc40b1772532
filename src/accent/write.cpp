#include "accent/accent.h"

#include <array>

namespace mw {
namespace {

/// A TOML basic string.
std::string toml_text(std::string_view text) {
  std::string out = "\"";
  for (const char sign : text) {
    const auto byte = static_cast<unsigned char>(sign);
    if (sign == '"' || sign == '\\')
      out += std::string("\\") + sign;
    else if (sign == '\n')
      out += "\\n";
    else if (sign == '\t')
      out += "\\t";
    else if (byte < 0x20 || byte == 0x7f) {
      constexpr std::string_view digits = "0123456789ABCDEF";
      out += std::string("\\u00") + digits[byte >> 4] + digits[byte & 15];
    } else
      out += sign;
  }
  return out + "\"";
}

void line(std::string& out, std::string_view key, const std::string& value) {
  out += std::string(key) + " = " + value + "\n";
}

void origin(std::string& out, const std::string& source, const std::string& status, const std::string& note) {
  line(out, "source", toml_text(source));
  line(out, "status", toml_text(status));
  if (!note.empty()) line(out, "note", toml_text(note));
  out += "\n";
}

void write_set(std::string& out, const Accent& accent, std::size_t index) {
  const std::string keyword(to_keyword(static_cast<LexicalSet>(index)));
  const SetValue& value = accent.sets[index];
  out += "[sets." + keyword + "]\n";
  line(out, "ipa", toml_text(value.ipa));
  origin(out, value.source, value.status, value.note);
  for (const auto& row : accent.contexts[index]) {
    out += "[[sets." + keyword + ".contexts]]\n";
    line(out, "context", toml_text(row.context));
    line(out, "ipa", toml_text(row.value.ipa));
    origin(out, row.value.source, row.value.status, row.value.note);
  }
}

} // namespace

std::string write_accent(const Accent& accent) {
  std::string out;
  line(out, "id", toml_text(accent.id));
  line(out, "name", toml_text(accent.name));
  line(out, "status", toml_text(accent.status));
  if (!accent.based_on.empty()) line(out, "based_on", toml_text(accent.based_on));
  out += "\n";
  for (std::size_t i = 0; i < lexical_set_count; ++i) write_set(out, accent, i);
  for (const auto& [name, rule] : accent.rules) {
    out += "[rules." + name + "]\n";
    line(out, "value", toml_text(rule.value));
    origin(out, rule.source, rule.status, rule.note);
  }
  for (const auto& [name, shift] : accent.posture) {
    out += "[posture." + name + "]\n";
    line(out, "shift", shift.value);
    origin(out, shift.source, shift.status, shift.note);
  }
  while (out.size() > 1 && out[out.size() - 2] == '\n') out.pop_back();
  return out;
}

} // namespace mw
