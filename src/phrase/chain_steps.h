#pragma once

#include "phrase/chain.h"

#include <algorithm>
#include <array>

namespace mw {

// What the rules of connected speech share (chain_meetings.cpp, chain_t.cpp).

template <std::size_t N> bool among(std::string_view letter, const std::array<std::string_view, N>& list) {
  return std::find(list.begin(), list.end(), letter) != list.end();
}
inline Sound with_mark(Sound sound, const char* mark) {
  sound.marks.emplace_back(mark);
  return sound;
}
inline bool plain(const Sound& sound, std::string_view letter) { return sound.letter == letter && sound.marks.empty(); }

template <typename F> void each(Chain& chain, F&& f) {
  for (std::size_t i = 0; i < chain.links.size(); ++i)
    if (!chain.links[i].gone && !chain.links[i].fixed) f(i);
}

template <typename F> void each_from_end(Chain& chain, F&& f) {
  for (std::size_t i = chain.links.size(); i-- > 0;)
    if (!chain.links[i].gone && !chain.links[i].fixed) f(i);
}

/// A word ends with this link and another begins in the same group.
inline bool at_seam(const Chain& chain, std::size_t i) {
  const std::size_t next = chain.next_in_group(i);
  return next != Chain::none && chain.links[next].word != chain.links[i].word;
}
inline bool ends_word(const Chain& chain, std::size_t i) { return chain.next_in_word(i) == Chain::none; }

/// Melting with j, catches, taps, loss in nt, slit t: all that happens to t and d where sounds meet, in this order.
void change_t_and_d(Chain& chain);

} // namespace mw
