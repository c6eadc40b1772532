#include "base/text.h"
#include "evidence/mouth.h"
#include "motion/motion.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mw {
namespace {
// Limits of the comparison: how far a figure may lie outside the published interval.
constexpr double limit_mean = 1.5, limit_F1_F2 = 6.5, limit_F3 = 5.0, limit_glide = 8.0; // per cent
constexpr double limit_r_hz = 2000; // third formant of r sounds (men)
constexpr std::string_view both = "Peterson & Barney 1952; Hillenbrand et al. 1995";

std::string hz(double value) { return to_text(value, 0) + " Hz"; }
std::string range(double low, double high) {
  return low == high ? hz(low) : to_text(low, 0) + "-" + to_text(high, 0) + " Hz";
}

// One vowel of the published tables; FACE and GOAT are compared by the steady rows of their first vowels.
struct PublishedVowel {
  std::string ipa, row, word;
  std::array<double, 3> low{}, high{};
  int sources = 0;
};
std::vector<PublishedVowel> intervals_of(const PublishedTable& table) {
  std::vector<PublishedVowel> vowels;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const std::string& ipa = table.text(i, "ipa");
    auto at = std::ranges::find(vowels, ipa, &PublishedVowel::ipa);
    if (at == vowels.end()) {
      PublishedVowel vowel{.ipa = ipa,
                           .row = ipa == "eɪ"   ? "e"
                                  : ipa == "oʊ" ? "o"
                                                : ipa,
                           .word = table.text(i, "word")};
      vowel.low.fill(1e9);
      at = vowels.insert(vowels.end(), vowel);
    }
    for (std::size_t f = 0; f < 3; ++f) {
      const double value = table.number(i, "F" + std::to_string(f + 1) + "_hz");
      at->low[f] = std::min(at->low[f], value);
      at->high[f] = std::max(at->high[f], value);
    }
    ++at->sources;
  }
  return vowels;
}

struct Distances {
  double sum = 0, worst = 0, worst_F3 = 0;
  int count = 0;
};

void add_vowel(EvidenceTable& table, Distances& off, const PublishedVowel& vowel, const std::vector<double>& formants) {
  for (std::size_t f = 0; f < 3; ++f) {
    const double percent = f < formants.size() ? percent_outside(formants[f], vowel.low[f], vowel.high[f]) : 100;
    const double size = std::abs(percent);
    if (f < 2) {
      off.sum += size;
      off.worst = std::max(off.worst, size);
      ++off.count;
    } else {
      off.worst_F3 = std::max(off.worst_F3, size);
    }
    table.rows.push_back({.what = "[" + vowel.ipa + "] F" + std::to_string(f + 1) + ", " + vowel.word,
                          .ours = f < formants.size() ? hz(formants[f]) : "none",
                          .published = range(vowel.low[f], vowel.high[f]),
                          .source = vowel.sources > 1 ? std::string(both) : "Hillenbrand et al. 1995",
                          .difference = outside_text(percent),
                          .pass = size <= (f < 2 ? limit_F1_F2 : limit_F3)});
  }
}

// Third formants of both kinds of r, consonant and vowel.
Result<Done> add_r(EvidenceTable& table, Mouth& mouth) {
  const auto published = read_published("constrictions.csv");
  if (!published) return published.error();
  const double low = published->number(0, "low"), high = published->number(0, "high"); // first row: third formant of r
  struct Kind {
    std::string_view letter, kind, name;
  };
  constexpr std::array kinds{Kind{"ɹ", "tip-up", "[ɹ] tip up"}, Kind{"ɹ", "bunched", "[ɹ] bunched"},
                             Kind{"ɝ", "bunched", "[ɝ] bunched"}, Kind{"ɝ", "tip-up", "[ɝ] tip up"}};
  for (const Kind& kind : kinds) {
    const Sound sound{.letter = std::string(kind.letter), .kind = std::string(kind.kind)};
    const auto pose = pose_of(*mouth.anatomy, *mouth.targets, sound);
    if (!pose) return pose.error();
    const auto formants = figures_of(mouth, *pose).formants;
    const double third = formants.size() > 2 ? formants[2] : 0;
    table.rows.push_back({.what = std::string(kind.name) + " F3",
                          .ours = hz(third),
                          .published = range(low, high) + "; below " + hz(limit_r_hz),
                          .source = published->text(0, "source") + " (read in notes)",
                          .difference = outside_text(percent_outside(third, low, high)),
                          .pass = third > 0 && third < limit_r_hz});
  }
  return Done{};
}

