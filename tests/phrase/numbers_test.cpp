#include "base/text.h"
#include "phrase/reading.h"

#include <doctest/doctest.h>

using namespace mw;

namespace {
/// What is said, words parted by spaces, letter names in capitals, '|' at pauses but the last.
std::string said(std::string_view phrase, Norm norm = Norm::british) {
  const auto reading = read_phrase(phrase, norm);
  if (!reading) return "PROBLEM " + reading.error().what;
  std::string text;
  for (std::size_t i = 0; i < reading->words.size(); ++i) {
    const auto& word = reading->words[i];
    std::string key = word.key;
    if (word.letter_name) key[0] = static_cast<char>(key[0] - 'a' + 'A');
    text += (i > 0 ? " " : "") + key;
    if (word.group_end && i + 1 < reading->words.size()) text += " |";
  }
  return text;
}
struct Row {
  std::string_view phrase, british, american;
};

void check_rows(std::initializer_list<Row> rows) {
  for (const auto& row : rows) {
    INFO(row.phrase);
    CHECK(said(row.phrase, Norm::british) == row.british);
    CHECK(said(row.phrase, Norm::american) == (row.american.empty() ? row.british : row.american));
  }
}
} // namespace

TEST_CASE("numbers: cardinals take their and from the country") {
  check_rows(
      {{"0", "zero", ""},
       {"7", "seven", ""},
       {"13", "thirteen", ""},
       {"40", "forty", ""},
       {"99", "ninety nine", ""},
       {"100", "one hundred", ""},
       {"105", "one hundred and five", "one hundred five"},
       {"1,000", "one thousand", ""},
       {"1,001", "one thousand and one", "one thousand one"},
       {"12,345", "twelve thousand three hundred and forty five", "twelve thousand three hundred forty five"},
       {"1000000", "one million", ""},
       {"2,000,050", "two million and fifty", "two million fifty"},
       {"-5", "minus five", ""},
       {"007", "double oh seven", "oh oh seven"},
       {"12345678901234567", "one two three four five six seven eight nine oh one two three four five six seven", ""}});
}

TEST_CASE("numbers: ordinals, years and decades") {
  check_rows({{"1st", "first", ""},
              {"2nd", "second", ""},
              {"3rd", "third", ""},
              {"12th", "twelfth", ""},
              {"20th", "twentieth", ""},
              {"21st", "twenty first", ""},
              {"103rd", "one hundred and third", "one hundred third"},
              {"1984", "nineteen eighty four", ""},
              {"1900", "nineteen hundred", ""},
              {"1905", "nineteen oh five", ""},
              {"2005", "two thousand and five", "two thousand five"},
              {"2024", "twenty twenty four", ""},
              {"the 1960s", "the nineteen sixties", ""},
              {"the '60s", "the sixties", ""},
              {"the \xE2\x80\x99"
               "90s",
               "the nineties", ""}});
}

TEST_CASE("numbers: decimals, fractions and per cent") {
  check_rows({{"3.14", "three point one four", ""},
              {"0.5", "nought point five", "zero point five"},
              {".5", "point five", ""},
              {"1.05", "one point nought five", "one point zero five"},
              {"1.2.3", "one point two point three", ""},
              {"1/2", "one half", ""},
              {"3/4", "three quarters", ""},
              {"2/3", "two thirds", ""},
              {"2 1/2 cups", "two and a half cups", ""},
              {"2\xC2\xBD cups", "two and a half cups", ""},
              {"\xC2\xBE", "three quarters", ""},
              {"24/7", "twenty four seven", ""},
              {"7/300", "seven over three hundred", ""},
              {"50%", "fifty percent", ""},
              {"5.5 %", "five point five percent", ""},
              {"3.", "three", ""}});
}

TEST_CASE("numbers: money") {
  check_rows({{"\xC2\xA3"
               "3.50",
               "three pounds fifty", "three pounds and fifty pence"},
              {"$3.50", "three dollars fifty", "three dollars and fifty cents"},
              {"$1", "one dollar", ""},
              {"\xC2\xA3"
               "0.50",
               "fifty pence", ""},
              {"$0.01", "one cent", ""},
              {"\xE2\x82\xAC"
               "20",
               "twenty euros", ""},
              {"$5 million", "five million dollars", ""},
              {"$2.5m", "two point five million dollars", ""},
              {"\xC2\xA3"
               "1,200",
               "one thousand two hundred pounds", ""},
              {"50p", "fifty pence", ""},
              {"99\xC2\xA2", "ninety nine cents", ""},
              {"$0", "zero dollars", ""}});
}

