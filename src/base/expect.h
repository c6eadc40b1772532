#pragma once

namespace mw {
/// Prints the broken expectation with file and line and aborts (exit code 4 by way of the handler in main).
[[noreturn]] void expectation_broken(const char* claim, const char* file, int line);
} // namespace mw

/// Our own mistakes only, never the user's: stays on in every build.
#define MW_EXPECT(claim) ((claim) ? static_cast<void>(0) : ::mw::expectation_broken(#claim, __FILE__, __LINE__))
