#include "clash/features.h"

#include "ipa/inventory.h"

#include <algorithm>
#include <array>

namespace mw {

namespace {

// The 22 features of the natural-class similarity: 14 for consonants, 8 for vowels. Values as usual in feature theory;
// tests/clash compares them with a table written out by hand for English.
enum Feature {
  cons, son, cont, delrel, nas, lat, voice, strid, lab, cor, dor, ant, dist, labdent,
  high, low, front, back, rounded, tense, glide, offfront
};

void put(std::uint64_t& bits, Feature feature, bool plus) {
  bits |= std::uint64_t{1} << (2 * static_cast<unsigned>(feature) + (plus ? 0u : 1u));
}

bool one_of(std::string_view text, std::initializer_list<std::string_view> list) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

bool has(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

Manner manner_of(std::string_view name) {
  if (has(name, "lateral") && !has(name, "fricative") && !has(name, "affricate")) return Manner::lateral;
  if (has(name, "nasal")) return Manner::nasal;
  if (has(name, "affricate")) return Manner::affricate;
  if (has(name, "fricative")) return Manner::fricative;
  if (has(name, "trill")) return Manner::trill;
  if (has(name, "tap") || has(name, "flap")) return Manner::tap;
  if (has(name, "approximant")) return Manner::approximant;
  return Manner::stop; // stops, clicks, implosives, ejectives
}

bool is_labial(std::string_view place) { return has(place, "labi"); }
bool is_coronal(std::string_view place) {
  return one_of(place, {"dental", "interdental", "alveolar", "postalveolar", "retroflex", "alveolo-palatal"});
}
bool is_dorsal(std::string_view place) { return has(place, "velar") || has(place, "uvular") || has(place, "palatal"); }

Articulator articulator_of(std::string_view place) {
  if (is_labial(place)) return Articulator::lips;
  if (is_coronal(place)) return Articulator::tip;
  if (is_dorsal(place)) return Articulator::body;
  if (has(place, "pharyngeal") || has(place, "epiglott")) return Articulator::root;
  return Articulator::glottis;
}

void put_coronal(SoundFacts& f) {
  const bool anterior = one_of(f.place, {"dental", "interdental", "alveolar"});
  const bool r_like = f.manner == Manner::approximant; // English r is made behind the ridge: Chomsky & Halle 1968
  put(f.features, ant, anterior && !r_like);
  put(f.features, dist, one_of(f.place, {"dental", "interdental", "postalveolar", "alveolo-palatal"}) && !r_like);
}

void put_consonant(SoundFacts& f) {
  const bool labial = is_labial(f.place), coronal = is_coronal(f.place), dorsal = is_dorsal(f.place);
  const bool glottal = f.place == "glottal";
  const bool semivowel = f.manner == Manner::approximant && !coronal;
  using M = Manner;
  put(f.features, cons, !glottal && !semivowel);
  put(f.features, son, f.manner != M::stop && f.manner != M::fricative && f.manner != M::affricate);
  put(f.features, cont, f.manner != M::stop && f.manner != M::affricate && f.manner != M::nasal && f.manner != M::tap);
  put(f.features, delrel, f.manner == M::affricate);
  put(f.features, nas, f.manner == M::nasal);
  put(f.features, lat, f.manner == M::lateral);
  put(f.features, voice, f.voiced);
  put(f.features, strid, f.sibilant);
  put(f.features, lab, labial);
  put(f.features, cor, coronal);
  put(f.features, dor, dorsal);
  if (coronal) put_coronal(f);
  if (labial) put(f.features, labdent, has(f.place, "labiodental"));
}

double height_of(std::string_view name) {
  if (name == "close") return 1;
  if (has(name, "near-close")) return .83;
  if (has(name, "close-mid")) return .67;
  if (has(name, "open-mid")) return .33;
  if (has(name, "near-open")) return .17;
  return name == "mid" ? .5 : 0;
}

double back_of(std::string_view name) {
  if (name == "front") return 0;
  if (name == "near-front") return .25;
  if (name == "near-back") return .75;
  return name == "back" ? 1 : .5;
}

ChartPlace chart_place(std::string_view letter_text) {
  const Letter* letter = find_letter(letter_text);
  if (letter == nullptr) return {.height = .5, .back = .5, .round = 0};
  ChartPlace place{height_of(letter->height), back_of(letter->backness), letter->rounded ? 1.0 : 0.0};
  // ʌ and a stand for central vowels in English transcription (Wells 1982), whatever their place on the chart.
  if (one_of(letter_text, {"ʌ", "a"})) place.back = .5;
  return place;
}

void put_vowel(SoundFacts& f, const Sound& sound) {
  // Lax vowels; every other letter counts as tense, glides always (Chomsky & Halle 1968).
  const bool lax = one_of(sound.letter, {"ɪ", "ʏ", "ʊ", "ɛ", "œ", "æ", "ʌ", "ə", "ɐ", "ɚ", "ɒ"}) && !is_glide(sound);
  put(f.features, high, f.from.height > .75);
  put(f.features, low, f.from.height < .25);
  put(f.features, front, f.from.back < .4);
  put(f.features, back, f.from.back > .6);
  put(f.features, rounded, f.from.round > .5);
  put(f.features, tense, !lax);
  put(f.features, glide, is_glide(sound));
  if (is_glide(sound)) put(f.features, offfront, f.to.back < .4);
}

SoundFacts vowel_facts(const Sound& sound) {
  SoundFacts f;
  f.vowel = true;
  f.key = sound.letter + sound.glide_letter;
  f.from = chart_place(sound.letter);
  f.to = is_glide(sound) ? chart_place(sound.glide_letter) : f.from;
  put_vowel(f, sound);
  return f;
}

SoundFacts consonant_facts(const Sound& sound) {
  SoundFacts f;
  const Letter* letter = find_letter(sound.letter);
  f.key = sound.letter == "ɫ" ? "l" : sound.letter; // clear and dark l are one sound of a pattern
  f.manner = letter ? manner_of(letter->manner) : Manner::approximant;
  f.place = letter ? letter->place : "glottal";
  f.voiced = letter ? letter->voiced : true;
  f.articulator = articulator_of(f.place);
  if (is_labial(f.place) && is_dorsal(f.place)) f.also = Articulator::body;
  f.sibilant = (f.manner == Manner::fricative || f.manner == Manner::affricate) &&
               f.articulator == Articulator::tip && !has(f.place, "dental") && !has(letter->manner, "lateral");
  put_consonant(f);
  return f;
}

} // namespace

SoundFacts facts_of(const Sound& sound) {
  SoundFacts facts = is_vowel(sound) ? vowel_facts(sound) : consonant_facts(sound);
  facts.ipa = to_ipa(sound);
  return facts;
}

std::string action_of(const SoundFacts& facts) {
  if (facts.vowel) return facts.key;
  return std::string(to_text(facts.articulator)) + ' ' + facts.place + ' ' + std::string(manner_word(facts.manner));
}

std::string_view manner_word(Manner manner) {
  static constexpr std::array<std::string_view, 9> words{"shut", "nasal", "hiss",  "shut then hiss", "open",
                                                         "round the sides", "tap", "trill", "vowel"};
  return words[static_cast<std::size_t>(manner)];
}

} // namespace mw
