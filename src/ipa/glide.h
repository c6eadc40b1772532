#pragma once

#include "ipa/sound.h"

namespace mw {

/// Whether two vowels in a row are read as one nucleus without tie bar or non-syllabic mark: the usual English glides
/// aɪ aʊ ɔɪ eɪ oʊ əʊ ɪə eə ʊə and their close variants, as features:
/// - closing: from any vowel lower than near-close to a close or near-close one (eɪ ɛɪ æɪ äɪ ɑɪ ɔɪ oɪ ʌɪ əɪ aʊ æʊ ʌʊ ɔʊ
///   oʊ əʊ əʉ œʏ ...); from an open or near-open vowel also to a close-mid one or to ɔ (ɑe, aɔ, æɔ of broad accents); from æ ɛ to any rounded back vowel (æɒ, ɛɔ), from a
///   rounded back vowel to e (oe);
/// - tightening: from near-close to close on the same side (ɪi, ʊu, ʊʉ), and ʉu;
/// - centring: from any close vowel, or a front or back one that is not open unrounded, to ə, ɐ or ɚ (ɪə iə eə ɛə ʊə uə ɔə oə ɪɚ ...).
/// A length mark on either vowel keeps them apart (iːə is two syllables).
bool is_usual_glide(const Sound& glide);

} // namespace mw
