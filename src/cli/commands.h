#pragma once

#include "cli/options.h"

namespace mw::cli {

int run_explain(const Options& options);
int run_motion(const Options& options);
int run_shape(const Options& options);
int run_frames(const Options& options);
int run_strip(const Options& options);
int run_pattern(const Options& options);
int run_sheet(const Options& options);
int run_chart(const Options& options);
int run_accents(const Options& options);
int run_compare(const Options& options);
int run_rank(const Options& options);
int run_evidence(const Options& options);

/// A request through the whole chain with the program's pronouncer. Problem (missing) when espeak-ng cannot be used.
Result<std::shared_ptr<const Take>> take_of(const Request& request);
/// The take of a command's phrase.
inline Result<std::shared_ptr<const Take>> take_of(const Options& options) { return take_of(to_request(options)); }

/// The whole phrase in slashes, `|` at the end of a group.
std::string transcription(const Pronunciation& said);

} // namespace mw::cli
