#include "phrase/spelling_rules.h"

#include <doctest/doctest.h>

using namespace mw;

TEST_CASE("spelling: what the voices leave open is told by the letters, and only there") {
  const struct {
    std::string_view word, heard, meant;
  } rows[]{{"salt", "s ˈCLOTH l t", "s ˈTHOUGHT l t"},
           {"solve", "s ˈLOT l v", "s ˈLOT l v"},
           {"monster", "m ˈCLOTH n s t lettER", "m ˈLOT n s t lettER"},
           {"gone", "ɡ ˈCLOTH n", "ɡ ˈCLOTH n"},
           {"honking", "h ˈCLOTH ŋ k KIT ŋ", "h ˈLOT ŋ k KIT ŋ"},
           {"belongs", "b KIT l ˈCLOTH ŋ z", "b KIT l ˈCLOTH ŋ z"},
           {"offices", "ˈLOT f KIT s KIT z", "ˈCLOTH f KIT s KIT z"},
           {"profit", "p ɹ ˈLOT f KIT t", "p ɹ ˈLOT f KIT t"},
           {"moths", "m ˈLOT θ s", "m ˈCLOTH θ s"},
           {"doghouse", "d ˈLOT ɡ h ˌMOUTH s", "d ˈCLOTH ɡ h ˌMOUTH s"},
           {"dogma", "d ˈLOT ɡ m commA", "d ˈLOT ɡ m commA"},
           {"lantern", "l ˈBATH n t lettER n", "l ˈTRAP n t lettER n"},
           {"planted", "p l ˈBATH n t KIT d", "p l ˈBATH n t KIT d"},
           {"elastic", "KIT l ˈBATH s t KIT k", "KIT l ˈTRAP s t KIT k"},
           {"plaster", "p l ˈBATH s t lettER", "p l ˈBATH s t lettER"},
           {"pasta", "p ˈBATH s t commA", "p ˈTRAP s t commA"},
           {"stormy", "s t ˈFORCE m happY", "s t ˈNORTH m happY"},
           {"before", "b KIT f ˈFORCE", "b KIT f ˈFORCE"},
           {"story", "s t ˈFORCE ɹ happY", "s t ˈFORCE ɹ happY"},
           {"transport", "t ɹ TRAP n s p ˈNORTH t", "t ɹ TRAP n s p ˈFORCE t"},
           {"short", "ʃ ˈNORTH t", "ʃ ˈNORTH t"},
           {"foreman", "f ˈNORTH m commA n", "f ˈFORCE m commA n"},
           {"forty", "f ˈNORTH t happY", "f ˈNORTH t happY"},
           {"everybody", "ˈDRESS v ɹ KIT b ˌLOT d happY", "ˈDRESS v ɹ happY b ˌLOT d happY"},
  };
  for (const auto& row : rows) {
    INFO(std::string(row.word));
    Phonemes phonemes = parse_respelling(row.heard).value();
    apply_spelling(row.word, phonemes);
    CHECK(to_respelling(phonemes) == row.meant);
  }
  Phonemes nothing;
  apply_spelling("", nothing);
  CHECK(nothing.empty());
}
