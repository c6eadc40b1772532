#include "accent/own.h"
#include "accent/rules.h"
#include "base/assets.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/run.h"
#include "publish/picture.h"
#include "scene/accent_picture.h"

namespace mw::cli {
namespace {
Json sourced(const Sourced& v) {
  Json out{{"value", v.value}, {"source", v.source}, {"status", v.status}};
  if (!v.note.empty()) out["note"] = v.note;
  return out;
}

/// A rule with what it means and, where it changes no sound, why.
Json rule_json(const std::string& name, const Sourced& v) {
  Json out = sourced(v);
  const RuleName* rule = find_rule(name);
  out["meaning"] = rule->meaning, out["acts"] = rule->acts();
  if (!rule->acts()) out["reason"] = rule->told_only;
  return out;
}

Json set_json(const SetValue& v) {
  Json out{{"ipa", v.ipa}, {"source", v.source}, {"status", v.status}};
  if (v.r_follows) out["r_follows"] = true;
  return out;
}

Json accent_json(const Accent& a) {
  Json sets = Json::object(), rules = Json::object(), posture = Json::object();
  for (int i = 0; i < lexical_set_count; ++i) {
    const auto set = static_cast<LexicalSet>(i);
    Json entry = set_json(a.of(set));
    for (const auto& context : a.contexts[static_cast<std::size_t>(i)])
      entry["contexts"].push_back(Json{{"context", context.context}, {"value", set_json(context.value)}});
    sets[std::string(to_keyword(set))] = std::move(entry);
  }
  for (const auto& [name, value] : a.rules) rules[name] = rule_json(name, value);
  for (const auto& [name, value] : a.posture) posture[name] = sourced(value);
  Json out{{"schema", 1}, {"id", a.id}, {"name", a.name}, {"status", a.status}};
  if (!a.based_on.empty()) out["based_on"] = a.based_on;
  out["sets"] = sets, out["rules"] = rules, out["posture"] = posture;
  return out;
}

std::string accent_text(const Accent& a) {
  std::string out = a.id + "  " + a.name + "\n" + a.status + "\n" + (a.based_on.empty() ? "" : "based on " + a.based_on + "\n") + "\nVowels\n";
  for (int i = 0; i < lexical_set_count; ++i) {
    const auto set = static_cast<LexicalSet>(i);
    out += "  " + std::string(to_keyword(set)) + ": " + a.of(set).ipa + "  [" + a.of(set).status + "; " + a.of(set).source + "]\n";
    for (const auto& c : a.contexts[static_cast<std::size_t>(i)]) out += "    " + c.context + ": " + c.value.ipa + "\n";
  }
  out += "\nRules\n";
  for (const auto& [name, v] : a.rules) {
    const RuleName* rule = find_rule(name);
    out += "  " + name + ": " + v.value + "  (" + std::string(rule->meaning) + ")  [" + v.status + "; " + v.source + "]\n";
    if (!v.note.empty()) out += "    note: " + v.note + "\n";
    if (!rule->acts()) out += "    " + std::string(rule->told_only) + "\n";
  }
  out += "\nPosture (shift against the neutral mouth)\n";
  for (const auto& [name, v] : a.posture) out += "  " + name + ": " + v.value + "  [" + v.status + "; " + v.source + "]\n";
  return out;
}

int list(const Options& options) {
  const auto accents = list_accents();
  if (!accents) return tell(accents.error());
  std::string text;
  Json entries = Json::array();
  for (const auto& a : *accents) {
    text += a.id + "  " + a.name + "  [" + a.status + "]\n";
    entries.push_back(Json{{"id", a.id}, {"name", a.name}, {"status", a.status}});
  }
  for (const auto& own : list_own_accents()) {
    const AccentName& a = own.name;
    text += a.id + "  " + a.name + "  [" + a.status + (own.problem ? "; cannot be read: " + own.problem->what + ", " + own.problem->where : "") + "]\n";
    Json entry{{"id", a.id}, {"name", a.name}, {"status", a.status}};
    if (!own.based_on.empty()) entry["based_on"] = own.based_on;
    if (own.problem) entry["problem"] = own.problem->what + ", " + own.problem->where;
    entries.push_back(std::move(entry));
  }
  return print(options.json ? json_text(Json{{"schema", 1}, {"accents", entries}}) : text);
}

int draw(const Options& options, const Accent& accent) {
  const auto theme = find_theme(options.theme);
  if (!theme) return tell(theme.error());
  std::optional<Accent> other;
  if (!options.with.empty()) {
    auto read = read_accent(options.with);
    if (!read) return tell(read.error());
    other = std::move(*read);
  }
  const Scene scene = compose_accent_picture(accent, other ? &*other : nullptr,
                                             {.theme = *theme, .width = static_cast<double>(options.width), .height = static_cast<double>(options.height)});
  const auto written = write_picture(scene, options.output, "Vowels of " + accent.name, false, options.overwrite);
  return written ? 0 : tell(written.error());
}
} // namespace

int run_accents(const Options& options) {
  if (!options.check.empty()) {
    const auto text = read_file(options.check, 1u << 20);
    if (!text) return tell(text.error());
    const auto accent = parse_accent(*text, options.check);
    return accent ? print(options.check + ": fine\n") : tell(accent.error());
  }
  const bool drawn = !options.output.empty();
  if (options.arguments.empty() && (drawn || !options.with.empty()))
    return tell({ProblemKind::usage, "the picture needs an accent", drawn ? "-o" : "--with", "try mouthwright accents SSBE -o vowels.png"});
  if (options.arguments.empty()) return list(options);
  if (!options.with.empty() && !drawn)
    return tell({ProblemKind::usage, "--with belongs to a picture", "-o", "add -o FILE; 'mouthwright compare' sets a phrase in two accents side by side"});
  const auto accent = read_accent(options.arguments.front());
  if (!accent) return tell(accent.error());
  if (drawn)
    if (const int code = draw(options, *accent); code != 0 || !options.json) return code;
  return print(options.json ? json_text(accent_json(*accent)) : accent_text(*accent));
}

} // namespace mw::cli
