#include "accent/accent.h"

#include "accent/channels.h"
#include "accent/contexts.h"
#include "accent/rules.h"
#include "base/text.h"

#include <algorithm>
#include <cmath>

#include <toml++/toml.h>

namespace mw {
namespace {
constexpr std::size_t largest_text = 1u << 20;

/// Reads one file; the first thing that does not fit is kept and everything after it is skipped.
struct Reader {
  const std::string& file;
  std::optional<Problem> problem{};

  void fail(const toml::source_region& at, const std::string& what, const std::string& remedy) {
    if (problem) return;
    problem = Problem{ProblemKind::input, what, file + " line " + std::to_string(at.begin.line), remedy};
  }

  /// Every key of a table must be one of these.
  void only(const toml::table& table, std::initializer_list<std::string_view> keys) {
    for (const auto& [key, node] : table) {
      if (std::find(keys.begin(), keys.end(), key.str()) != keys.end()) continue;
      std::vector<std::string> known(keys.begin(), keys.end());
      fail(key.source(), "the key \"" + std::string(key.str()) + "\" is not known here", "use " + join(known, ", "));
    }
  }

  std::string text(const toml::table& table, std::string_view key, bool needed = true) {
    const toml::node* node = table.get(key);
    if (node == nullptr) {
      if (needed) fail(table.source(), "the key \"" + std::string(key) + "\" is missing", "add it");
      return {};
    }
    if (const auto* string = node->as_string()) return string->get();
    fail(node->source(), "\"" + std::string(key) + "\" is not a text", "put its value in quotation marks");
    return {};
  }

