#include "ipa/parse.h"
#include "base/text.h"
#include "ipa/inventory.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
/// Syllables by `.`, parts of a syllable by blanks, stress as a digit behind.
std::string shown(const std::vector<SpelledWord>& words) {
  std::string text;
  for (const auto& word : words) {
    if (!text.empty()) text += " / ";
    for (std::size_t i = 0; i < word.syllables.size(); ++i) {
      const auto& syllable = word.syllables[i];
      text += i > 0 ? " . " : "";
      for (const auto& sound : syllable.onset) text += to_ipa(sound) + " ";
      text += "<" + to_ipa(syllable.nucleus) + ">";
      for (const auto& sound : syllable.coda) text += " " + to_ipa(sound);
      text += syllable.stress > 0 ? to_text(syllable.stress) : "";
    }
    if (word.group_end) text += " |";
  }
  return text;
}
std::string ipa(std::string_view text) {
  const auto words = parse_transcription(text, Notation::ipa);
  return words ? shown(*words) : "problem: " + words.error().what;
}
std::string xsampa(std::string_view text) {
  const auto words = parse_transcription(text, Notation::xsampa);
  return words ? shown(*words) : "problem: " + words.error().what;
}
Problem problem_of(std::string_view text, Notation notation = Notation::ipa) {
  const auto words = parse_transcription(text, notation);
  REQUIRE_FALSE(words.has_value());
  return words.error();
}
} // namespace

TEST_CASE("parse: stress marks, syllable breaks, words and groups") {
  CHECK(ipa("ˈmɛnd ðə ˈkɛ.təl") == "m <ɛ> n d1 / ð <ə>1 / k <ɛ>1 . t <ə> l");
  CHECK(ipa("ɪkˈspləʊd") == "<ɪ> k . s p l <əʊ> d1");
  CHECK(ipa("ˌɪnfəˈmeɪʃən") == "<ɪ> n2 . f <ə> . m <eɪ>1 . ʃ <ə> n");
  CHECK(ipa("pɒt | pan") == "p <ɒ> t1 | / p <a> n1");
  CHECK(ipa("pɒt‖pan ‖") == "p <ɒ> t1 | / p <a> n1 |");
  CHECK(ipa("/pɒt/") == ipa("pɒt"));
  CHECK(ipa(" [pɒt] ") == ipa("pɒt"));
  CHECK(ipa("") == "");
  CHECK(ipa("[]") == "");
}

TEST_CASE("parse: words without a stress mark are stressed on their first syllable") {
  CHECK(ipa("kɛtəl") == "k <ɛ>1 . t <ə> l");
  CHECK(ipa("kɛˌtəl") == "k <ɛ> . t <ə> l2");
}

TEST_CASE("parse: syllables are divided by the longest English onset") {
  CHECK(ipa("ɛkstɹə") == "<ɛ> k1 . s t ɹ <ə>");
  CHECK(ipa("sɪŋɪŋ") == "s <ɪ> ŋ1 . <ɪ> ŋ");
  CHECK(ipa("ætləs") == "<æ> t1 . l <ə> s");
  CHECK(ipa("mɪstʃɪf") == "m <ɪ> s1 . tʃ <ɪ> f");
  CHECK(ipa("bʌtn̩z") == "b <ʌ>1 . t <n̩> z");
}

TEST_CASE("parse: usual English glides are one nucleus, other vowels in a row are two") {
  for (const char* glide : {"aɪ", "aʊ", "ɔɪ", "eɪ", "oʊ", "əʊ", "ɪə", "eə", "ʊə", "ɛɪ", "æɪ", "äɪ", "ɑɪ", "ʌɪ", "əɪ", "æʊ", "ʌʊ", "ɔʊ", "ɛə",
                            "iə", "uə", "əʉ", "ɐʉ", "æɔ", "ɑe", "ɪi", "ʊu", "ɪɚ", "oɪ", "ɒɪ", "ɛʊ", "æɒ", "ɛɔ", "oe", "ʉə"}) {
    CAPTURE(glide);
    const auto words = parse_transcription(glide, Notation::ipa);
    REQUIRE(words.has_value());
    REQUIRE(words->front().syllables.size() == 1);
    CHECK(is_glide(words->front().syllables.front().nucleus));
    CHECK(parse_sound(glide, Notation::ipa).has_value());
  }
  CHECK(ipa("kɹieɪt") == "k ɹ <i>1 . <eɪ> t");
  CHECK(ipa("keɪɒs") == "k <eɪ>1 . <ɒ> s");
  CHECK(ipa("faɪə") == "f <aɪ>1 . <ə>");
  CHECK(ipa("siːɪŋ") == "s <iː>1 . <ɪ> ŋ");
  CHECK(ipa("fɝi") == "f <ɝ>1 . <i>");
  CHECK(ipa("a.ɪ") == "<a>1 . <ɪ>");
  CHECK(ipa("biˈɒn") == "b <i> . <ɒ> n1");
}