TEST_CASE("numbers: times and dates") {
  check_rows(
      {{"7:30", "seven thirty", ""},
       {"7:05", "seven oh five", ""},
       {"7:00", "seven o'clock", ""},
       {"7:00 am", "seven A M", ""},
       {"7:15 p.m.", "seven fifteen P M", ""},
       {"7pm", "seven P M", ""},
       {"14:30", "fourteen thirty", ""},
       {"5 May", "the fifth of may", ""},
       {"May 5", "may the fifth", "may fifth"},
       {"5 May 1984", "the fifth of may nineteen eighty four", ""},
       {"12/5/2024", "the twelfth of may twenty twenty four", "december fifth twenty twenty four"},
       {"25/12/2024", "the twenty fifth of december twenty twenty four", "december twenty fifth twenty twenty four"},
       {"2024-05-12", "the twelfth of may twenty twenty four", "may twelfth twenty twenty four"},
       {"12/40", "twelve over forty", ""}});
}

TEST_CASE("numbers: telephone numbers, ranges and units") {
  check_rows({{"020 7946 0018", "oh two oh | seven nine four six | double oh one eight",
               "oh two oh | seven nine four six | oh oh one eight"},
              {"555-0142", "five five five | oh one four two", ""},
              {"+44 20 7946 0018", "plus double four | two oh | seven nine four six | double oh one eight",
               "plus four four | two oh | seven nine four six | oh oh one eight"},
              {"10-12 pots", "ten to twelve pots", ""},
              {"5km", "five kilometres", ""},
              {"1 kg", "one kilogram", ""},
              {"3 m", "three metres", ""},
              {"60 mph", "sixty miles an hour", ""},
              {"20\xC2\xB0"
               "C",
               "twenty degrees celsius", ""},
              {"#5", "number five", ""},
              {"No. 5", "number five", ""},
              {"1+1=2", "one plus one equals two", ""}});
}

TEST_CASE("reading: contractions, quotes, hyphens and folded letters") {
  check_rows({{"don\xE2\x80\x99t", "don't", ""},
              {"\xE2\x80\x98"
               "Mend\xE2\x80\x99 it",
               "mend it", ""},
              {"the girls' kettles", "the girls kettles", ""},
              {"Greg's kettle-mender", "greg's kettle mender", ""},
              {"caf\xC3\xA9 na\xC3\xAFve \xC5\x92uvre", "cafe naive oeuvre", ""},
              {"cafe\xCC\x81", "cafe", ""},
              {"'em", "'em", ""},
              {"x-ray", "X ray", ""},
              {"wait \xE2\x80\x94 now", "wait | now", ""},
              {"wait - now", "wait | now", ""},
              {"wait, now; go", "wait | now | go", ""},
              {"and/or", "and or", ""},
              {"salt & oil", "salt and oil", ""},
              {"rock\xC2\xADing", "rocking", ""},
              {"one\ntwo", "one | two", ""}});
}

TEST_CASE("reading: abbreviations and initials") {
  check_rows({{"Mr. Tarrant and Dr Brown", "mister tarrant and doctor brown", ""},
              {"St. Ives", "saint ives", ""},
              {"Mill St.", "mill street", ""},
              {"pots, pans, etc.", "pots | pans | et cetera", ""},
              {"e.g. tin", "for example tin", ""},
              {"the U.S.A. team", "the U S A team", ""},
              {"the BBC's TVs", "the B B C's T V's", ""},
              {"The USA", "the U S A", ""},
              {"plan A", "plan A", ""},
              {"A pan", "a pan", ""},
              {"IT IS LOUD", "it is loud", ""},
              {"tell US", "tell us", ""},
              {"J. Smith", "J smith", ""}});
}

TEST_CASE("reading: what cannot be said is noted with its place and left out") {
  const auto reading = read_phrase("<b>dogs</b>", Norm::british);
  REQUIRE(reading.has_value());
  REQUIRE(reading->words.size() == 3);
  CHECK(reading->words[1].text == "dogs");
  CHECK(reading->words[1].span == Span{3, 7});
  REQUIRE(reading->notes.size() == 4);
  CHECK(reading->notes[0].kind == "unsaid");
  CHECK(reading->notes[0].span == Span{0, 1});
  CHECK(reading->notes[2].span == Span{7, 9}); // "</"
  // code points, not bytes
  const auto emoji = read_phrase("\xC3\xA9t\xC3\xA9 \xF0\x9F\xAB\x96 pot", Norm::british);
  REQUIRE(emoji->notes.size() == 1);
  CHECK(emoji->notes[0].span == Span{4, 5});
  CHECK(emoji->words[1].span == Span{6, 9});
}

