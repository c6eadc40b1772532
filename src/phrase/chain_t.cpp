#include "phrase/chain_steps.h"

namespace mw {
namespace {
using Place = Link::Place;
// from how casual the speech must be (see chain_meetings.cpp)
constexpr double across_words_tap = 0.2, you_coalescence = 0.7, nt_reduction = 0.75;
constexpr const char* lowered = "\u031e";

/// t d s z and the j of you or your melt across words.
void melt_yod(Chain& chain) {
  if (chain.casual < you_coalescence) return;
  each(chain, [&](std::size_t i) {
    const auto letter = chain.consonant(i);
    const std::size_t next = chain.next_in_group(i);
    if (!at_seam(chain, i) || (letter != "t" && letter != "d") || chain.consonant(next) != "j") return;
    const std::string& key = chain.words[chain.links[next].word].key;
    if (key.substr(0, 3) != "you" || chain.links[next].stress > 0 || chain.links[next].fixed) return;
    const std::string joined = letter == "t" ? "t\u0283" : "d\u0292";
    chain.change(i, {joined}, "yod_coalescence", std::string(letter) + " and the j of " + key + " melt into " + joined);
    chain.links[next].gone = true;
  });
}

enum class Where { before_syllabic_n, before_consonant, word_end, between_vowels, elsewhere };

Where where_t_stands(const Chain& chain, std::size_t i) {
  const std::size_t next = chain.next_in_group(i), before = chain.previous_in_word(i);
  const bool after_sonorant =
      before != Chain::none && (chain.is_nucleus(before) || chain.consonant(before) == "\u0279" ||
                                chain.consonant(before) == "n" || chain.consonant(before) == "l");
  if (!after_sonorant) return Where::elsewhere;
  const Link& link = chain.links[i];
  if (next != Chain::none && chain.links[next].word == link.word && is_syllabic(chain.links[next].sound) &&
      chain.consonant(next) == "n")
    return Where::before_syllabic_n;
  if (link.place == Place::coda && next != Chain::none && !chain.is_nucleus(next) && chain.letter(next) != "\u0283" &&
      chain.consonant(next) != "s" && chain.consonant(next) != "\u03b8")
    return Where::before_consonant;
  if (link.place == Place::coda && ends_word(chain, i)) return Where::word_end;
  const bool weak_after = next != Chain::none && chain.links[next].stress == 0 && chain.is_nucleus(next);
  if (weak_after && chain.is_nucleus(before) && !ends_word(chain, i)) return Where::between_vowels;
  return Where::elsewhere;
}

void catch_t(Chain& chain) {
  if (!chain.holds("t_glottalling")) return;
  const auto limit = chain.accent.rule("t_glottalling_where");
  const Where last = limit == "everywhere"          ? Where::between_vowels
                     : limit == "word-final"        ? Where::word_end
                     : limit == "before consonants" ? Where::before_consonant
                                                    : Where::before_syllabic_n;
  each(chain, [&](std::size_t i) {
    if (chain.consonant(i) != "t" || !plain(chain.links[i].sound, "t")) return;
    if (where_t_stands(chain, i) <= last)
      chain.change(i, {"\u0294"}, "glottalling", "t is a catch in the throat here", "t_glottalling");
  });
}

bool vowel_like(const Chain& chain, std::size_t i) { return chain.is_nucleus(i) || chain.consonant(i) == "\u0279"; }

void tap(Chain& chain) {
  if (!chain.holds("t_flapping")) return;
  each(chain, [&](std::size_t i) {
    const auto letter = chain.consonant(i);
    const std::size_t before = chain.previous_in_group(i), next = chain.next_in_group(i);
    if ((letter != "t" && letter != "d") || !plain(chain.links[i].sound, letter)) return;
    if (before == Chain::none || next == Chain::none || !vowel_like(chain, before) || !chain.is_nucleus(next)) return;
    const bool seam = at_seam(chain, i);
    // inside a word only before an unstressed vowel; across words before any, but not for a word that begins with t
    if (chain.links[before].word != chain.links[i].word || (!seam && chain.links[next].stress != 0)) return;
    if (seam && chain.casual < across_words_tap) return;
    if (is_syllabic(chain.links[next].sound) && chain.consonant(next) == "n") return;
    chain.change(i, {"\u027e"}, "flapping", std::string(letter) + " between vowels becomes a tap", "t_flapping");
  });
}

/// winter, twenty: the t of nt goes with the nasal where taps are at home.
void drop_t_of_nt(Chain& chain) {
  if (chain.accent.rule("t_flapping") != "yes" || chain.casual < nt_reduction) return;
  each(chain, [&](std::size_t i) {
    const std::size_t before = chain.previous_in_word(i), next = chain.next_in_word(i);
    if (chain.consonant(i) != "t" || !plain(chain.links[i].sound, "t") || chain.consonant(before) != "n") return;
    if (chain.is_nucleus(next) && chain.links[next].stress == 0 && !is_syllabic(chain.links[next].sound))
      chain.leave_out(i, "nt_reduction", "the t of nt goes with the nasal in casual speech");
  });
}

void slit_t(Chain& chain) {
  if (!chain.holds("t_slit_fricative")) return;
  each(chain, [&](std::size_t i) {
    const std::size_t before = chain.previous_in_word(i), next = chain.next_in_group(i);
    if (chain.consonant(i) != "t" || !plain(chain.links[i].sound, "t") || !chain.is_nucleus(before)) return;
    const bool weak_next =
        next == Chain::none || (chain.is_nucleus(next) && (chain.links[next].stress == 0 || at_seam(chain, i)));
    if (weak_next && !is_syllabic(chain.links[before].sound))
      chain.change(i, {"t", {lowered}}, "slit_t", "t after a vowel is weakened to a slit fricative",
                   "t_slit_fricative");
  });
}

} // namespace

void change_t_and_d(Chain& chain) {
  melt_yod(chain);
  catch_t(chain);
  tap(chain);
  drop_t_of_nt(chain);
  slit_t(chain);
}

} // namespace mw