TEST_CASE("parse: a tie or a non-syllabic mark makes any two vowels one nucleus") {
  CHECK(ipa("i͡u") == "<iu̯>1");
  CHECK(ipa("iu̯") == "<iu̯>1");
  CHECK(ipa("i̯a") == "<i̯a>1");
  CHECK(ipa("a͜ɪ") == "<aɪ>1");
  CHECK(ipa("aɪ̯") == "<aɪ>1");
}

TEST_CASE("parse: t and esh are one affricate unless a break stands between; others need the tie") {
  CHECK(ipa("pætʃ") == "p <æ> tʃ1");
  CHECK(ipa("pæt͡ʃ") == ipa("pætʃ"));
  CHECK(ipa("pæt͜ʃ") == ipa("pætʃ"));
  CHECK(ipa("pæʧ") == ipa("pætʃ"));
  CHECK(ipa("kæt.ʃɪt") == "k <æ> t1 . ʃ <ɪ> t");
  CHECK(ipa("kæts") == "k <æ> t s1");
  CHECK(ipa("kæt͡s") == "k <æ> t͡s1");
  CHECK(ipa("t͡ʂa") == "ʈ͡ʂ <a>1");
  CHECK(ipa("k͡pa") == "k͡p <a>1");
  CHECK(ipa("ŋ͡ma") == "ŋ͡m <a>1");
  CHECK(ipa("kpa") == "k p <a>1");
  CHECK(ipa("t̪͡s̪a") == ipa("t͡s̪a"));
  CHECK(ipa("t̠ʃa") == ipa("tʃ̠a"));
}

TEST_CASE("parse: every normalisation and spelling of the same text reads alike") {
  for (const char* text : {"çã ŋ̊a", "ḁ ẽ", "ç̬a", "tʰɛ̃"}) {
    CAPTURE(text);
    CHECK(ipa(to_nfc(text)) == ipa(to_nfd(text)));
    CHECK(ipa(text).find("problem") == std::string::npos);
  }
  CHECK(ipa("gəʊ") == ipa("ɡəʊ"));
  CHECK(ipa("əl̴") == ipa("əɫ"));
  CHECK(ipa("ə˞") == ipa("ɚ"));
  // the cedilla is found behind another mark
  CHECK(parse_sound("c\u032C\u0327", Notation::ipa).value() == parse_sound("\u00E7\u032C", Notation::ipa).value());
}

TEST_CASE("parse: words carry their span in code points and their signs") {
  const auto words = parse_transcription("/ˈpʰɒt  ˈtɪn/", Notation::ipa);
  REQUIRE(words.has_value());
  REQUIRE(words->size() == 2);
  CHECK((*words)[0].span == Span{1, 6});
  CHECK((*words)[0].text == "ˈpʰɒt");
  CHECK((*words)[1].span == Span{8, 12});
  CHECK((*words)[1].text == "ˈtɪn");
}

TEST_CASE("parse: marks on a letter are kept in one order, doubled length and tone letters stay") {
  const auto sound = parse_sound("t\u02B0\u02B7\u032A", Notation::ipa);
  REQUIRE(sound.has_value());
  CHECK(sound->letter == "t");
  CHECK(sound->marks == std::vector<std::string>{"\u032A", "ʷ", "ʰ"});
  CHECK(parse_sound("aːː", Notation::ipa).value().marks == std::vector<std::string>{"ː", "ː"});
  CHECK(parse_sound("a˥˩", Notation::ipa).value().marks == std::vector<std::string>{"˥", "˩"});
  CHECK(ipa("man˥") == "m <a˥> n1"); // a tone letter behind the coda belongs to the vowel
  CHECK(ipa("ꜜpat") == ipa("pat"));
}

TEST_CASE("parse: ejectives, implosives and clicks") {
  CHECK(parse_sound("kʼ", Notation::ipa).value() == Sound{"k", {"ʼ"}});
  CHECK(parse_sound("k’", Notation::ipa).value() == Sound{"k", {"ʼ"}});
  CHECK(parse_sound("t͡sʼ", Notation::ipa).value() == Sound{"ts", {"ʼ"}});
  CHECK(parse_sound("ɗ", Notation::ipa).value() == Sound{"ɗ"});
  CHECK(parse_sound("k͡ǃ", Notation::ipa).value() == Sound{"ǃ"});
  CHECK(parse_sound("ŋ͡ǃ", Notation::ipa).value() == Sound{"ŋǃ"});
  CHECK(parse_sound("d_<", Notation::xsampa).value() == Sound{"ɗ"});
  CHECK(parse_sound("k_>", Notation::xsampa).value() == Sound{"k", {"ʼ"}});
}

TEST_CASE("parse: a word without vowel is said on its most sonorous consonant, stops alone are a problem") {
  CHECK(ipa("ʃː") == "<ʃ̩ː>1");
  CHECK(ipa("pst") == "p <s̩> t1");
  CHECK(problem_of("pt").span == Span{0, 2});
}