TEST_CASE("reading: nothing sayable, bad bytes and endless text are problems of the input") {
  for (const std::string& phrase :
       {std::string(), std::string("   "), std::string("!?"), std::string("\xF0\x9F\xAB\x96"), std::string("a\xFF"),
        std::string(10001, 'a'), std::string("\xD0\x9F")}) {
    const auto reading = read_phrase(phrase, Norm::british);
    REQUIRE_FALSE(reading.has_value());
    CHECK(reading.error().kind == ProblemKind::input);
    CHECK_FALSE(reading.error().what.empty());
  }
  CHECK(read_phrase("a\xFF", Norm::british).error().span.has_value());
  CHECK(read_phrase(std::string(10000, 'a'), Norm::british).has_value());
}

TEST_CASE("read_phrase: kings and acts, addresses, sizes, times with a full stop, names of roads and papers") {
  const auto said = [](std::string_view phrase) {
    const auto reading = read_phrase(phrase, Norm::british);
    REQUIRE(reading.has_value());
    std::string text;
    for (const auto& word : reading->words) text += (text.empty() ? "" : " ") + word.text + (word.letter_name ? "*" : "");
    return text;
  };
  CHECK(said("Henry VIII mends") == "Henry the eighth mends");
  CHECK(said("Act II, chapter IX") == "Act two chapter nine");
  CHECK(said("Then I said") == "Then I said"); // a person, no numeral
  CHECK(said("the MIX was bad") == "the MIX was bad");
  CHECK(said("www.shop.com") == "w* w* w* dot shop dot com");
  CHECK(said("The end.Now") == "The end Now"); // a slip of the finger, no address
  CHECK(said("2 x 4") == "two by four");
  CHECK(said("11.30 p.m.") == "eleven thirty p* m*");
  CHECK(said("11.30 pots") == "eleven point three nought pots");
  CHECK(said("A4") == "A* four");
  CHECK(said("BBC") == "B* B* C*");
  CHECK(said("MEND IT") == "MEND IT");
  CHECK(said("pp. 3-5") == "pp three to five"); // written as typed, said as pages
}

TEST_CASE("numbers: a short form stands as typed and is said in full; more words than one stand as they are said") {
  const auto reading = read_phrase("Dr. Tarrant, St Mark, pp. 3, etc.", Norm::british);
  REQUIRE(reading.has_value());
  std::string typed, spoken;
  for (const auto& word : reading->words) typed += word.text + " ", spoken += word.key + " ";
  CHECK(typed == "Dr Tarrant St Mark pp three et cetera ");
  CHECK(spoken == "doctor tarrant saint mark pages three et cetera ");
}

TEST_CASE("read_phrase: days before a date, halves of a hundred, measures after a space, titles") {
  check_rows({{"Sat. 5 Oct.", "saturday the fifth of october", ""},
              {"Mon 6 Jan 2025", "monday the sixth of january twenty twenty five", ""},
              {"the cat sat. 5 dogs came", "the cat sat | five dogs came", ""},
              {"sun 3 times", "sun three times", ""},
              {"50/50", "fifty fifty", ""},
              {"20/20 vision", "twenty twenty vision", ""},
              {"5/8", "five eighths", ""},
              {"100 m, 5 g", "one hundred metres | five grams", ""},
              {"3 tbsp", "three tablespoons", ""},
              {"\u00bc tsp", "one quarter teaspoon", ""},
              {"Mx. Vale", "mix vale", ""},
              {"on Tue, Mar 5th", "on tuesday | march fifth", ""},
              {"Mon-Fri", "monday friday", ""},
              {"a sun-fri tomato", "a sun fri tomato", ""},
              {"30 sec, 5 yrs", "thirty seconds | five years", ""},
              {"2x faster", "two times faster", ""},
              {"9/11", "nine eleven", ""},
              {"Sgt. Vale, Mt Ash", "sergeant vale | mount ash", ""},
              {"Vol. III", "volume three", ""},
              {"ask Col. Low of Oak Co. now", "ask colonel low of oak company now", ""}});
}