// [h] glide [d] with the published length of the glide.
SegmentTrack glide_word(const Sound& glide, double length_s) {
  Segment h{.sound = {.letter = "h"},
            .start_s = lead_s,
            .end_s = lead_s + 0.08,
            .slot = Slot::onset,
            .stress = 1,
            .word_initial = true};
  Segment v{.sound = glide, .start_s = h.end_s, .end_s = h.end_s + length_s, .slot = Slot::nucleus, .stress = 1};
  Segment d{.sound = {.letter = "d"},
            .start_s = v.end_s,
            .end_s = v.end_s + 0.09,
            .slot = Slot::coda,
            .stress = 1,
            .word_final = true,
            .group_final = true};
  return {.segments = {h, v, d}, .duration_s = d.end_s + tail_s};
}

Result<Done> add_glide(EvidenceTable& table, Mouth& mouth, const PublishedTable& published, const Sound& glide,
                       const std::string& name) {
  const std::string ipa = glide.letter + glide.glide_letter;
  for (std::size_t i = 0; i < published.size(); ++i) {
    if (published.text(i, "ipa") != ipa || !published.has(i, "F1_20_hz")) continue;
    const SegmentTrack track = glide_word(glide, published.number(i, "duration_ms") / 1000);
    const auto score = plan(track, mouth.anatomy);
    if (!score) return score.error();
    const Motion motion = bake(*score);
    const Segment& vowel = track.segments[1];
    for (const int share : {20, 80}) {
      const Pose pose = pose_at(motion, vowel.start_s + share / 100.0 * (vowel.end_s - vowel.start_s));
      const auto formants = figures_of(mouth, pose).formants;
      for (std::size_t f = 0; f < 3; ++f) {
        const double known = published.number(i, "F" + std::to_string(f + 1) + "_" + std::to_string(share) + "_hz");
        const double ours = f < formants.size() ? formants[f] : 0, percent = percent_outside(ours, known, known);
        table.rows.push_back(
            {.what = name + " F" + std::to_string(f + 1) + " at " + std::to_string(share) + " % of its time",
             .ours = hz(ours),
             .published = hz(known),
             .source = published.text(i, "source"),
             .difference = outside_text(percent),
             .pass = std::abs(percent) <= limit_glide});
      }
    }
  }
  return Done{};
}
} // namespace

Result<EvidenceTable> formants_table() {
  auto mouth = read_mouth("adult-male");
  if (!mouth) return mouth.error();
  const auto published = read_published("vowels_men.csv");
  if (!published) return published.error();
  EvidenceTable table{.name = "formants", .title = "Formants of the adult male's vowels against published men; the other heads against his pattern"};
  Distances off;
  const auto vowels = intervals_of(*published);
  for (const PublishedVowel& vowel : vowels) {
    const Target* row = mouth->targets->vowel(vowel.row);
    if (row == nullptr)
      return Problem{ProblemKind::missing, "a vowel has no row", vowel.row, "install the program again"};
    add_vowel(table, off, vowel, figures_of(*mouth, row->pose).formants);
  }
  if (const auto done = add_r(table, *mouth); !done) return done.error();
  if (const auto done = add_glide(table, *mouth, *published, {.letter = "e", .glide_letter = "ɪ"}, "FACE"); !done)
    return done.error();
  if (const auto done = add_glide(table, *mouth, *published, {.letter = "o", .glide_letter = "ʊ"}, "GOAT"); !done)
    return done.error();
  const double mean = off.sum / off.count;
  const bool mean_met = mean <= limit_mean;
  table.rows.push_back({.what = "F1 and F2 of all vowels, mean distance from the interval",
                        .ours = to_text(mean, 1) + " %",
                        .published = "at most " + to_text(limit_mean, 1) + " %",
                        .source = std::string(both),
                        .difference = "",
                        .pass = mean_met});
  table.summary = std::to_string(vowels.size()) + " vowels of men: F1 and F2 outside the published interval by " +
                  to_text(mean, 1) + " % on average, " + to_text(off.worst, 1) + " % at worst; F3 " +
                  to_text(off.worst_F3, 1) + " % at worst";
  for (const char* id : {"adult-female", "child"})
    if (const auto done = add_smaller_head(table, *mouth, id); !done) return done.error();
  table.pass = std::ranges::none_of(table.rows, [](const EvidenceRow& row) { return row.pass == false; });
  return table;
}

} // namespace mw
