#include "phrase/spoken.h"

#include "accent/rules.h"

#include <set>

using namespace mw;
using namespace mw::test;

namespace {
/// A rule switched on by `on` and off by `off` in an accent; `yes` shows it, `no` does not even when it is on.
struct Example {
  std::string rule, on, off, accent, process;
  std::string_view yes, no;
  double casual = 0.5;
};

const Example examples[]{
    {"linking_r", "yes", "no", "SSBE", "linking_r", "far away", "far window"},
    {"intrusive_r", "yes", "no", "SSBE", "intrusive_r", "law and order", "see it"},
    {"t_flapping", "yes", "no", "GA", "flapping", "better water", "a tin till"},
    {"t_flapping", "yes", "no", "GA", "flapping", "get up", "attend"},
    {"t_glottalling", "yes", "no", "SSBE", "glottalling", "get down", "get up"},
    {"t_glottalling", "yes", "no", "COCK", "glottalling", "better", "attend"},
    {"t_slit_fricative", "yes", "no", "IRE", "slit_t", "the pot", "stop"},
    {"th_fronting", "yes", "no", "COCK", "th_fronting", "think mother", "this tin"},
    {"th_stopping", "yes", "no", "IRE", "th_stopping", "think of that", "tin"},
    {"l_vocalisation", "yes", "no", "EST", "l_vocalisation", "milk", "lead"},
    {"yod_dropping_after_t_d_n", "yes", "no", "GA", "yod_dropping", "new tune", "music"},
    {"yod_dropping_after_s_l_z", "yes", "no", "RP", "yod_dropping", "assume", "music"},
    {"yod_coalescence_stressed", "yes", "no", "SSBE", "yod_coalescence", "tune", "tin"},
    {"h_dropping", "yes", "no", "COCK", "h_dropping", "a house", "a mouse"},
    {"wh_distinction", "yes", "no", "SSE", "wh_distinction", "white whistle", "witch"},
    {"ng_coalescence", "no", "yes", "NENG", "ng_kept", "singer", "finger"},
    {"g_dropping", "yes", "no", "GA", "g_dropping", "mending", "thing"},
    {"retroflex_t_d", "yes", "no", "IND", "retroflex", "tin", "pin"},
    {"v_w_merger", "yes", "no", "IND", "v_w_merger", "very well", "fell"},
    {"final_cluster_reduction", "yes", "no", "JAM", "elision", "last", "lot"},
    {"palatal_glide_after_velars", "yes", "no", "JAM", "palatal_glide", "cat", "cot"},
    {"weak_vowel_merger", "yes", "no", "AUSG", "weak_vowel_merger", "rabbit", "magic"},
    {"Mary_marry_merry_merger", "yes", "no", "GA", "vowel_merger", "marry", "mat"},
    {"mirror_nearer_merger", "yes", "no", "SSBE", "vowel_merger", "mirror", "mitten"},
    {"hurry_furry_merger", "yes", "no", "GA", "vowel_merger", "hurry", "hut"},
    {"COT_CAUGHT_merger", "yes", "no", "RP", "vowel_merger", "caught", "cot"},
    {"FATHER_BOTHER_merger", "yes", "no", "RP", "vowel_merger", "bother", "father"},
    {"NORTH_FORCE_merger", "yes", "no", "WAL", "vowel_merger", "pour", "horse"},
    {"PAW_PORE_merger", "yes", "no", "WAL", "vowel_merger", "paw", "pore"},
    {"CURE_FORCE_merger", "yes", "no", "RP", "vowel_merger", "poor", "pour"},
    {"NEAR_SQUARE_merger", "yes", "no", "NZ", "vowel_merger", "bear", "beer"},
    {"NURSE_SQUARE_merger", "yes", "no", "NENG", "vowel_merger", "fair", "fur"},
    {"FOOT_GOOSE_merger", "yes", "no", "RP", "vowel_merger", "pull", "pool"},
    {"TRAP_PALM_merger", "yes", "no", "RP", "vowel_merger", "father", "trap"},
    {"FOOT_STRUT_split", "no", "yes", "RP", "vowel_merger", "cup", "put"},
    {"TRAP_BATH_split", "no", "yes", "RP", "vowel_merger", "bath", "trap"},
    {"LOT_CLOTH_split", "yes", "no", "RP", "vowel_merger", "cloth", "cot"},
    {"happY_tensing", "no", "yes", "GA", "vowel_merger", "happy", "pit"},
    {"pin_pen_merger", "yes", "no", "GA", "vowel_merger", "pen", "pet"},
    {"smoothing", "yes", "no", "RP", "smoothing", "fire power", "file"},
    {"syllabic_consonants", "yes", "no", "SSBE", "syllabic_consonant", "kettle button", "comma"},
};
} // namespace

