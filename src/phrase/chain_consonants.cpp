#include "phrase/chain.h"

#include "base/text.h"

#include <algorithm>
#include <array>

namespace mw {
namespace {
using Set = LexicalSet;
using Place = Link::Place;
constexpr const char *dental = "\u032a", *unaspirated = "\u02ed";

Sound plain(const std::string& letter) { return {letter}; }
Sound marked(const std::string& letter, const char* mark) { return {letter, {mark}}; }

/// Every consonant that a word list names and nobody typed.
template <typename F> void each_consonant(Chain& chain, F&& f) {
  for (std::size_t i = 0; i < chain.links.size(); ++i) {
    const Link& link = chain.links[i];
    if (!link.gone && !link.fixed && !link.is_vowel()) f(i, chain.consonant(i));
  }
}

void sound_yod(Chain& chain) {
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    const std::size_t before = chain.previous_in_word(i);
    if (letter != "j" || before == Chain::none || chain.links[before].place != Place::onset) return;
    const Link& link = chain.links[i];
    const std::string_view first = chain.consonant(before);
    const bool tongue_tip = first == "t" || first == "d" || first == "n";
    const std::string_view rule = tongue_tip ? "yod_dropping_after_t_d_n" : "yod_dropping_after_s_l_z";
    const bool after = tongue_tip || first == "s" || first == "l" || first == "z" || first == "\u03b8";
    // a j that both voices keep (value, menu) is not loose
    // where t and d always melt with j, a dropping that only varies finds none left after them
    const bool melts = (first == "t" || first == "d") && chain.accent.rule("yod_coalescence_stressed") == "yes";
    if (after && (link.phoneme.loose_yod || link.stress > 0) && chain.holds(rule) && !(melts && chain.varies(rule))) {
      chain.leave_out(i, "yod_dropping", "no j after " + std::string(first) + " in this accent", rule);
      return;
    }
    if ((first == "t" || first == "d") && (link.stress == 0 || chain.holds("yod_coalescence_stressed"))) {
      const std::string joined = first == "t" ? "t\u0283" : "d\u0292";
      chain.change(before, plain(joined), "yod_coalescence", std::string(first) + " and j melt into " + joined,
                   link.stress > 0 ? "yod_coalescence_stressed" : "");
      chain.links[i].gone = true;
    }
  });
}

void sound_wh(Chain& chain) {
  if (!chain.holds("wh_distinction")) return;
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    const bool first = chain.previous_in_word(i) == Chain::none;
    if (letter == "w" && first && starts_with(chain.words[chain.links[i].word].key, "wh"))
      chain.change(i, plain("\u028d"), "wh_distinction", "wh is said without voice", "wh_distinction");
  });
}

void sound_h(Chain& chain) {
  if (!chain.holds("h_dropping")) return;
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    if (letter == "h" && chain.links[i].place == Place::onset)
      chain.leave_out(i, "h_dropping", "h is left out in this accent", "h_dropping");
  });
}

/// Stops for th: everywhere or only for the \u00f0 that begins a word; dental or as t and d.
bool stop_th(Chain& chain, std::size_t i, std::string_view letter) {
  const bool initial = chain.previous_in_word(i) == Chain::none;
  if (!chain.holds("th_stopping")) return false;
  if (chain.accent.rule("th_stopping_where") == "initial \u00f0" && !(initial && letter == "\u00f0")) return false;
  const std::string stop = letter == "\u03b8" ? "t" : "d";
  const Sound sound = chain.accent.rule("th_stop") == "dental" ? marked(stop, dental) : plain(stop);
  chain.change(i, sound, "th_stopping", "th is a stop, " + to_ipa(sound) + ", in this accent", "th_stopping");
  return true;
}

void front_th(Chain& chain, std::size_t i, std::string_view letter) {
  const bool initial = chain.previous_in_word(i) == Chain::none;
  if (!chain.holds("th_fronting") ||
      (initial && (letter == "\u00f0" || chain.accent.rule("th_fronting_where") == "not word-initial")))
    return;
  const std::string lip = letter == "\u03b8" ? "f" : "v";
  chain.change(i, plain(lip), "th_fronting", "th is made with lip and teeth, as " + lip, "th_fronting");
}

void sound_th(Chain& chain) {
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    if (letter != "\u03b8" && letter != "\u00f0") return;
    if (!stop_th(chain, i, letter)) front_th(chain, i, letter);
  });
}

