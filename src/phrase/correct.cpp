#include "phrase/correct.h"

#include "base/assets.h"
#include "base/text.h"
#include "ipa/parse.h"

#include <algorithm>
#include <cstdlib>
#include <mutex>
#include <sys/stat.h>

namespace mw {
namespace {
constexpr std::size_t size_limit = 4u << 20; // a dictionary by hand is far below

/// Keywords alone ("TRAP", "TRAP commA"), stress signs allowed; empty for anything else.
std::vector<LexicalSet> bare_sets(std::string_view text) {
  std::vector<LexicalSet> sets;
  for (std::string_view piece : split(text, ' ')) {
    for (const std::string_view sign : {"\u02c8", "\u02cc"})
      if (starts_with(piece, sign)) piece.remove_prefix(sign.size());
    const auto set = parse_keyword(piece);
    if (!set) return {};
    sets.push_back(*set);
  }
  return sets;
}

Result<Correction> fixed_sounds(std::string_view text, Notation notation) {
  const auto words = parse_transcription(text, notation);
  if (!words) return words.error();
  Correction out;
  for (const auto& word : *words)
    for (const auto& s : word.syllables) out.fixed.push_back({s.onset, s.nucleus, s.coda, s.stress, {}});
  if (out.fixed.empty()) return Problem{ProblemKind::input, "it is empty", "", "write at least one sound"};
  return out;
}

bool is_between(std::string_view text, char open, char close) {
  return text.size() > 1 && text.front() == open && text.back() == close;
}
} // namespace

Result<Correction> parse_correction(std::string_view text) {
  text = trim(text);
  if (is_between(text, '/', '/')) return fixed_sounds(text, Notation::ipa);
  if (is_between(text, '[', ']')) return fixed_sounds(text, Notation::xsampa);
  if (auto sets = bare_sets(text); !sets.empty()) return Correction{.sets = std::move(sets)};
  auto phonemes = parse_respelling(text);
  if (phonemes) return Correction{.phonemes = std::move(*phonemes)};
  // IPA as people paste it, without slashes
  if (text.find(' ') == std::string_view::npos)
    if (auto sounds = fixed_sounds(text, Notation::ipa)) return sounds;
  return phonemes.error();
}

Result<Done> apply_sets(const std::vector<LexicalSet>& sets, Phonemes& word) {
  std::vector<Phoneme*> vowels;
  for (auto& phoneme : word)
    if (phoneme.set) vowels.push_back(&phoneme);
  if (sets.size() == vowels.size()) {
    for (std::size_t i = 0; i < sets.size(); ++i) vowels[i]->set = sets[i];
    return Done{};
  }
  if (sets.size() != 1 || vowels.empty())
    return Problem{ProblemKind::input, "it names " + to_text(static_cast<int>(sets.size())) + (sets.size() == 1 ? " set for " : " sets for ") + to_text(static_cast<int>(vowels.size())) + (vowels.size() == 1 ? " vowel" : " vowels"),
                   "", "name one set, for the stressed vowel, or one for each vowel"};
  const auto stressed = std::find_if(vowels.begin(), vowels.end(), [](const Phoneme* v) { return v->stress == 1; });
  (stressed == vowels.end() ? vowels.front() : *stressed)->set = sets.front();
  return Done{};
}

std::filesystem::path own_words_file() {
  const char* config = std::getenv("XDG_CONFIG_HOME");
  if (config != nullptr && *config == '/') return std::filesystem::path(config) / "mouthwright" / "words.txt";
  const char* home = std::getenv("HOME");
  return home != nullptr && *home == '/' ? std::filesystem::path(home) / ".config" / "mouthwright" / "words.txt" : std::filesystem::path();
}

OwnWords parse_own_words(std::string_view text, const std::string& file) {
  OwnWords own;
  if (const auto valid = decode_utf8(text); !valid) {
    own.notes.push_back({"own_words", file + " is not valid UTF-8, " + valid.error().where + ": your own words are left out", {}});
    return own;
  }
  int number = 0;
  for (const auto& raw : split(text, '\n')) {
    ++number;
    const std::string line(trim(split(raw, '#')[0]));
    if (line.empty()) continue;
    const auto wrong = [&](const std::string& why) {
      own.notes.push_back({"own_words", file + " line " + to_text(number) + ": " + why + "; the line is left out", {}});
    };
    const std::size_t at = line.find('=');
    const std::string word = to_lower(trim(std::string_view(line).substr(0, at)));
    if (at == std::string::npos || word.empty()) { wrong("a line is a word, = and its sounds"); continue; }
    std::string said(trim(std::string_view(line).substr(at + 1)));
    if (const auto parsed = parse_correction(said); !parsed) wrong(parsed.error().what);
    else own.corrections[word] = std::move(said);
  }
  return own;
}

Result<Done> keep_own_word(const std::string& word, const std::string& said) {
  if (!said.empty())
    if (const auto parsed = parse_correction(said); !parsed) return parsed.error();
  const auto file = own_words_file();
  if (file.empty()) return Problem{ProblemKind::output, "there is no home folder for your own words", "", "set HOME, or keep the word with the line"};
  std::error_code error;
  std::vector<std::string> lines;
  if (std::filesystem::exists(file, error)) {
    const auto text = read_file(file, size_limit);
    if (!text) return Problem{ProblemKind::output, text.error().what, text.error().where, "mend the file, or keep the word with the line"};
    lines = split(*text, '\n');
  }
  std::erase_if(lines, [&](const std::string& line) {
    const std::string bare(split(line, '#')[0]);
    const auto at = bare.find('=');
    return at != std::string::npos && to_lower(trim(std::string_view(bare).substr(0, at))) == word;
  });
  while (!lines.empty() && trim(lines.back()).empty()) lines.pop_back();
  if (!said.empty()) lines.push_back(word + " = " + said);
  std::filesystem::create_directories(file.parent_path(), error);
  return write_file(file, lines.empty() ? std::string() : join(lines, "\n") + "\n", true);
}

namespace {
OwnWords read_own_words(const std::filesystem::path& file) {
  const auto text = read_file(file, size_limit);
  if (!text) return {{}, {{"own_words", text.error().what + ", " + text.error().where + ": your own words are left out", {}}}};
  return parse_own_words(*text, file.string());
}
} // namespace

std::shared_ptr<const OwnWords> read_own_words() {
  static const auto none = std::make_shared<const OwnWords>();
  const auto file = own_words_file();
  struct stat now {};
  if (file.empty() || ::stat(file.c_str(), &now) != 0) return none;
  struct Kept {
    std::filesystem::path file{};
    struct stat state {};
    std::shared_ptr<const OwnWords> words{};
  };
  static std::mutex guard;
  static Kept kept;
  const std::lock_guard lock(guard);
  const struct stat& then = kept.state;
  const bool known = kept.words != nullptr && kept.file == file && then.st_ino == now.st_ino && then.st_size == now.st_size &&
                     then.st_mtim.tv_sec == now.st_mtim.tv_sec && then.st_mtim.tv_nsec == now.st_mtim.tv_nsec;
  if (!known) kept = {file, now, std::make_shared<const OwnWords>(read_own_words(file))};
  return kept.words;
}

} // namespace mw
