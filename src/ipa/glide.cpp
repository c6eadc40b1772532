#include "ipa/glide.h"

#include "ipa/inventory.h"

#include <algorithm>

namespace mw {
namespace {
/// Steps down from close; a letter that is no vowel is our own mistake.
int depth(const Letter& vowel) {
  constexpr std::string_view heights[] = {"close", "near-close", "close-mid", "mid", "open-mid", "near-open", "open"};
  return static_cast<int>(std::find(std::begin(heights), std::end(heights), vowel.height) - std::begin(heights));
}
constexpr int near_close = 1, close_mid = 2, near_open = 5, open = 6;

bool is_front(const Letter& vowel) { return vowel.backness == "front" || vowel.backness == "near-front"; }
bool is_central(const Letter& vowel) { return vowel.backness == "central"; }

bool is_held(const std::vector<std::string>& marks) {
  return std::any_of(marks.begin(), marks.end(), [](const auto& mark) { return mark == "ː" || mark == "ˑ"; });
}

bool closes(const Letter& from, const Letter& to) {
  if (from.ipa == "ɝ" || from.ipa == "ɚ") return false; // furry has two syllables
  if (depth(from) > near_close && depth(to) <= near_close) return true;
  if (depth(from) >= near_open && (depth(to) == close_mid || to.ipa == "ɔ") && !is_central(to)) return true;
  // broad forms of mouth and choice: a short front vowel never stands before another vowel otherwise
  const bool rounded_back = to.rounded && !is_front(to) && !is_central(to);
  if ((from.ipa == "æ" || from.ipa == "ɛ") && rounded_back) return true;
  return from.rounded && !is_front(from) && depth(from) >= close_mid && to.ipa == "e";
}
bool tightens(const Letter& from, const Letter& to) {
  if (from.ipa == "ʉ" && to.ipa == "u") return true;
  return depth(from) == near_close && depth(to) < near_close && is_front(from) == is_front(to);
}
bool centres(const Letter& from, const Letter& to) {
  return (to.ipa == "ə" || to.ipa == "ɐ" || to.ipa == "ɚ") && 
         (!is_central(from) || depth(from) <= near_close) && (depth(from) < open || from.rounded);
}
} // namespace

bool is_usual_glide(const Sound& glide) {
  const Letter *from = find_letter(glide.letter), *to = find_letter(glide.glide_letter);
  if (from == nullptr || to == nullptr || !from->vowel || !to->vowel) return false;
  if (is_held(glide.marks) || is_held(glide.glide_marks)) return false;
  return closes(*from, *to) || tightens(*from, *to) || centres(*from, *to);
}

} // namespace mw
