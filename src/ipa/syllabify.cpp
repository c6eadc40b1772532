#include "ipa/syllabify.h"

#include "base/text.h"
#include "ipa/inventory.h"
#include "ipa/parse.h"

#include <algorithm>
#include <set>

namespace mw {
namespace {
/// Clusters that begin English words. Cruttenden, Gimson's Pronunciation of English (8th ed. 2014), ch. 10, with the
/// clusters in j that accents without yod-dropping have; sf vl and the like of single loans are left out.
const std::set<std::string>& clusters() {
  static const std::set<std::string> all = [] {
    std::set<std::string> made;
    for (const char* row :
         {"pl pɹ pj bl bɹ bj tɹ tw tj dɹ dw dj kl kɹ kw kj ɡl ɡɹ ɡw ɡj fl fɹ fj vj θɹ θw θj ʃɹ hj mj nj lj zj sj",
          "sl sw sm sn sp st sk sf spl spɹ spj stɹ stj skl skɹ skw skj smj"})
      for (const auto& cluster : split(row, ' ')) made.insert(cluster);
    return made;
  }();
  return all;
}

/// The letter as the cluster table writes it.
std::string broad(const Sound& sound) {
  static const std::set<std::string> rhotics{"r", "ɹ", "ɻ", "ʁ", "ʋ", "ɾ"}, laterals{"l", "ɫ"};
  if (rhotics.count(sound.letter) > 0) return "ɹ";
  if (laterals.count(sound.letter) > 0) return "l";
  if (sound.letter == "ʍ") return "w";
  return sound.letter;
}

int sonority(const Sound& sound) {
  const Letter* letter = find_letter(sound.letter);
  if (letter == nullptr) return 0;
  if (letter->vowel) return 6;
  if (is_syllabic(sound)) return 5;
  if (letter->manner == "approximant" || letter->manner == "lateral" || letter->manner == "trill") return 4;
  if (letter->manner == "nasal") return 3;
  if (letter->manner.find("fricative") != std::string::npos) return letter->place == "glottal" ? 1 : 2;
  return 0;
}
bool is_nucleus(const Sound& sound) { return sonority(sound) >= 5; }

std::vector<Sound> part(const std::vector<Sound>& sounds, std::size_t from, std::size_t to) {
  return {sounds.begin() + static_cast<std::ptrdiff_t>(from), sounds.begin() + static_cast<std::ptrdiff_t>(to)};
}
} // namespace

std::size_t most_sonorous(const std::vector<Sound>& sounds) {
  const auto top = std::max_element(sounds.begin(), sounds.end(),
                                    [](const auto& a, const auto& b) { return sonority(a) < sonority(b); });
  return top == sounds.end() ? 0 : static_cast<std::size_t>(top - sounds.begin());
}

bool is_english_onset(const std::vector<Sound>& consonants) {
  if (consonants.empty()) return true;
  if (consonants.size() == 1) return consonants[0].letter != "ŋ";
  std::string cluster;
  for (const auto& consonant : consonants) cluster += broad(consonant);
  return clusters().count(cluster) > 0;
}

std::vector<SpelledSyllable> syllabify(const std::vector<Sound>& sounds) {
  std::vector<std::size_t> nuclei;
  for (std::size_t i = 0; i < sounds.size(); ++i)
    if (is_nucleus(sounds[i])) nuclei.push_back(i);
  if (nuclei.empty() && !sounds.empty()) nuclei.push_back(most_sonorous(sounds));
  std::vector<SpelledSyllable> syllables;
  std::size_t start = 0;
  for (std::size_t k = 0; k < nuclei.size(); ++k) {
    // the next syllable takes the longest legal onset out of the consonants in between
    std::size_t end = k + 1 < nuclei.size() ? nuclei[k + 1] : sounds.size();
    if (k + 1 < nuclei.size()) {
      constexpr std::size_t longest_onset = 3;
      end = nuclei[k] + 1;
      if (nuclei[k + 1] - end > longest_onset) end = nuclei[k + 1] - longest_onset;
      while (!is_english_onset(part(sounds, end, nuclei[k + 1]))) ++end;
    }
    syllables.push_back({part(sounds, start, nuclei[k]), sounds[nuclei[k]], part(sounds, nuclei[k] + 1, end), 0});
    start = end;
  }
  return syllables;
}

} // namespace mw