bool ends_in_ing(const Chain& chain, std::size_t i) {
  const Link& link = chain.links[i];
  const std::string& key = chain.words[link.word].key;
  const std::size_t vowel = chain.previous_in_word(i);
  return link.stress == 0 && link.syllable > 0 && chain.next_in_word(i) == Chain::none && key.size() > 4 &&
         key.substr(key.size() - 3) == "ing" && vowel != Chain::none && chain.links[vowel].phoneme.set == Set::KIT;
}

void sound_ng(Chain& chain) {
  const bool lost = !chain.accent.rule("ng_coalescence").empty() && !chain.holds("ng_coalescence");
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    if (letter != "\u014b") return;
    if (ends_in_ing(chain, i) && chain.holds("g_dropping")) {
      chain.change(i, plain("n"), "g_dropping", "-ing is said with n", "g_dropping");
      return;
    }
    const std::size_t next = chain.next_in_word(i);
    const bool spelled = chain.words[chain.links[i].word].key.find("ng") != std::string::npos;
    if (lost && spelled && (next == Chain::none || chain.is_nucleus(next)))
      chain.insert_after(i, "\u0261", plain("\u0261"), "ng_kept", "the \u0261 of ng is said", "ng_coalescence");
  });
}

void sound_t_d(Chain& chain) {
  if (!chain.holds("retroflex_t_d")) return;
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    const bool as_listed = chain.links[i].sound == plain(std::string(letter));
    if (!as_listed || (letter != "t" && letter != "d")) return;
    chain.change(i, plain(letter == "t" ? "\u0288" : "\u0256"), "retroflex",
                 std::string(letter) + " is made with the tip curled back", "retroflex_t_d");
  });
}

/// p t k without their puff of air where a voice that aspirates would have it: before a stressed vowel or first in the word,
/// not after s. Plain p t k are aspirated there by the score.
void sound_aspiration(Chain& chain) {
  if (chain.accent.rule("aspiration_of_p_t_k").empty() || chain.holds("aspiration_of_p_t_k")) return;
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    const Link& link = chain.links[i];
    const std::size_t before = chain.previous_in_word(i);
    const bool after_s = chain.consonant(before) == "s" && chain.links[before].syllable == link.syllable;
    const bool strong = link.stress > 0 || before == Chain::none;
    if ((letter != "p" && letter != "t" && letter != "k") || link.place != Place::onset || !strong || after_s) return;
    if (!link.sound.marks.empty() || link.sound.letter == "t\u0283") return;
    chain.change(i, marked(link.sound.letter, unaspirated), "unaspirated", std::string(letter) + " has no puff of air", "aspiration_of_p_t_k");
  });
}

void sound_v_w(Chain& chain) {
  if (!chain.holds("v_w_merger")) return;
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    if (letter == "v" || letter == "w")
      chain.change(i, plain("\u028b"), "v_w_merger", "v and w are one sound between lip and teeth", "v_w_merger");
  });
}

/// Glide after k and \u0261 before an open front vowel (Jamaica: cat).
void sound_velars(Chain& chain) {
  if (!chain.holds("palatal_glide_after_velars")) return;
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    const std::size_t next = chain.next_in_word(i);
    if ((letter != "k" && letter != "\u0261") || chain.links[i].place != Place::onset || next == Chain::none) return;
    const auto set = chain.links[next].phoneme.set;
    if (set != Set::TRAP && set != Set::BATH && set != Set::START && set != Set::PALM) return;
    chain.insert_after(i, "j", plain("j"), "palatal_glide", "a j glides from the velar stop to the open vowel",
                       "palatal_glide_after_velars");
    chain.links[i + 1].place = Place::onset;
  });
}

} // namespace

Sound sound_of_r(const Accent& accent, Place place) {
  const auto type = accent.rule("r_realisation");
  Sound approximant{"\u0279"};
  approximant.kind = "tip-up";
  if (type == "bunched") approximant.kind = "bunched";
  // a tap or trill is weakened to an approximant after the vowel (accent notes on Scotland and India)
  if (place == Place::coda || type == "bunched" || type == "tip-up" || type.empty()) return approximant;
  if (type == "tap") return {"\u027e"};
  if (type == "trill") return {"r"};
  if (type == "retroflex") return {"\u027b"};
  if (type == "labiodental") return {"\u028b"};
  return {"\u0281"};
}

void sound_consonants(Chain& chain) {
  sound_yod(chain);
  sound_wh(chain);
  sound_h(chain);
  sound_th(chain);
  sound_ng(chain);
  sound_v_w(chain);
  sound_velars(chain);
  each_consonant(chain, [&](std::size_t i, std::string_view letter) {
    if (letter == "\u0279") chain.links[i].sound = sound_of_r(chain.accent, chain.links[i].place);
  });
  sound_t_d(chain);
  sound_aspiration(chain);
}

} // namespace mw
