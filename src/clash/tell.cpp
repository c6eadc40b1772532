#include "clash/tell.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw {

namespace {

struct PlaceRow {
  std::string_view place, words, feel;
  double depth; // order of places from the lips to the throat; differences are only compared by sign
};

constexpr std::array<PlaceRow, 16> place_table{{
    {"bilabial", "the lips together", "both lips meet", 0},
    {"labiodental", "the lower lip on the upper teeth", "the lower lip touches the teeth", 1},
    {"labial-velar", "the lips rounded and the back of the tongue raised", "the lips push forward", 0},
    {"labial-palatal", "the lips rounded and the tongue high in front", "the lips push forward", 0},
    {"interdental", "the tip between the teeth", "air slips over the tip at the teeth", 2},
    {"dental", "the tip at the teeth", "air slips over the tip at the teeth", 2},
    {"alveolar", "the tip at the ridge behind the teeth", "the tip works at the ridge", 3},
    {"postalveolar", "the blade just behind the ridge", "the tongue lies a little further back", 4},
    {"alveolo-palatal", "the blade high behind the ridge", "the tongue lies a little further back", 4.5},
    {"retroflex", "the tip curled up and back", "the tip points up and back", 5},
    {"palatal", "the tongue high under the hard palate", "the middle of the tongue rises", 6},
    {"velar", "the back of the tongue up at the soft palate", "the back of the tongue rises", 7},
    {"uvular", "the back of the tongue far back", "the back of the tongue draws back", 8},
    {"pharyngeal", "the root of the tongue drawn back", "the throat narrows", 9},
    {"epiglottal", "the root of the tongue low in the throat", "the throat narrows", 10},
    {"glottal", "only the voice box", "nothing in the mouth moves", 11},
}};

const PlaceRow& place_row(std::string_view place) {
  for (const PlaceRow& row : place_table)
    if (row.place == place) return row;
  return place_table.back();
}

std::string part_name(Articulator articulator) {
  return articulator == Articulator::body ? "back of the tongue" : std::string(short_name(articulator));
}

// English r is an alveolar letter whose tip points behind the ridge and touches nothing.
bool is_r(const SoundFacts& f) { return f.key == "ɹ" || f.key == "ɻ"; }

std::string_view air_words(Manner manner) {
  static constexpr std::array<std::string_view, 9> words{
      "stops the air", "sends the air through the nose", "lets the air hiss", "stops the air and then lets it hiss",
      "lets the air pass freely", "lets the air round the sides", "taps once", "trills", "is a vowel"};
  return words[static_cast<std::size_t>(manner)];
}

std::string vowel_difference(const SoundFacts& a, const SoundFacts& b) {
  const double up = b.from.height - a.from.height, back = b.from.back - a.from.back;
  if (std::abs(up) < .05 && std::abs(back) < .05)
    return a.from.round != b.from.round ? "only the lips" : "only the way the tongue glides";
  if (std::abs(up) >= std::abs(back))
    return std::string("the tongue is ") + (std::abs(up) < .4 ? "a little " : "") + (up > 0 ? "higher" : "lower");
  return std::string("the tongue lies further ") + (back > 0 ? "back" : "forward");
}

std::string manner_difference(const SoundFacts& a, const SoundFacts& b) {
  const bool nose = (a.manner == Manner::nasal && b.manner == Manner::stop) ||
                    (b.manner == Manner::nasal && a.manner == Manner::stop);
  if (nose && a.place == b.place) return a.voiced == b.voiced ? "only the soft palate" : "the soft palate and the voice";
  const auto word = [](const SoundFacts& f) { return std::string(manner_word(f.manner)); };
  return a.ipa + " is " + word(a) + ", " + b.ipa + " is " + word(b);
}

} // namespace

