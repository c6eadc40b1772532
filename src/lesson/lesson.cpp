#include "lesson/lesson.h"

#include "base/assets.h"
#include "base/text.h"

#include <algorithm>
#include <sstream>
#include <toml++/toml.h>


namespace mw {
namespace {
constexpr std::size_t size_limit = 1u << 20; // a lesson is text by hand: far below 1 MB

// Reads one table and collects the first thing that is wrong with it.
class Reader {
public:
  Reader(const toml::table& table, std::string file) : table_(table), file_(std::move(file)) {}

  void text(const char* key, std::string& out) {
    if (const auto* node = take(key)) {
      if (const auto value = node->value<std::string>(); value && node->is_string()) out = *value;
      else wrong(*node, key, "text in quotes");
    }
  }
  void number(const char* key, double& out, double low, double high) {
    if (const auto* node = take(key)) {
      const auto value = node->value<double>();
      if (value && *value >= low && *value <= high) out = *value;
      else wrong(*node, key, "a number from " + to_text(low) + " to " + to_text(high));
    }
  }
  void flag(const char* key, bool& out) {
    if (const auto* node = take(key)) {
      if (node->is_boolean()) out = *node->value<bool>();
      else wrong(*node, key, "true or false");
    }
  }
  void choice(const char* key, std::string& out, std::initializer_list<std::string_view> allowed) {
    std::string value = out;
    const toml::node* node = table_.get(key);
    text(key, value);
    if (node == nullptr || problem_) return;
    if (std::find(allowed.begin(), allowed.end(), value) != allowed.end()) out = value;
    else wrong(*node, key, "one of the values this program knows");
  }
  const toml::node* take(const char* key) {
    known_.emplace_back(key);
    return problem_ ? nullptr : table_.get(key);
  }
  void wrong(const toml::node& node, const std::string& key, const std::string& expected) {
    if (problem_) return;
    problem_ = Problem{ProblemKind::input, "'" + key + "' should be " + expected,
                       file_ + " line " + std::to_string(node.source().begin.line), "mend the line"};
  }
  /// The first problem, unknown keys included.
  std::optional<Problem> finish() {
    for (const auto& [key, node] : table_)
      if (!problem_ && std::find(known_.begin(), known_.end(), std::string(key.str())) == known_.end())
        problem_ = Problem{ProblemKind::input, "'" + std::string(key.str()) + "' is not a key of a lesson",
                           file_ + " line " + std::to_string(node.source().begin.line), "remove it or mend its name"};
    return problem_;
  }

private:
  const toml::table& table_;
  std::string file_;
  std::vector<std::string> known_;
  std::optional<Problem> problem_;
};

Result<LessonLine> read_line(const toml::table& table, const std::string& file) {
  LessonLine line;
  Reader r(table, file);
  std::string notation = "text";
  r.text("phrase", line.request.phrase);
  r.choice("notation", notation, {"text", "ipa", "xsampa"});
  r.text("accent", line.request.accent);
  r.text("learner", line.request.learner);
  r.choice("anatomy", line.request.anatomy, {"adult-male", "adult-female", "child"});
  r.number("rate", line.request.rate, 1, 9);
  r.number("casual", line.request.casual, 0, 1);
  r.flag("loop", line.request.loop);
  r.text("note", line.note);
  if (const auto* node = r.take("corrections")) {
    const auto* corrections = node->as_table();
    if (corrections == nullptr) r.wrong(*node, "corrections", "a table of words");
    else
      for (const auto& [word, said] : *corrections) {
        if (said.is_string()) line.request.corrections[std::string(word.str())] = *said.value<std::string>();
        else r.wrong(said, std::string(word.str()), "text in quotes");
      }
  }
  if (const auto problem = r.finish()) return *problem;
  line.request.notation = notation == "ipa" ? Notation::ipa : notation == "xsampa" ? Notation::xsampa : Notation::text;
  return line;
}

std::string_view notation_name(Notation n) { return n == Notation::ipa ? "ipa" : n == Notation::xsampa ? "xsampa" : "text"; }

toml::table line_table(const LessonLine& line) {
  const Request& r = line.request;
  toml::table t{{"phrase", r.phrase}, {"accent", r.accent}};
  const Request plain;
  if (!r.learner.empty()) t.insert("learner", r.learner);
  if (r.notation != plain.notation) t.insert("notation", notation_name(r.notation));
  if (r.anatomy != plain.anatomy) t.insert("anatomy", r.anatomy);
  if (r.rate != plain.rate) t.insert("rate", r.rate);
  if (r.casual != plain.casual) t.insert("casual", r.casual);
  if (r.loop != plain.loop) t.insert("loop", r.loop);
  if (!line.note.empty()) t.insert("note", line.note);
  if (!r.corrections.empty()) {
    toml::table corrections;
    for (const auto& [word, said] : r.corrections) corrections.insert(word, said);
    t.insert("corrections", std::move(corrections));
  }
  return t;
}
} // namespace

Result<Lesson> parse_lesson(std::string_view text, const std::string& file) {
  if (text.size() > size_limit)
    return Problem{ProblemKind::input, "the lesson is larger than 1 MB", file, "name a lesson file"};
  if (const auto valid = decode_utf8(text); !valid)
    return Problem{ProblemKind::input, "the lesson is not valid UTF-8", file + ", " + valid.error().where, "save it as UTF-8"};
  toml::table table;
  try { // the library as Debian builds it throws; nothing else in this file does
    table = toml::parse(text, std::string_view(file));
  } catch (const toml::parse_error& error) {
    return Problem{ProblemKind::input, std::string(error.description()),
                   file + " line " + std::to_string(error.source().begin.line), "mend the line; the file is TOML"};
  }
  Lesson lesson;
  Reader r(table, file);
  double current = 1;
  r.text("title", lesson.title);
  r.text("note", lesson.note);
  r.choice("theme", lesson.theme, {"light", "dark", "high"});
  r.number("slow", lesson.slow, 1, 32);
  r.number("current", current, 1, 1e6);
  if (const auto* node = r.take("line")) {
    const auto* lines = node->as_array();
    if (lines == nullptr) r.wrong(*node, "line", "a list of [[line]] tables");
    else
      for (const auto& entry : *lines) {
        const auto* one = entry.as_table();
        if (one == nullptr) {
          r.wrong(entry, "line", "a [[line]] table");
          break;
        }
        auto line = read_line(*one, file);
        if (!line) return line.error();
        lesson.lines.push_back(std::move(*line));
      }
  }
  if (const auto problem = r.finish()) return *problem;
  lesson.current = std::min(static_cast<std::size_t>(current) - 1, lesson.lines.empty() ? 0 : lesson.lines.size() - 1);
  return lesson;
}

std::string write_lesson(const Lesson& lesson) {
  toml::array lines;
  for (const auto& line : lesson.lines) lines.push_back(line_table(line));
  toml::table table{{"title", lesson.title}, {"theme", lesson.theme}, {"slow", lesson.slow},
                    {"current", static_cast<std::int64_t>(lesson.current) + 1}};
  if (!lesson.note.empty()) table.insert("note", lesson.note);
  if (!lines.empty()) table.insert("line", std::move(lines));
  std::ostringstream out;
  out << table << "\n";
  return out.str();
}

Result<Lesson> read_lesson(const std::filesystem::path& file) {
  const auto text = read_file(file, size_limit);
  if (!text) return text.error();
  return parse_lesson(*text, file.string());
}

Result<Done> save_lesson(const Lesson& lesson, const std::filesystem::path& file) {
  return write_file(file, write_lesson(lesson), true);
}

Result<Lesson> sample_lesson() {
  const auto text = read_asset("lessons/sample.toml");
  if (!text) return text.error();
  return parse_lesson(*text, "sample lesson");
}

} // namespace mw
