#pragma once

#include "cli/options.h"

namespace mw::cli {

int run_explain(const Options& options);
int run_motion(const Options& options);
int run_shape(const Options& options);
int run_frames(const Options& options);
int run_strip(const Options& options);
int run_accents(const Options& options);
int run_rank(const Options& options);
int run_evidence(const Options& options);

/// The pronouncer of the program (one espeak-ng session, opened when first asked).
Pronouncer& pronouncer();

/// The take of a command's phrase.
Result<std::shared_ptr<const Take>> take_of(const Options& options);

} // namespace mw::cli
