#include "accent/rules.h"
#include "phrase/chain_steps.h"

#include <algorithm>
#include <array>

// From how casual the speech must be for each process. Usual speech is 0.5; the order follows the descriptions in
// Cruttenden 2014 and Shockey 2003 (what careful speakers do too, what belongs to casual speech), the numbers are ours.
namespace mw {
namespace {
using Set = LexicalSet;
using Place = Link::Place;
constexpr double labiodental_nasal = 0.3, sibilant_place = 0.5, sibilant_before_affricate = 0.7,
                 fixed_phrases = 0.4, one_syllable = 0.7, nasal_place = 0.6, cluster_elision = 0.6, stop_place = 0.75;
constexpr const char *dental = "\u032a", *syllabic = "\u0329", *non_syllabic = "\u032f";

/// Schwa and l or n in one syllable become a syllabic consonant: kettle, button (Wells 1982:320; Cruttenden 2014).
void make_syllabic(Chain& chain) {
  if (chain.accent.rule("syllabic_consonants") == "no") return;
  constexpr std::array<std::string_view, 4> before_n{"t", "d", "s", "z"};
  each(chain, [&](std::size_t i) {
    Link& link = chain.links[i];
    const std::size_t before = chain.previous_in_word(i), after = chain.next_in_word(i);
    if (link.phoneme.set != Set::commA || link.stress != 0 || before == Chain::none || after == Chain::none) return;
    if (chain.words[link.word].weak || chain.is_nucleus(before)) return;
    const auto first = chain.consonant(before), second = chain.consonant(after);
    if (chain.links[after].place != Place::coda) return;
    const std::size_t earlier = chain.previous_in_word(before);
    const bool after_vowel =
        earlier != Chain::none && (chain.is_nucleus(earlier) || chain.consonant(earlier) == "\u0279");
    const bool l = second == "l" && first != "\u0279" && first != "l" && first != "j" && first != "w" && first != "h";
    const bool n = second == "n" && among(first, before_n) && after_vowel;
    if (!l && !n) return;
    Sound sound = with_mark(chain.links[after].sound, syllabic);
    chain.links[after].gone = true;
    chain.change(i, sound, "syllabic_consonant", std::string(second) + " makes a syllable of its own, without a vowel");
    chain.links[i].phoneme.consonant = std::string(second);
  });
}

// ---- r between words

bool may_link(const Chain& chain, std::size_t i) {
  const std::size_t next = chain.next_in_group(i);
  return chain.links[i].is_vowel() && at_seam(chain, i) && chain.sounds_as_vowel(next);
}

void link_r(Chain& chain) {
  if (answer_of(chain.accent, "rhotic", chain.casual) == Answer::yes) return;
  each(chain, [&](std::size_t i) {
    const auto set = chain.links[i].phoneme.set;
    if (!set || !may_link(chain, i)) return;
    const Sound r = sound_of_r(chain.accent, Place::onset);
    const bool r_coloured = chain.letter(i) == "\u025d" || chain.letter(i) == "\u025a";
    if (has_r(*set)) {
      if (!r_coloured && chain.holds("linking_r"))
        chain.insert_after(i, "\u0279", r, "linking_r", "the r of the spelling comes back before a vowel", "linking_r");
      return;
    }
    const bool open = set == Set::commA || set == Set::THOUGHT || set == Set::PALM;
    if (open && !chain.words[chain.links[i].word].weak && chain.words[chain.links[i].word].key != "a" &&
        chain.words[chain.links[i].word].key != "the" && chain.holds("intrusive_r"))
      chain.insert_after(i, "\u0279", r, "intrusive_r", "an r that is not spelled parts the two vowels", "intrusive_r");
  });
}

/// The vowel at `next` and what else its syllable has go into the syllable of the vowel before it.
void join_syllables(Chain& chain, std::size_t i, std::size_t next) {
  chain.links[next].gone = true;
  const std::size_t syllable = chain.links[next].syllable;
  for (std::size_t k = next; k < chain.links.size() && chain.links[k].word == chain.links[i].word; ++k)
    if (chain.links[k].syllable == syllable)
      chain.links[k].syllable = chain.links[i].syllable, chain.links[k].stress = chain.links[i].stress;
}

/// fire, power: the glide loses its second half before the weak vowel; in casual speech the two melt into one syllable
/// (smoothing and what follows it, Wells 1982:238).
void smooth(Chain& chain) {
  if (!chain.holds("smoothing")) return;
  const bool melts = chain.casual >= one_syllable;
  each(chain, [&](std::size_t i) {
    const std::size_t next = chain.next_in_word(i);
    const auto set = chain.links[i].phoneme.set;
    if (!chain.links[i].is_vowel() || (set != Set::PRICE && set != Set::MOUTH) || next == Chain::none) return;
    if (!chain.links[next].is_vowel() || chain.letter(next) != "\u0259" || !is_glide(chain.links[i].sound)) return;
    Sound smoothed = chain.links[i].sound;
    smoothed.glide_letter = melts ? "\u0259" : "";
    smoothed.glide_marks.clear();
    if (!melts) smoothed.marks.emplace_back("\u02d0");
    const std::string text = "the glide loses its second half before the weak vowel";
    chain.change(i, smoothed, "smoothing", melts ? text + " and melts with it into one syllable" : text, "smoothing");
    if (melts) join_syllables(chain, i, next);
  });
}

// ---- elision

bool same_voice(std::string_view a, std::string_view b) { return is_voiceless(a) == is_voiceless(b); }

/// t and d between consonants: next day, old man. Not before h, nor from nt and lt.
void elide_t_d(Chain& chain) {
  const bool reduced = chain.holds("final_cluster_reduction");
  each(chain, [&](std::size_t i) {
    const auto letter = chain.consonant(i);
    const std::size_t before = chain.previous_in_word(i), next = chain.next_in_group(i);
    if ((letter != "t" && letter != "d") || chain.links[i].place != Place::coda || !ends_word(chain, i)) return;
    if (before == Chain::none || chain.links[before].place != Place::coda || chain.words[chain.links[i].word].weak)
      return;
    const auto first = chain.consonant(before);
    if (first == "\u0279" || !same_voice(first, letter) || is_voiceless(first) != (letter == "t")) return;
    const std::string text = std::string(letter) + " is left out after " + std::string(first);
    if (reduced) return chain.leave_out(i, "elision", text, "final_cluster_reduction");
    constexpr std::array<std::string_view, 5> keeps{"h", "j", "w", "\u0279", "l"};
    if (chain.casual < cluster_elision || next == Chain::none || chain.is_nucleus(next)) return;
    if (!among(chain.consonant(next), keeps)) chain.leave_out(i, "elision", text + " before another consonant");
  });
}

// ---- place and voice

void assimilate_place(Chain& chain, std::size_t i, std::size_t next) {
  const std::string letter = chain.letter(i), other = chain.letter(next);
  const bool alveolar = letter == "t" || letter == "d" || letter == "n";
  if (!alveolar || !chain.links[i].sound.marks.empty()) return;
  const double from = letter == "n" ? nasal_place : stop_place;
  if (chain.casual < from || !at_seam(chain, i)) return;
  const std::size_t column = letter == "t" ? 0 : letter == "d" ? 1 : 2;
  constexpr std::array<const char*, 3> lips{"p", "b", "m"}, back{"k", "\u0261", "\u014b"};
  const bool before_lips = other == "p" || other == "b" || other == "m",
             before_back = other == "k" || other == "\u0261";
  if (!before_lips && !before_back) return;
  chain.change(i, {before_lips ? lips[column] : back[column]}, "assimilation",
               letter + " moves to the place of the " + other + " that follows");
}

/// From the end, so that a cluster moves as one: the n of "mend the" follows its d to the teeth.
void assimilate(Chain& chain) {
  each_from_end(chain, [&](std::size_t i) {
    const std::size_t next = chain.next_in_group(i);
    if (next == Chain::none || chain.links[i].is_vowel() || chain.is_nucleus(next)) return;
    const std::string letter = chain.letter(i), other = chain.letter(next);
    const bool plain_sound = chain.links[i].sound.marks.empty();
    const bool dental_stop = !chain.links[next].sound.marks.empty() && chain.links[next].sound.marks.front() == dental;
    const bool dental_next = other == "\u03b8" || other == "\u00f0" || dental_stop;
    if (plain_sound && dental_next && (letter == "t" || letter == "d" || letter == "n" || letter == "l"))
      return chain.change(i, with_mark(chain.links[i].sound, dental), "assimilation",
                          letter + " moves to the teeth before th");
    if ((letter == "m" || letter == "n") && plain_sound && (other == "f" || other == "v") &&
        chain.casual >= labiodental_nasal && (letter == "m" || chain.casual >= sibilant_place))
      return chain.change(i, {"\u0271"}, "assimilation", letter + " moves to lip and teeth before " + other);
    const bool hush = other == "\u0283" || other == "\u0292", affricate = other == "t\u0283" || other == "d\u0292";
    const double from = hush ? sibilant_place : affricate ? sibilant_before_affricate : 2;
    if (at_seam(chain, i) && (letter == "s" || letter == "z") && chain.casual >= from)
      return chain.change(i, {letter == "s" ? "\u0283" : "\u0292"}, "assimilation",
                          letter + " moves back before " + other);
    assimilate_place(chain, i, next);
  });
}

/// have to, has to, used to: the last consonant loses its voice before to.
void devoice_before_to(Chain& chain) {
  if (chain.casual < fixed_phrases) return;
  each(chain, [&](std::size_t i) {
    const std::string& key = chain.words[chain.links[i].word].key;
    const std::size_t next = chain.next_in_group(i);
    if (!at_seam(chain, i) || chain.words[chain.links[next].word].key != "to") return;
    const std::string letter = chain.letter(i);
    const bool have = key == "have" && letter == "v", has = key == "has" && letter == "z";
    if (have || has) chain.change(i, {have ? "f" : "s"}, "assimilation", letter + " loses its voice before to");
  });
}

// ---- l

/// Whether l stands where many accents darken it: after its vowel, unless a vowel follows in the group.
bool dark_place(const Chain& chain, std::size_t i) {
  if (chain.links[i].place == Place::onset) return false;
  return !chain.sounds_as_vowel(chain.next_in_group(i));
}

void sound_l(Chain& chain) {
  const auto quality = chain.accent.rule("l_quality");
  const bool vocal = chain.holds("l_vocalisation");
  each(chain, [&](std::size_t i) {
    Link& link = chain.links[i];
    if (link.sound.letter != "l") return;
    const bool dark = dark_place(chain, i);
    if (vocal && dark) {
      Sound vowel{"\u028a"};
      if (link.place != Place::nucleus) vowel.marks.emplace_back(non_syllabic);
      return chain.change(i, vowel, "l_vocalisation", "l after its vowel is itself a back vowel", "l_vocalisation");
    }
    if (quality == "dark everywhere" || (dark && quality == "clear onset, dark coda")) link.sound.letter = "\u026b";
  });
}

} // namespace

void join_sounds(Chain& chain) {
  make_syllabic(chain);
  link_r(chain);
  smooth(chain);
  elide_t_d(chain);
  change_t_and_d(chain);
  devoice_before_to(chain);
  assimilate(chain);
  sound_l(chain);
}

} // namespace mw
