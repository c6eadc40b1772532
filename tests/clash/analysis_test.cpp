#include "clash/analysis.h"

#include "clash/pattern.h"
#include "lines.h"

using namespace mw;
using namespace mw::test;

TEST_CASE("analysis: shared, it gives what each function finds by itself, with and without a loop") {
  for (const char* ipa : {"ˈtɪn ˈkʌps ˈkoʊld ˈti", "ˈsʌn ˈʃaɪn ˈsɪɾi ˈʃɒp", "ˈkʷʼat ˈɬa", "ˈa"})
    for (bool loop : {false, true}) {
      const Line line = said(ipa);
      const Analysis analysis = analyse(line.track, loop);
      const auto clashes = find_clashes(line.pronunciation, line.track, {}, analysis);
      CHECK(clashes == find_clashes(line.pronunciation, line.track, Score{}, Motion{}, loop));
      CHECK(judge(line.pronunciation, line.track, {}, {}, clashes, analysis) ==
            judge(line.pronunciation, line.track, {}, clashes, loop));
      CHECK(find_likely_slips(line.pronunciation, line.track, analysis) ==
            find_likely_slips(line.pronunciation, line.track, clashes, loop));
      CHECK(find_pattern(analysis.sequence, analysis.measure.competitions) == find_pattern(line.track, loop));
    }
}