TEST_CASE("rules: each has a phrase that shows it and one that does not, and does nothing when it is off") {
  for (const auto& row : examples) {
    INFO(row.rule << " in " << row.accent);
    const Accent on = with_rule(row.accent, row.rule, row.on), off = with_rule(row.accent, row.rule, row.off);
    INFO(ipa(spoken(row.yes, on, row.casual)) << " / " << ipa(spoken(row.no, on, row.casual)));
    CHECK(count(spoken(row.yes, on, row.casual), row.process) > 0);
    CHECK(count(spoken(row.no, on, row.casual), row.process) == 0);
    CHECK(count(spoken(row.yes, off, row.casual), row.process) == 0);
  }
}

TEST_CASE("rules: every rule that acts has an example or a test of its own") {
  std::set<std::string> seen;
  for (const auto& row : examples) seen.insert(row.rule);
  // shown in the cases below
  for (const char* name : {"national_norm", "rhotic", "r_realisation", "l_quality", "t_glottalling_where",
                           "th_fronting_where", "th_stopping_where", "th_stop", "full_vowels_in_weak_forms"})
    seen.insert(name);
  for (const auto& rule : rule_names()) {
    INFO(rule.name);
    if (rule.acts) CHECK(seen.count(std::string(rule.name)) == 1);
  }
}

TEST_CASE("rules: a merger that is switched makes one vowel of two words, and a switched split two of one") {
  const struct {
    std::string accent, rule, one, apart;
    std::string_view a, b;
  } rows[]{{"RP", "COT_CAUGHT_merger", "yes", "no", "cot", "caught"},   {"CAN", "COT_CAUGHT_merger", "yes", "no", "cot", "caught"},
           {"RP", "FOOT_STRUT_split", "no", "yes", "put", "putt"},      {"NENG", "FOOT_STRUT_split", "no", "yes", "put", "putt"},
           {"RP", "FOOT_GOOSE_merger", "yes", "no", "pull", "pool"},    {"SSE", "FOOT_GOOSE_merger", "yes", "no", "pull", "pool"},
           {"GA", "pin_pen_merger", "yes", "no", "pin", "pen"},         {"RP", "CURE_FORCE_merger", "yes", "no", "pour", "poor"},
           {"SSBE", "NEAR_SQUARE_merger", "yes", "no", "beer", "bear"}, {"GA", "TRAP_BATH_split", "no", "yes", "trap", "bath"}};
  const auto nucleus = [](std::string_view word, const Accent& accent) { return spoken(word, accent).words[0].syllables[0].nucleus; };
  for (const auto& row : rows) {
    INFO(row.accent << ' ' << row.rule);
    const Accent one = with_rule(row.accent, row.rule, row.one), apart = with_rule(row.accent, row.rule, row.apart);
    CHECK(nucleus(row.a, one) == nucleus(row.b, one));
    CHECK_FALSE(nucleus(row.a, apart) == nucleus(row.b, apart));
  }
}

TEST_CASE("rules: a merger that varies comes with casual speech and says so; a merger lends no r") {
  const Accent accent = with_rule("RP", "COT_CAUGHT_merger", "variable");
  CHECK(count(spoken("caught", accent, 0.5), "vowel_merger") == 0);
  const auto casual = spoken("caught", accent, 0.9);
  REQUIRE(count(casual, "vowel_merger") == 1);
  CHECK(casual.processes[0].text.find("varies") != std::string::npos);
  CHECK(ipa(spoken("paw", with_rule("SUS", "PAW_PORE_merger", "yes"))).find("ɹ") == std::string::npos);
}

TEST_CASE("rules: the country decides between zee and zed, tomato and tomato") {
  CHECK(ipa(spoken("Z", with_rule("SSBE", "national_norm", "American"))) == "ˈzɪi");
  CHECK(ipa(spoken("Z", "SSBE")) == "ˈzɛd");
  CHECK(spoken("tomato", "GA").words[0].syllables[1].set == LexicalSet::FACE);
  CHECK(spoken("tomato", "SSBE").words[0].syllables[1].set == LexicalSet::PALM);
}

TEST_CASE("rules: rhotic yes says every r, no says none, variable says what the values say") {
  CHECK(ipa(spoken("hard beer", with_rule("SSBE", "rhotic", "yes"))) == "ˈhɑːɹd ˈbɪːɹ");
  CHECK(ipa(spoken("hard beer", "SSBE")) == "ˈhɑːd ˈbɪː");
  CHECK(ipa(spoken("hard beer", "GA")) == "ˈhɑɹd ˈbɪɹ");
  CHECK(ipa(spoken("bird", with_rule("GA", "rhotic", "no"))) == "ˈbɜːd");
  CHECK(ipa(spoken("hard", with_rule("IRE", "rhotic", "variable"))) == "ˈhɑːɹd");
}

TEST_CASE("rules: the shape of r, in the onset and in the coda") {
  const auto r_of = [](const std::string& type) {
    return sounds(spoken("red beer", with_rule("GA", "r_realisation", type)));
  };
  CHECK(r_of("bunched").front().kind == "bunched");
  CHECK(r_of("bunched").back().kind == "bunched");
  CHECK(r_of("tip-up").front().kind == "tip-up");
  CHECK(r_of("tap").front().letter == "ɾ");
  CHECK(r_of("tap").back().letter == "ɹ");
  CHECK(r_of("trill").front().letter == "r");
  CHECK(r_of("retroflex").front().letter == "ɻ");
  CHECK(r_of("labiodental").front().letter == "ʋ");
  CHECK(r_of("uvular").front().letter == "ʁ");
}

