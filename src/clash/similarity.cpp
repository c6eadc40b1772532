#include "clash/similarity.h"

#include <algorithm>
#include <array>
#include <map>
#include <mutex>
#include <string_view>
#include <tuple>
#include <vector>

namespace mw {

namespace {

using Classes = std::vector<std::uint64_t>; // natural classes as what their members share, sorted

/// Adds one sound: every class it can join gives a (perhaps new) class.
void add(Classes& classes, std::uint64_t features) {
  Classes grown = classes;
  for (const std::uint64_t shared : classes) grown.push_back(shared & features);
  grown.push_back(features);
  std::sort(grown.begin(), grown.end());
  grown.erase(std::unique(grown.begin(), grown.end()), grown.end());
  classes = std::move(grown);
}

struct Inventory {
  std::vector<std::uint64_t> sounds;
  Classes classes;
  std::vector<double> table; // similarity of sounds i and j at i * sounds.size() + j
  [[nodiscard]] std::size_t index(std::uint64_t features) const {
    return static_cast<std::size_t>(std::find(sounds.begin(), sounds.end(), features) - sounds.begin());
  }
};

double share(const Classes& classes, std::uint64_t a, std::uint64_t b) {
  double both = 0, either = 0;
  for (const std::uint64_t shared : classes) {
    const bool with_a = (shared & ~a) == 0, with_b = (shared & ~b) == 0;
    both += with_a && with_b ? 1 : 0;
    either += with_a || with_b ? 1 : 0;
  }
  return either > 0 ? both / either : 0;
}

Sound sound_of(std::string_view letter, std::string_view glide_letter = {}) {
  Sound sound;
  sound.letter = letter;
  sound.glide_letter = glide_letter;
  return sound;
}

Inventory inventory_of(const std::vector<Sound>& sounds) {
  Inventory inventory;
  for (const Sound& sound : sounds) {
    inventory.sounds.push_back(facts_of(sound).features);
    add(inventory.classes, inventory.sounds.back());
  }
  for (std::uint64_t a : inventory.sounds)
    for (std::uint64_t b : inventory.sounds) inventory.table.push_back(share(inventory.classes, a, b));
  return inventory;
}

/// The sounds that compete in English: 24 consonants, 16 vowels.
const Inventory& english(bool vowels) {
  static const Inventory consonant = [] {
    std::vector<Sound> sounds;
    for (std::string_view letter : {"p", "b", "t", "d", "k", "ɡ", "f", "v", "θ", "ð", "s", "z", "ʃ", "ʒ", "tʃ", "dʒ",
                                    "m", "n", "ŋ", "l", "ɹ", "w", "j", "h"})
      sounds.push_back(sound_of(letter));
    return inventory_of(sounds);
  }();
  static const Inventory vowel = [] {
    std::vector<Sound> sounds;
    for (std::string_view letter : {"i", "ɪ", "ɛ", "æ", "ɑ", "ɔ", "ʊ", "u", "ʌ", "ə", "ɜ"})
      sounds.push_back(sound_of(letter));
    for (const auto& [from, to] : std::array<std::array<std::string_view, 2>, 5>{
             {{"e", "ɪ"}, {"o", "ʊ"}, {"a", "ɪ"}, {"a", "ʊ"}, {"ɔ", "ɪ"}}})
      sounds.push_back(sound_of(from, to));
    return inventory_of(sounds);
  }();
  return vowels ? vowel : consonant;
}

// Plain features give w and r hardly anything in common because r carries no labial feature; English r is rounded and
// the two are a known confusion (several collections of slips, from memory). The value is that of l and r.
bool is_w_and_r(const SoundFacts& a, const SoundFacts& b) {
  const auto r = [](const SoundFacts& f) { return f.key == "ɹ" || f.key == "ɻ"; };
  return (a.key == "w" && r(b)) || (b.key == "w" && r(a));
}
constexpr double w_and_r = 0.45;
// Two sounds whose features are all equal still differ in something that the features do not carry.
constexpr double same_features = 0.9;

/// For a sound that English does not have. Kept: widening the classes is by far the longest
/// step of a measure, and the letters give few pairs.
double outside(const Inventory& base, std::uint64_t a, std::uint64_t b) {
  static std::mutex guard;
  static std::map<std::tuple<const Inventory*, std::uint64_t, std::uint64_t>, double> known;
  const std::lock_guard lock(guard);
  const auto [at, fresh] = known.try_emplace({&base, a, b}, 0.0);
  if (fresh) {
    Classes wider = base.classes;
    add(wider, a);
    add(wider, b);
    at->second = share(wider, a, b);
  }
  return at->second;
}

} // namespace

double similarity(const SoundFacts& a, const SoundFacts& b) {
  if (a.vowel != b.vowel) return 0;
  if (a.key == b.key) return 1;
  if (is_w_and_r(a, b)) return w_and_r;
  if (a.features == b.features) return same_features;
  const Inventory& base = english(a.vowel);
  const std::size_t i = base.index(a.features), j = base.index(b.features), n = base.sounds.size();
  if (i < n && j < n) return base.table[i * n + j];
  return outside(base, a.features, b.features);
}

} // namespace mw
