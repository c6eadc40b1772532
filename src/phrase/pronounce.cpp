#include "phrase/pronounce.h"

#include "base/expect.h"
#include "base/text.h"
#include "phrase/chain.h"
#include "phrase/correct.h"
#include "phrase/guess.h"
#include "phrase/heteronyms.h"
#include "phrase/reading.h"
#include "phrase/ruled_vowels.h"
#include "phrase/sets.h"
#include "phrase/spelling_rules.h"
#include "phrase/weak_forms.h"
#include "phrase/words.h"

#include <algorithm>
#include <array>
#include <map>

namespace mw {
namespace {

/// One word with what was decided about it.
struct Entry {
  SpokenWord spoken;
  ChainWord chain;
  WordSource source = WordSource::voice;
  std::vector<Phonemes> other_readings{};
  std::string note{}; // why it is a guess
  std::vector<LexicalSet> sets{}; // of its vowels, by a correction
};

Norm norm_of(const Accent& accent) {
  return accent.rule("national_norm") == "American" ? Norm::american : Norm::british;
}

/// The sounds of one word said alone in the accent.
std::vector<Syllable> said_alone(const Phonemes& phonemes, const std::string& key, const Accent& accent,
                                 double casual) {
  Chain chain{accent, casual, {ChainWord{key, phonemes, {}, false, false, true}}};
  lay_out(chain);
  sound_vowels(chain);
  sound_consonants(chain);
  join_sounds(chain);
  return to_syllables(chain).front();
}
std::string ipa_alone(const Phonemes& phonemes, const std::string& key, const Accent& accent, double casual) {
  Word word;
  word.syllables = said_alone(phonemes, key, accent, casual);
  return to_ipa(word);
}

Syllable to_syllable(const SpelledSyllable& spelled) {
  return {spelled.onset, spelled.nucleus, spelled.coda, spelled.stress, {}};
}

// ---- a person's correction

Problem misread(const std::string& word, const Problem& problem) {
  return {ProblemKind::input, "the correction of \"" + word + "\" cannot be read: " + problem.what, problem.where,
          problem.remedy};
}

/// Takes the sounds a person gave; a set alone waits for what the voices say.
Result<Done> correct(Entry& entry, const std::string& text) {
  auto correction = parse_correction(text);
  if (!correction) return misread(entry.spoken.text, correction.error());
  entry.chain.phonemes = std::move(correction->phonemes);
  entry.chain.fixed = std::move(correction->fixed);
  entry.sets = std::move(correction->sets);
  if (entry.sets.empty()) entry.source = WordSource::correction;
  return Done{};
}

const std::string* find_correction(const PronounceSettings& settings, const SpokenWord& word) {
  const std::array lists{&settings.corrections, settings.own_words};
  const auto find = [&](const std::string& name) -> const std::string* {
    for (const auto* list : lists)
      if (list != nullptr)
        if (const auto at = list->find(name); at != list->end()) return &at->second;
    return nullptr;
  };
  if (settings.corrections.empty() && settings.own_words == nullptr) return nullptr;
  const std::string* as_typed = find(to_lower(word.text));
  return as_typed != nullptr ? as_typed : find(word.key);
}

// ---- words that the program knows by itself

/// The name of a letter, with 's where it has one (DJs).
bool name_letter(Entry& entry, const WordTables& tables, Norm norm) {
  if (!entry.spoken.letter_name) return false;
  const Phonemes* name = find_spelling(tables.letters, entry.spoken.key.substr(0, 1), norm);
  MW_EXPECT(name != nullptr);
  entry.chain.phonemes = *name;
  if (entry.spoken.key.size() > 1) add_s(entry.chain.phonemes);
  entry.source = WordSource::override_list;
  return true;
}

bool spell_own(Entry& entry, const WordTables& tables, Norm norm) {
  const Phonemes* own = find_spelling(tables.spellings, entry.spoken.key, norm);
  if (own == nullptr) return false;
  entry.chain.phonemes = *own;
  entry.source = WordSource::override_list;
  return true;
}

bool choose_reading(Entry& entry, const WordTables& tables, const Neighbours_of_word& near, const Phonemes& voiced) {
  const auto at = tables.heteronyms.find(entry.spoken.key);
  if (at == tables.heteronyms.end() || entry.spoken.expanded) return false;
  const auto& readings = at->second;
  const std::size_t chosen = likely_reading(readings, near, voiced);
  entry.chain.phonemes = readings[chosen].phonemes;
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (i != chosen) entry.other_readings.push_back(readings[i].phonemes);
  entry.source = WordSource::choice;
  return true;
}

// ---- stress

/// Every word of content has a primary stress; some come from the voices with a secondary one or none (our, upon,
/// which).
void settle_stress(ChainWord& word) {
  const auto strongest = [&](int stress) {
    return std::find_if(word.phonemes.begin(), word.phonemes.end(),
                        [&](const Phoneme& phoneme) { return phoneme.set && phoneme.stress == stress; });
  };
  if (strongest(1) != word.phonemes.end()) return;
  auto at = strongest(2);
  if (at == word.phonemes.end() && !word.function_word) {
    at = std::find_if(word.phonemes.begin(), word.phonemes.end(), [](const Phoneme& phoneme) {
      return phoneme.set && phoneme.set != LexicalSet::commA && phoneme.set != LexicalSet::lettER;
    });
    if (at == word.phonemes.end()) at = strongest(0);
  }
  if (at != word.phonemes.end()) at->stress = 1;
}

// ---- the phrase

/// Every key that a voice must say, once, in order of first use.
Result<std::map<std::string, VoicedWord, std::less<>>> ask_voices(const std::vector<Entry>& entries,
                                                                  Pronouncer& pronouncer) {
  std::vector<std::string> keys;
  std::map<std::string, VoicedWord, std::less<>> voiced;
  for (const auto& entry : entries)
    if (entry.source == WordSource::voice && entry.chain.phonemes.empty() &&
        voiced.emplace(entry.spoken.key, VoicedWord{}).second)
      keys.push_back(entry.spoken.key);
  if (keys.empty()) return voiced;
  const auto answers = pronouncer.look_up(keys);
  if (!answers) return answers.error();
  MW_EXPECT(answers->size() == keys.size());
  for (std::size_t i = 0; i < keys.size(); ++i) voiced[keys[i]] = (*answers)[i];
  return voiced;
}

/// What the voices say, read through the sets, the override list and the readings of heteronyms.
void settle_voiced(Entry& entry, const VoicedWord& voiced, const Neighbours_of_word& near, const WordTables& tables, Norm norm) {
  LexicalWord word = classify(voiced, norm);
  apply_spelling(entry.spoken.key, word.phonemes);
  bool listed = apply_national(tables, entry.spoken.key, norm, word.phonemes) || word.national;
  listed = apply_overrides(tables, entry.spoken.key, word.phonemes) || listed;
  if (choose_reading(entry, tables, near, word.phonemes)) return;
  entry.chain.phonemes = std::move(word.phonemes);
  if (listed) entry.source = WordSource::override_list;
  else if (const auto doubt = why_a_guess(tables, entry.spoken); !doubt.empty()) {
    entry.source = WordSource::guess;
    entry.note = doubt;
  }
}

Result<std::vector<Entry>> look_up(const Reading& reading, const WordTables& tables, Norm norm, Pronouncer& pronouncer,
                                   const PronounceSettings& settings) {
  std::vector<Entry> entries;
  for (const auto& spoken : reading.words) {
    Entry entry{spoken, {}};
    entry.chain.key = spoken.key;
    entry.chain.group_end = spoken.group_end;
    const bool month = spoken.key == "may" && (spoken.expanded || spoken.capital);
    entry.chain.function_word = !spoken.letter_name && !month && is_function_word(spoken.key);
    if (const std::string* correction = find_correction(settings, spoken)) {
      if (const auto done = correct(entry, *correction); !done) return done.error();
      if (!entry.sets.empty()) spell_own(entry, tables, norm);
    } else if (!name_letter(entry, tables, norm)) {
      spell_own(entry, tables, norm);
    }
    entries.push_back(std::move(entry));
  }
  const auto voiced = ask_voices(entries, pronouncer);
  if (!voiced) return voiced.error();
  for (std::size_t i = 0; i < entries.size(); ++i) {
    Entry& entry = entries[i];
    if (entry.source == WordSource::voice)
      settle_voiced(entry, voiced->find(entry.spoken.key)->second, look_round(reading.words, i), tables, norm);
    if (!entry.sets.empty()) {
      if (const auto done = apply_sets(entry.sets, entry.chain.phonemes); !done) return misread(entry.spoken.text, done.error());
      entry.source = WordSource::correction;
      entry.other_readings.clear();
    }
    settle_stress(entry.chain);
  }
  // a word that the voices leave without a sound is left out of the phrase
  std::erase_if(entries, [](const Entry& entry) { return entry.chain.phonemes.empty() && entry.chain.fixed.empty(); });
  return entries;
}

void add_notes(const Entry& entry, std::vector<Note>& notes) {
  const std::string quoted = "\"" + entry.spoken.text + "\"";
  if (entry.source == WordSource::guess) notes.push_back({"guess", quoted + " " + entry.note, entry.spoken.span});
  if (entry.source == WordSource::choice)
    notes.push_back({"choice", quoted + " can be said in more than one way", entry.spoken.span});
}

/// Tells of each weak form, or full form kept in its place, at the first sound of its word.
void tell_weak_forms(Chain& chain, const std::vector<OtherForm>& other) {
  const auto alone = [&](Phonemes phonemes, const std::string& key) {
    for (auto& phoneme : phonemes) phoneme.stress = 0; // only a change of sounds is worth telling
    return ipa_alone(phonemes, key, chain.accent, chain.casual);
  };
  for (std::size_t i = 0; i < chain.links.size(); ++i) {
    const std::size_t word = chain.links[i].word;
    const bool first = i == 0 || chain.links[i - 1].word != word;
    const auto& instead = other[word].full ? other[word].full : other[word].weak;
    if (!first || !instead) continue;
    const std::string& key = chain.words[word].key;
    const std::string from = alone(*instead, key), to = alone(chain.words[word].phonemes, key);
    if (from == to) continue;
    if (other[word].full) chain.applied.push_back({"weak_form", i, from, to, "\"" + key + "\" has its weak form between other words"});
    else
      chain.applied.push_back({"full_form", i, from, to, with_reason(chain, "\"" + key + "\" keeps its full vowel in this accent", "full_vowels_in_weak_forms")});
  }
}

Pronunciation realise(std::vector<Entry> entries, const Accent& accent, double casual, Norm norm,
                      const WordTables& tables) {
  Chain chain{accent, casual, {}};
  for (auto& entry : entries) chain.words.push_back(std::move(entry.chain));
  const auto other = weaken(chain.words, accent, casual, norm, tables);
  lay_out(chain);
  tell_weak_forms(chain, other);
  sound_vowels(chain);
  sound_consonants(chain);
  join_sounds(chain);

  Pronunciation result;
  auto syllables = to_syllables(chain);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Entry& entry = entries[i];
    Word word{entry.spoken.text, entry.spoken.span, entry.source, std::move(syllables[i])};
    word.group_end = chain.words[i].group_end;
    for (const auto& reading : entry.other_readings)
      word.choices.push_back(ipa_alone(reading, entry.spoken.key, accent, casual));
    result.words.push_back(std::move(word));
    add_notes(entry, result.notes);
  }
  result.processes = to_processes(chain);
  return result;
}

Result<Pronunciation> take_literally(std::string_view phrase, Notation notation) {
  const auto signs = decode_utf8(phrase);
  if (!signs)
    return Problem{ProblemKind::input, signs.error().what, signs.error().where, signs.error().remedy,
                   signs.error().span};
  if (signs->size() > longest_phrase)
    return Problem{ProblemKind::input, "the transcription has more than 10000 characters", "", "say it in parts"};
  const auto words = parse_transcription(phrase, notation);
  if (!words) return words.error();
  Pronunciation result;
  for (const auto& spelled : *words) {
    Word word{spelled.text, spelled.span, WordSource::typed, {}};
    for (const auto& syllable : spelled.syllables) word.syllables.push_back(to_syllable(syllable));
    word.group_end = spelled.group_end;
    if (!word.syllables.empty()) result.words.push_back(std::move(word));
  }
  if (result.words.empty())
    return Problem{ProblemKind::input, "there is no sound in the transcription", "", "type at least one sound"};
  result.words.back().group_end = true;
  return result;
}

} // namespace

Result<Pronunciation> pronounce(std::string_view phrase, const Accent& accent, Pronouncer& pronouncer,
                                const PronounceSettings& settings) {
  if (settings.notation != Notation::text) return take_literally(phrase, settings.notation);
  const Norm norm = norm_of(accent);
  const auto reading = read_phrase(phrase, norm);
  if (!reading) return reading.error();
  const auto& tables = word_tables();
  if (!tables) return tables.error();
  auto entries = look_up(*reading, *tables, norm, pronouncer, settings);
  if (!entries) return entries.error();
  if (entries->empty())
    return Problem{ProblemKind::input, "there is nothing in the phrase that can be said", "", "type a word"};
  entries->back().chain.group_end = true;
  Pronunciation result = realise(std::move(*entries), accent, std::clamp(settings.casual, 0.0, 1.0), norm, *tables);
  result.notes.insert(result.notes.begin(), reading->notes.begin(), reading->notes.end());
  return result;
}

} // namespace mw
