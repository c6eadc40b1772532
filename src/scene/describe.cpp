#include "scene/describe.h"

#include "ipa/inventory.h"
#include "scene/vowel_chart.h"

#include <array>
#include <string_view>

namespace mw {
namespace {

struct PlaceRow { std::string_view place, part, where; };
constexpr std::array places{
    PlaceRow{"bilabial", "lips", "one on the other"},          PlaceRow{"labiodental", "lower lip", "at the upper teeth"},
    PlaceRow{"dental", "tip", "at the upper teeth"},            PlaceRow{"alveolar", "tip", "at the ridge behind the teeth"},
    PlaceRow{"postalveolar", "blade", "just behind the ridge"}, PlaceRow{"alveolo-palatal", "blade", "behind the ridge, middle raised"},
    PlaceRow{"retroflex", "tip", "curled up behind the ridge"}, PlaceRow{"palatal", "middle of the tongue", "at the hard palate"},
    PlaceRow{"velar", "back", "up to the soft palate"},         PlaceRow{"uvular", "back", "at the end of the soft palate"},
    PlaceRow{"pharyngeal", "root", "towards the throat wall"},  PlaceRow{"epiglottal", "root", "low in the throat"},
    PlaceRow{"glottal", "vocal folds", "in the voice box"},     PlaceRow{"labial-velar", "lips and back", "rounded, back raised"},
    PlaceRow{"labial-palatal", "lips and middle", "rounded, middle raised"}};

struct MannerRow { std::string_view manner, one, many; };
constexpr std::array manners{
    MannerRow{"stop", "closes", "close"},           MannerRow{"nasal", "closes, nose open", "close, nose open"},
    MannerRow{"trill", "flutters", "flutter"},      MannerRow{"tap", "taps once", "tap once"},
    MannerRow{"fricative", "leaves a slit", "leave a slit"}, MannerRow{"affricate", "closes, then hisses", "close, then hiss"},
    MannerRow{"lateral", "stays, sides let go", "stay, sides let go"}, MannerRow{"approximant", "comes near", "come near"},
    MannerRow{"click", "sucks and snaps", "suck and snap"}, MannerRow{"implosive", "closes, larynx drops", "close, larynx drops"},
    MannerRow{"ejective", "closes, larynx pushes", "close, larynx pushes"}};

bool plural(std::string_view part) { return part.ends_with("s"); }

std::string vowel_detail(const VowelPlace& p) {
  return std::string{p.y < 0.2 ? "jaw nearly closed" : p.y < 0.6 ? "jaw a little open" : "jaw open"} + (p.rounding > 0.3 ? ", lips round" : ", lips easy");
}

struct Spelling { std::string_view ipa, letters; };
// respelling of English sounds with ordinary letters, as dictionaries for actors do: common practice
constexpr std::array spellings{
    Spelling{"i", "ee"},  Spelling{"\u026A", "i"},   Spelling{"e", "e"},    Spelling{"\u025B", "e"},  Spelling{"\u00E6", "a"},  Spelling{"a", "a"},   Spelling{"\u0251", "ah"}, Spelling{"\u0252", "o"},
    Spelling{"\u0254", "aw"}, Spelling{"o", "oh"},   Spelling{"\u028A", "uu"}, Spelling{"u", "oo"},   Spelling{"\u0289", "oo"}, Spelling{"\u028C", "u"}, Spelling{"\u0259", "uh"}, Spelling{"\u025C", "ur"},
    Spelling{"\u025D", "ur"}, Spelling{"\u025A", "er"}, Spelling{"\u0250", "u"}, Spelling{"\u0275", "uu"}, Spelling{"\u03B8", "th"}, Spelling{"\u00F0", "dh"}, Spelling{"\u0283", "sh"}, Spelling{"\u0292", "zh"},
    Spelling{"t\u0283", "ch"}, Spelling{"d\u0292", "j"}, Spelling{"\u014B", "ng"}, Spelling{"j", "y"},  Spelling{"\u0279", "r"},  Spelling{"\u027B", "r"}, Spelling{"\u0261", "g"},  Spelling{"\u026B", "l"},
    Spelling{"\u027E", "d"},  Spelling{"\u0294", "\u02BC"}, Spelling{"s", "s"}, Spelling{"x", "kh"}};
constexpr std::array glides{ // first and second vowel
    Spelling{"a\u026A", "igh"}, Spelling{"\u0251\u026A", "igh"}, Spelling{"\u0251i", "igh"}, Spelling{"e\u026A", "ay"}, Spelling{"\u025B\u026A", "ay"}, Spelling{"\u025Bi", "ay"}, Spelling{"\u0254\u026A", "oy"}, Spelling{"oi", "oy"},
    Spelling{"a\u028A", "ow"}, Spelling{"\u00E6\u028A", "ow"}, Spelling{"au", "ow"}, Spelling{"o\u028A", "oh"}, Spelling{"\u0259\u028A", "oh"}, Spelling{"\u0259u", "oh"}, Spelling{"\u026Ai", "ee"}, Spelling{"\u0289u", "oo"},
    Spelling{"\u026A\u0259", "eer"}, Spelling{"e\u0259", "air"}, Spelling{"\u028A\u0259", "oor"}};

std::string letters_of(const Sound& sound) {
  if (is_glide(sound)) {
    for (const Spelling& s : glides)
      if (s.ipa == sound.letter + sound.glide_letter) return std::string{s.letters};
  }
  for (const Spelling& s : spellings)
    if (s.ipa == sound.letter) return std::string{s.letters};
  return sound.letter;
}

std::string capitals(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return text;
}

} // namespace

SoundWords describe_sound(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  if (!letter) return {};
  if (const auto v = vowel_place(sound)) {
    const std::string height = v->y < 0.2 ? "high" : v->y < 0.6 ? "half high" : "low", back = v->x < 0.3 ? "forward" : v->x < 0.7 ? "in the middle" : "back";
    if (const auto end = is_glide(sound) ? vowel_place(sound, true) : std::nullopt)
      return {"tongue glides " + std::string{end->y < v->y - 0.1 ? "up" : end->y > v->y + 0.1 ? "down" : end->x < v->x ? "forward" : "back"}, vowel_detail(*v)};
    return {"tongue " + height + " and " + back, vowel_detail(*v)};
  }
  SoundWords words;
  std::string part = "tongue";
  for (const PlaceRow& p : places)
    if (letter->place == p.place) part = p.part, words.detail = p.where;
  words.what = part;
  // the longest manner that the letter's own manner names: "lateral fricative" is a lateral first
  for (const std::string_view first : {"lateral", "click", "implosive", "ejective"})
    if (letter->manner.find(first) != std::string::npos)
      for (const MannerRow& m : manners)
        if (m.manner == first) return {part + " " + std::string{plural(part) ? m.many : m.one}, words.detail};
  for (const MannerRow& m : manners)
    if (letter->manner.find(m.manner) != std::string::npos) {
      const bool groove = m.manner == "fricative" && (sound.letter == "s" || sound.letter == "z");
      words.what = groove ? "blade makes a groove" : part + " " + std::string{plural(part) ? m.many : m.one};
      if (groove) words.detail = "sides up, teeth close";
      break;
    }
  if (letter->voiced && letter->manner == "fricative" && !words.detail.empty()) words.detail += ", voiced";
  return words;
}

std::string respell(const Word& word) {
  std::string out;
  for (const Syllable& s : word.syllables) {
    std::string part;
    for (const Sound& c : s.onset) part += letters_of(c);
    part += is_syllabic(s.nucleus) ? "uh" + letters_of(s.nucleus) : letters_of(s.nucleus);
    for (const Sound& c : s.coda) part += letters_of(c);
    // a final s after a vowel would be read as z
    if (!s.coda.empty() && s.coda.back().letter == "s" && s.coda.size() == 1 && is_vowel(s.nucleus)) part += "s";
    out += (out.empty() ? "" : "-") + (s.stress == 1 ? capitals(part) : part);
  }
  return out;
}

} // namespace mw
