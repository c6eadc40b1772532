#pragma once

#include "ipa/parse.h"
#include "phrase/pronunciation.h"

#include <string_view>

namespace mw::test {

/// A pronunciation from IPA as typed, without a pronouncer. Bad IPA fails the test at once.
inline Pronunciation said(std::string_view ipa) {
  const auto words = parse_transcription(ipa, Notation::ipa);
  MW_EXPECT(words.has_value());
  Pronunciation out;
  for (const auto& spelled : *words) {
    Word word;
    word.text = spelled.text;
    word.span = spelled.span;
    word.source = WordSource::typed;
    word.group_end = spelled.group_end;
    for (const auto& s : spelled.syllables) {
      Syllable syllable;
      syllable.onset = s.onset;
      syllable.nucleus = s.nucleus;
      syllable.coda = s.coda;
      syllable.stress = s.stress;
      word.syllables.push_back(syllable);
    }
    out.words.push_back(word);
  }
  return out;
}

/// Phrases of the theatre's radio play, British and American, of many lengths and clusters.
inline constexpr std::string_view spoken_phrases[] = {
    "ˈmɛnd ðə ˈkɛtəl",
    "ˈpɒt ən ˈpæn | ˈtɪn ən ˈkɒpə",
    "ðə ˈkɛɾl̩z ˈspaʊt ɪz ˈspɪlɪŋ ˈstiːm",
    "ˈfɔː ˈfæt ˈflæsks ˈfɛl ɒf ðə ˈʃɛlf",
    "hi ˈtæps ðə ˈtɪn ən ˈtɝnz ɪt əˈɡɛn | ən ˈðɛn hi ˈsaɪz",
    "ʃi ˈsoʊɫdɚz ˈʃaɪni ˈhændəɫz ɑn ə ˈsʌni ˈbɛntʃ",
    "ˈkwɪk ˈkɹɪsp ˈklɪks əv ðə ˈklɒk",
    "ə ˈdʒʌɡ ə ˈdʒɑː ən ə ˈdʒɛnəɹəs ˈdʒɪndʒə ˈtʃiːz",
    "wɪə ˈwɛɪtɪŋ fə ðə ˈwɔːtə tə ˈwɔːm",
    "ˈɪntɹəstɪŋ ˌɪnstɹəˈmɛnts",
    "ˈbʌtn̩ ˈɹɪdn̩ ˈbɒtl̩z",
    "aɪ ˈəʊn ˈeɪt ˈoʊk ˈaʊls",
    "ˈsɪksθs ˈstɹɛŋkθs",
    "ə",
};

} // namespace mw::test