TEST_CASE("parse: X-SAMPA reads like the IPA, longest code first") {
  CHECK(xsampa("\"mEnd D@ \"kE.t@l") == ipa("ˈmɛnd ðə ˈkɛ.təl"));
  CHECK(xsampa("p{t_S") == ipa("pæt͡ʃ"));
  CHECK(xsampa("p{tS") == ipa("pætʃ"));
  CHECK(xsampa("t_Ti") == ipa("t͡θi"));
  CHECK(xsampa("a_T") == ipa("a̋"));
  CHECK(xsampa("k_xa") == ipa("k͡xa"));
  CHECK(xsampa("e_x") == ipa("e̽"));
  CHECK(xsampa("r\\`i") == ipa("ɻi"));
  CHECK(xsampa("r`i") == ipa("ɽi"));
  CHECK(xsampa("d`Ot`") == ipa("ɖɔʈ"));
  CHECK(xsampa("b3`d") == ipa("bɝd"));
  CHECK(xsampa("n_=a") == ipa("n̩a"));
  CHECK(xsampa("bVt=") == xsampa("bVt=")); // a stop cannot be syllabic: both are the same problem
  CHECK(xsampa("bVtn=z") == ipa("bʌtn̩z"));
  CHECK(xsampa("o~") == ipa("õ"));
  CHECK(xsampa("t_j") == xsampa("t'"));
  CHECK(xsampa("t_?\\a") == ipa("tˤa"));
  CHECK(xsampa("N_=\\a") == ipa("ŋ͡ǂa"));
  CHECK(xsampa("|\\|\\a") == ipa("ǁa"));
  CHECK(xsampa("pQt | p{n") == ipa("pɒt | pæn"));
  CHECK(xsampa("I\\") == ipa("ɪ̈"));
  CHECK(xsampa("a_I") == ipa("a͡ɪ"));
  CHECK(xsampa("i:") == ipa("iː"));
}

TEST_CASE("parse: a sign outside the notation is a problem that quotes sign, code point and position") {
  const auto problem = problem_of("pɒЖt");
  CHECK(problem.kind == ProblemKind::input);
  CHECK(problem.span == Span{2, 3});
  CHECK(problem.where.find("Ж") != std::string::npos);
  CHECK(problem.where.find("U+0416") != std::string::npos);
  CHECK(problem.where.find("sign 3") != std::string::npos);
  CHECK(problem_of("p$t", Notation::xsampa).span == Span{1, 2});
  CHECK(problem_of("p😀t").where.find("U+1F600") != std::string::npos);
  CHECK(parse_transcription("\xFF", Notation::ipa).error().kind == ProblemKind::input);
}

TEST_CASE("parse: a mark on the wrong letter is a problem at the mark") {
  const auto problem = problem_of("ak̪a");
  CHECK(problem.span == Span{2, 3});
  CHECK(problem.what.find("dental") != std::string::npos);
  CHECK(problem.where.find("U+032A") != std::string::npos);
  CHECK(problem_of("p\u0303a").what.find("nasalised") != std::string::npos);
  CHECK(problem_of("k_da", Notation::xsampa).span == Span{1, 3});
  CHECK(problem_of("ʰa").span == Span{0, 1});
  CHECK(problem_of("e\u031D\u031E").what.find("exclude") != std::string::npos);
  CHECK(problem_of("e\u031D\u031D").what.find("twice") != std::string::npos);
  CHECK(problem_of("t͡ka").span == Span{0, 3});
  CHECK(problem_of("t͡").span == Span{1, 2});
  CHECK(problem_of("͡ta").span == Span{0, 1});
  CHECK(problem_of("a͡t").span == Span{0, 3});
  CHECK(problem_of("paˈ").span == Span{2, 3});
}

TEST_CASE("parse: long and odd input ends soon in words or in a problem") {
  std::string tones = "m", consonants = "a", words;
  for (int i = 0; i < 9990; ++i) tones += "˥", consonants += "s";
  for (int i = 0; i < 1250; ++i) words += "ˈkɛtl̩z ";
  CHECK(problem_of(tones).what.find("twelve") != std::string::npos);
  CHECK(parse_transcription(consonants + "a", Notation::ipa).value().front().syllables.size() == 2);
  CHECK(parse_transcription(words, Notation::ipa).value().size() == 1250);
}

TEST_CASE("parse: one sound is asked for, more or none is a problem") {
  CHECK(parse_sound("[s]", Notation::ipa).value() == Sound{"s"});
  CHECK(parse_sound("aɪ", Notation::ipa).value() == Sound{"a", {}, "ɪ"});
  CHECK_FALSE(parse_sound("st", Notation::ipa).has_value());
  CHECK_FALSE(parse_sound("t.ʃ", Notation::ipa).has_value());
  CHECK_FALSE(parse_sound("", Notation::ipa).has_value());
  CHECK_FALSE(parse_sound("ˈ", Notation::ipa).has_value());
}