TEST_CASE("rules: l is dark everywhere, after its vowel, or nowhere; a vowel that follows makes it clear") {
  const auto l_of = [](const std::string& quality, std::string_view phrase) {
    return ipa(spoken(phrase, with_rule("SSBE", "l_quality", quality)));
  };
  CHECK(l_of("dark everywhere", "led") == "ˈɫɛd");
  CHECK(l_of("clear onset, dark coda", "led") == "ˈlɛd");
  CHECK(l_of("clear onset, dark coda", "fell") == "ˈfɛɫ");
  CHECK(l_of("clear onset, dark coda", "fell in") == "ˈfɛl ɪn");
  CHECK(l_of("clear everywhere", "fell") == "ˈfɛl");
}

TEST_CASE("rules: where t is caught in the throat") {
  const auto t_of = [](const std::string& where, std::string_view phrase) {
    Accent accent = with_rule("SSBE", "t_glottalling", "yes");
    accent.rules["t_glottalling_where"].value = where;
    return count(spoken(phrase, accent), "glottalling");
  };
  CHECK(t_of("before syllabic n", "button") == 1);
  CHECK(t_of("before syllabic n", "get down") == 0);
  CHECK(t_of("before consonants", "get down") == 1);
  CHECK(t_of("before consonants", "get up") == 0);
  CHECK(t_of("word-final", "get up") == 1);
  CHECK(t_of("word-final", "better") == 0);
  CHECK(t_of("everywhere", "better") == 1);
  CHECK(t_of("everywhere", "attend") == 0);
}

TEST_CASE("rules: where and how th is stopped or fronted") {
  const auto said = [](const std::string& rule, const std::string& value, std::string_view phrase) {
    Accent accent = with_rule("COCK", rule, value);
    accent.rules["th_stopping"].value = rule == "th_fronting_where" ? "no" : "yes";
    accent.rules["th_fronting"].value = rule == "th_fronting_where" ? "yes" : "no";
    return ipa(spoken(phrase, accent));
  };
  CHECK(said("th_stopping_where", "everywhere", "thin").find("t") != std::string::npos);
  CHECK(said("th_stopping_where", "initial ð", "thin").find("θ") != std::string::npos);
  CHECK(said("th_stopping_where", "initial ð", "these").find("d") != std::string::npos);
  CHECK(said("th_stop", "dental", "these").find("d̪") != std::string::npos);
  CHECK(said("th_stop", "alveolar", "these").find("d̪") == std::string::npos);
  CHECK(said("th_fronting_where", "everywhere", "thin").find("f") != std::string::npos);
  CHECK(said("th_fronting_where", "not word-initial", "thin").find("θ") != std::string::npos);
  CHECK(said("th_fronting_where", "not word-initial", "smith").find("f") != std::string::npos);
}

TEST_CASE("rules: a variable rule follows the casualness and says so") {
  const Accent accent = with_rule("SSBE", "h_dropping", "variable");
  CHECK(count(spoken("a house", accent, 0.1), "h_dropping") == 0);
  const auto casual = spoken("a house", accent, 1);
  REQUIRE(count(casual, "h_dropping") == 1);
  for (const auto& row : casual.processes)
    if (row.name == "h_dropping") CHECK(row.text.find("varies") != std::string::npos);
}

TEST_CASE("contexts: a set takes the value of its surroundings and not elsewhere") {
  const struct {
    std::string accent;
    std::string_view yes, no;
    std::string_view set;
  } rows[]{
      {"SSBE", "cold", "goat", "GOAT"},     {"SSBE", "pool", "food", "GOOSE"}, {"GA", "hand", "hat", "TRAP"},
      {"NZ", "fell", "fed", "DRESS"},       {"SUS", "pen", "pet", "DRESS"},    {"SUS", "white", "wide", "PRICE"},
      {"CAN", "white", "wide", "PRICE"},    {"CAN", "out", "loud", "MOUTH"},   {"SSE", "breeze", "fleece", "FLEECE"},
      {"SSE", "tie", "tight", "PRICE"},     {"SSE", "bird", "word", "NURSE"},  {"SSE", "heard", "nurse", "NURSE"},
      {"COCK", "law", "caught", "THOUGHT"}, {"AUSG", "dance", "bath", "BATH"}, {"NYC", "man", "cat", "TRAP"},
      {"SAF", "king", "tin", "KIT"},        {"SAF", "milk", "tin", "KIT"}};
  for (const auto& row : rows) {
    INFO(row.accent << " " << row.yes << " / " << row.no);
    const Accent accent = *read_accent(row.accent);
    const SetValue& plain = accent.of(*parse_keyword(row.set));
    const auto nucleus = [&](std::string_view word) { return spoken(word, accent).words[0].syllables[0].nucleus; };
    CHECK_FALSE(nucleus(row.yes) == plain.vowel);
    CHECK(nucleus(row.no) == plain.vowel);
  }
}