std::string difference(const SoundFacts& a, const SoundFacts& b) {
  if (a.key == b.key) return {};
  if (a.vowel && b.vowel) return vowel_difference(a, b);
  if (a.articulator != b.articulator)
    return a.ipa + " with the " + part_name(a.articulator) + ", " + b.ipa + " with the " + part_name(b.articulator);
  if (is_r(a) != is_r(b) && a.articulator == Articulator::tip && b.articulator == Articulator::tip)
    return is_r(a) ? b.ipa + " brings the tip to the ridge, " + a.ipa + " draws it back from it"
                   : a.ipa + " brings the tip to the ridge, " + b.ipa + " draws it back from it";
  if (a.place == b.place && a.manner == b.manner)
    return a.voiced != b.voiced ? "only the voice" : "only a detail of the touch";
  if (a.manner == b.manner && a.place != b.place)
    return "the " + part_name(a.articulator) + (a.articulator == Articulator::lips ? " lie" : " lies") +
           (place_row(a.place).depth < place_row(b.place).depth ? " a little further back" : " a little further forward") +
           (a.voiced != b.voiced ? ", and the voice changes" : "");
  return manner_difference(a, b);
}

std::string difference_clause(const SoundFacts& a, const SoundFacts& b) {
  const std::string words = difference(a, b);
  if (words.rfind("only", 0) == 0 || words.rfind("the soft palate", 0) == 0)
    return words + (words.find(" and ") == std::string::npos ? " changes" : " change");
  if (words.rfind("the ", 0) == 0) return "for " + b.ipa + " " + words;
  if (a.articulator == b.articulator && !is_r(a) && !is_r(b) && a.manner != b.manner)
    return a.ipa + " " + std::string(air_words(a.manner)) + ", " + b.ipa + " " + std::string(air_words(b.manner));
  return words;
}

std::string feel_of_difference(const SoundFacts& a, const SoundFacts& b) {
  if (a.vowel && b.vowel) return "say " + a.ipa + ", " + b.ipa + " slowly and watch how far the jaw and lips go.";
  if (a.place == b.place && a.manner == b.manner && a.voiced != b.voiced)
    return "a hand on the throat: " + (a.voiced ? a.ipa : b.ipa) + " hums, " + (a.voiced ? b.ipa : a.ipa) + " does not.";
  if ((a.manner == Manner::nasal) != (b.manner == Manner::nasal) && a.articulator == b.articulator)
    return "hold the nose: " + (a.manner == Manner::nasal ? a.ipa : b.ipa) + " is stopped, " +
           (a.manner == Manner::nasal ? b.ipa : a.ipa) + " is not.";
  if (a.place != b.place && !is_r(a) && !is_r(b))
    return "on " + a.ipa + ", " + std::string(place_row(a.place).feel) + "; on " + b.ipa + ", " +
           std::string(place_row(b.place).feel) + ".";
  if (is_r(a) || is_r(b))
    return "on " + (is_r(a) ? b.ipa : a.ipa) + " the tip comes to the ridge; on " + (is_r(a) ? a.ipa : b.ipa) +
           " it touches nothing.";
  return "hold " + a.ipa + ", then " + b.ipa + ", and feel what lets the air through.";
}

Articulator part_between(const SoundFacts& a, const SoundFacts& b) {
  if (a.articulator == b.articulator && a.place == b.place && a.manner == b.manner && a.voiced != b.voiced)
    return Articulator::glottis;
  if (a.articulator == b.articulator && a.place == b.place && (a.manner == Manner::nasal) != (b.manner == Manner::nasal))
    return Articulator::velum;
  return b.articulator;
}

std::string_view short_name(Articulator articulator) {
  switch (articulator) {
  case Articulator::lips: return "lips";
  case Articulator::tip: return "tip";
  case Articulator::body: return "back";
  case Articulator::root: return "root";
  case Articulator::velum: return "soft palate";
  case Articulator::jaw: return "jaw";
  case Articulator::larynx:
  case Articulator::glottis: return "voice box";
  }
  return "";
}

std::string want_of(const SoundFacts& sound) {
  if (is_r(sound)) return "the tip drawn back behind the ridge";
  return std::string(place_row(sound.place).words);
}

} // namespace mw