  const toml::table* table(const toml::node& node, const std::string& name) {
    if (const auto* inner = node.as_table()) return inner;
    fail(node.source(), "\"" + name + "\" is not a table", "write [" + name + "] and its keys below it");
    return nullptr;
  }
};

SetValue read_value(Reader& reader, const toml::table& table) {
  const std::string ipa = reader.text(table, "ipa");
  if (reader.problem) return {};
  auto value = parse_set_value(ipa);
  if (!value) {
    reader.fail(table.get("ipa")->source(), value.error().what + ": \"" + ipa + "\"", value.error().remedy);
    return {};
  }
  value->source = reader.text(table, "source");
  value->status = reader.text(table, "status");
  value->note = reader.text(table, "note", false);
  return *value;
}

void read_contexts(Reader& reader, const toml::node& node, std::vector<ContextValue>& contexts) {
  const auto* rows = node.as_array();
  if (rows == nullptr)
    return reader.fail(node.source(), "\"contexts\" is not a list",
                       "write [[sets.NAME.contexts]] and its keys below it");
  for (const auto& element : *rows) {
    const auto* row = reader.table(element, "contexts");
    if (row == nullptr) return;
    reader.only(*row, {"context", "ipa", "source", "status", "note"});
    const std::string context = reader.text(*row, "context");
    if (reader.problem) return;
    if (find_context(context) == nullptr) {
      std::vector<std::string> known;
      for (const auto& name : context_names()) known.emplace_back(name.name);
      return reader.fail(row->get("context")->source(), "the context \"" + context + "\" is not known",
                         "use one of: " + join(known, "; "));
    }
    contexts.push_back({context, read_value(reader, *row)});
  }
}

void read_sets(Reader& reader, const toml::table& sets, Accent& accent) {
  std::array<bool, lexical_set_count> seen{};
  for (const auto& [key, node] : sets) {
    const std::string keyword(key.str());
    const auto set = parse_keyword(keyword);
    if (!set)
      return reader.fail(key.source(), "\"" + keyword + "\" is not a lexical set",
                         "use Wells's 27 keywords, such as KIT or happY");
    const auto* entry = reader.table(node, "sets." + keyword);
    if (entry == nullptr) return;
    reader.only(*entry, {"ipa", "source", "status", "note", "contexts"});
    const auto index = static_cast<std::size_t>(*set);
    seen[index] = true;
    accent.sets[index] = read_value(reader, *entry);
    if (const toml::node* contexts = entry->get("contexts"); contexts != nullptr && !reader.problem)
      read_contexts(reader, *contexts, accent.contexts[index]);
    if (reader.problem) return;
  }
  for (std::size_t i = 0; i < seen.size(); ++i)
    if (!seen[i])
      reader.fail(sets.source(),
                  "the lexical set " + std::string(to_keyword(static_cast<LexicalSet>(i))) + " is missing",
                  "give all 27 sets a value");
}

void read_rules(Reader& reader, const toml::table& rules, Accent& accent) {
  for (const auto& [key, node] : rules) {
    const std::string name(key.str());
    const RuleName* rule = find_rule(name);
    if (rule == nullptr)
      return reader.fail(key.source(), "\"" + name + "\" is not a rule", "`accents GA` lists all rules");
    const auto* entry = reader.table(node, "rules." + name);
    if (entry == nullptr) return;
    reader.only(*entry, {"value", "source", "status", "note"});
    Sourced value{reader.text(*entry, "value"), reader.text(*entry, "source"), reader.text(*entry, "status"),
                  reader.text(*entry, "note", false)};
    if (reader.problem) return;
    if (!allows(*rule, value.value))
      return reader.fail(entry->get("value")->source(), "\"" + value.value + "\" is not a value of " + name,
                         "use one of " + replace_all(std::string(rule->values), "|", ", "));
    accent.rules[name] = std::move(value);
  }
}

void read_posture(Reader& reader, const toml::table& posture, Accent& accent) {
  for (const auto& [key, node] : posture) {
    const std::string name(key.str());
    const PostureChannel* channel = find_posture_channel(name);
    if (channel == nullptr)
      return reader.fail(key.source(), "\"" + name + "\" is not an articulator value",
                         "use a column of `motion`, such as jaw_opening_mm");
    const auto* entry = reader.table(node, "posture." + name);
    if (entry == nullptr) return;
    reader.only(*entry, {"shift", "source", "status", "note"});
    const toml::node* shift = entry->get("shift");
    const std::optional<double> number = shift == nullptr ? std::nullopt : shift->value<double>();
    if (!number)
      return reader.fail(shift ? shift->source() : entry->source(),
                         "\"shift\" of " + name + " is missing or not a number", "write shift = 0.5");
    if (!std::isfinite(*number) || std::abs(*number) > channel->most)
      return reader.fail(shift->source(), "the shift of " + name + " is out of range",
                         "stay within " + to_text(-channel->most) + " and " + to_text(channel->most));
    accent.posture[name] = {to_text(*number, 6), reader.text(*entry, "source"), reader.text(*entry, "status"),
                            reader.text(*entry, "note", false)};
  }
}

bool is_id(const std::string& id) {
  return !id.empty() && std::all_of(id.begin(), id.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

void read_all(Reader& reader, const toml::table& root, Accent& accent) {
  reader.only(root, {"id", "name", "status", "based_on", "sets", "rules", "posture"});
  accent.id = reader.text(root, "id");
  accent.name = reader.text(root, "name");
  accent.status = reader.text(root, "status");
  accent.based_on = reader.text(root, "based_on", false);
  if (reader.problem) return;
  if (!is_id(accent.id))
    return reader.fail(root.get("id")->source(), "\"" + accent.id + "\" is not an id", "use letters, digits, - and _");
  const toml::node* sets = root.get("sets");
  if (sets == nullptr)
    return reader.fail(root.source(), "the lexical sets are missing", "add [sets.KIT] and the others");
  if (const auto* table = reader.table(*sets, "sets")) read_sets(reader, *table, accent);
  if (const toml::node* rules = root.get("rules"))
    if (const auto* table = reader.table(*rules, "rules")) read_rules(reader, *table, accent);
  if (const toml::node* posture = root.get("posture"))
    if (const auto* table = reader.table(*posture, "posture")) read_posture(reader, *table, accent);
}

/// toml++ builds a tree by recursion and a text is bounded above, so only size and encoding need a look first.
std::optional<Problem> unreadable(std::string_view text, const std::string& file) {
  if (text.size() > largest_text)
    return Problem{ProblemKind::input, "the accent file is larger than 1 MB", file, "name a smaller file"};
  const auto signs = decode_utf8(text);
  if (signs) return std::nullopt;
  // the line is counted up to the bad byte: everything before it decodes
  const std::size_t offset = signs.error().span ? signs.error().span->start : 0;
  std::size_t line = 1, points = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0) != 0x80 && points++ == offset) break;
    if (c == '\n') ++line;
  }
  return Problem{ProblemKind::input, "the accent file is not valid UTF-8", file + " line " + std::to_string(line),
                 "save it as UTF-8"};
}

} // namespace

Result<Accent> parse_accent(std::string_view toml, const std::string& file_name) {
  if (const auto problem = unreadable(toml, file_name)) return *problem;
  toml::table root;
  // the packaged library reports by exception: it ends here
  try {
    root = toml::parse(toml, std::string_view(file_name));
  } catch (const toml::parse_error& error) {
    return Problem{ProblemKind::input, std::string(error.description()),
                   file_name + " line " + std::to_string(error.source().begin.line), "mend the line; the file is TOML"};
  }
  Reader reader{file_name};
  Accent accent;
  read_all(reader, root, accent);
  if (reader.problem) return *reader.problem;
  return accent;
}

} // namespace mw
