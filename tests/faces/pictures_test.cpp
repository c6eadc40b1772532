#include "base/assets.h"
#include "base/text.h"
#include "support/program.h"

#include <doctest/doctest.h>

using mw::test::Folder;
using mw::test::run_program;
using mw::test::whole;
namespace fs = std::filesystem;

namespace {
using Words = std::vector<std::string>;
// a command without its target, and the kinds of file it writes
struct Drawing {
  Words words;
  Words endings;
};
const std::vector<Drawing> drawings{{{"strip", "Lamps"}, {".png", ".svg", ".pdf"}},
                                    {{"pattern", "Lamps"}, {".png", ".svg", ".pdf"}},
                                    {{"shape", "s"}, {".png", ".svg", ".pdf"}},
                                    {{"chart", "--part", "other"}, {".png", ".svg", ".pdf"}},
                                    {{"sheet", "Lamps"}, {".svg", ".pdf"}}};

Words to(Words words, const fs::path& target, const Words& more = {}) {
  words.insert(words.end(), {"-o", target.string()});
  words.insert(words.end(), more.begin(), more.end());
  return words;
}
std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++n;
  return n;
}
// a picture of its kind, with its end
bool whole_picture(const std::string& bytes, const std::string& ending) {
  const auto ends = [&](const std::string& end) { return bytes.rfind(end) != std::string::npos && bytes.rfind(end) + 12 >= bytes.size(); };
  if (ending == ".png") return bytes.starts_with("\x89PNG\r\n\x1a\n") && ends("IEND");
  if (ending == ".pdf") return bytes.starts_with("%PDF-") && ends("%%EOF");
  return bytes.find("<svg") < 200 && ends("</svg>");
}
std::size_t pdf_pages(const std::string& pdf) { return count(pdf, "/Type /Page") - count(pdf, "/Type /Pages"); }
std::pair<int, int> png_size(const std::string& bytes) {
  const auto u32 = [&](std::size_t at) {
    int v = 0;
    for (std::size_t i = 0; i < 4; ++i) v = v * 256 + static_cast<unsigned char>(bytes.at(at + i));
    return v;
  };
  return {u32(16), u32(20)};
}
// no tag and no bare sign of the phrase stands in the markup
void check_escaped(const std::string& svg) {
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("&lt;script&gt;") != std::string::npos);
  std::size_t bare = 0;
  for (auto at = svg.find('&'); at != std::string::npos; at = svg.find('&', at + 1)) {
    const std::string entity = svg.substr(at, 6);
    bool known = entity.starts_with("&#");
    for (const char* name : {"&amp;", "&lt;", "&gt;", "&quot;", "&apos;"}) known = known || entity.starts_with(name);
    bare += !known;
  }
  CHECK(bare == 0);
}
std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator{}));
}
} // namespace

TEST_CASE("pictures: every drawing command writes each of its kinds whole, and the same bytes again") {
  const Folder folder;
  for (const auto& drawing : drawings)
    for (const auto& ending : drawing.endings) {
      const fs::path file = folder / (drawing.words[0] + ending), again = folder / (drawing.words[0] + "-again" + ending);
      INFO(file.string());
      const auto run = run_program(to(drawing.words, file));
      REQUIRE_MESSAGE(run.code == 0, run.err);
      CHECK(run.out.empty());
      CHECK(whole_picture(whole(file), ending));
      REQUIRE(run_program(to(drawing.words, again)).code == 0);
      CHECK(whole(again) == whole(file));
    }
}

TEST_CASE("pictures: an existing target is refused and kept; --overwrite replaces it; nothing else is left behind") {
  const Folder folder;
  for (const auto& drawing : drawings) {
    const fs::path file = folder / (drawing.words[0] + ".svg");
    INFO(file.string());
    std::ofstream(file) << "mine";
    const auto refused = run_program(to(drawing.words, file));
    CHECK(refused.code == 3);
    CHECK(refused.err.find("--overwrite") != std::string::npos);
    CHECK(whole(file) == "mine");
    CHECK(run_program(to(drawing.words, file, {"--overwrite"})).code == 0);
    CHECK(whole_picture(whole(file), ".svg"));
  }
  CHECK(files_in(folder.path()) == drawings.size());
}

TEST_CASE("pictures: an ending of no known kind is wrong use, and so is no target") {
  const Folder folder;
  for (const auto& drawing : drawings) {
    INFO(drawing.words[0]);
    for (const char* name : {"out.gif", "out", "out.svg.txt", ".svg"}) CHECK_MESSAGE(run_program(to(drawing.words, folder / name)).code == 1, name);
    if (drawing.words[0] != "shape") CHECK(run_program(drawing.words).code == 1);
  }
  CHECK(run_program({"sheet", "Lamps", "-o", (folder / "out.png").string()}).code == 1);
  CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("pictures: a folder that cannot be written is told with the file, exit 3") {
  const Folder folder;
  std::ofstream(folder / "file") << "x";
  for (const auto& drawing : drawings)
    for (const fs::path& target : {folder / "gone" / "out.svg", folder / "file" / "out.svg", fs::path("/proc/out.svg")}) {
      const auto run = run_program(to(drawing.words, target));
      CHECK_MESSAGE(run.code == 3, drawing.words[0] << " " << target.string());
      CHECK(run.err.find("out.svg") != std::string::npos);
    }
  CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("pictures: a phrase with signs of markup stands escaped in the picture") {
  const Folder folder;
  for (const char* command : {"strip", "sheet"}) {
    const fs::path file = folder / (std::string(command) + ".svg");
    const auto run = run_program({command, "Lamps <script>rattle()</script> & \"tins\"", "-o", file.string()});
    REQUIRE_MESSAGE(run.code == 0, run.err);
    check_escaped(whole(file));
  }
}

TEST_CASE("pictures: --size is the size of the PNG, speakers and themes draw differently") {
  const Folder folder;
  for (const char* command : {"strip", "shape", "chart"}) {
    const fs::path file = folder / (std::string(command) + ".png");
    Words words{command};
    if (words[0] != "chart") words.emplace_back("s");
    REQUIRE(run_program(to(words, file, {"--size", "333x222"})).code == 0);
    CHECK(png_size(whole(file)) == std::pair{333, 222});
  }
  REQUIRE(run_program(to({"strip", "Lamps"}, folder / "plain.png")).code == 0);
  CHECK(png_size(whole(folder / "plain.png")) == std::pair{1280, 720});
  for (const Words& more : {Words{"--theme", "dark"}, Words{"--anatomy", "child"}, Words{"--no-captions"}}) {
    const fs::path file = folder / (more.back() + ".png");
    REQUIRE(run_program(to({"strip", "Lamps"}, file, more)).code == 0);
    CHECK_MESSAGE(whole(file) != whole(folder / "plain.png"), more.back());
  }
  CHECK(run_program(to({"strip", "Lamps"}, folder / "x.png", {"--theme", "neon"})).code == 1);
  CHECK(run_program(to({"chart"}, folder / "x.pdf", {"--paper", "a9"})).code == 1);
  CHECK(run_program(to({"chart"}, folder / "x.pdf", {"--part", "most"})).code == 1);
}

TEST_CASE("sheet: a page a phrase; a lesson file gives the pages of its lines; paper has its size") {
  const Folder folder;
  const auto pages = [&](const Words& phrases, const std::string& name) {
    Words words{"sheet"};
    words.insert(words.end(), phrases.begin(), phrases.end());
    const auto run = run_program(to(words, folder / name));
    REQUIRE_MESSAGE(run.code == 0, run.err);
    return pdf_pages(whole(folder / name));
  };
  const std::size_t one = pages({"Lamps"}, "one.pdf");
  CHECK(one >= 1);
  CHECK(pages({"Lamps", "Tins", "Mend it."}, "three.pdf") == 3 * one);
  CHECK(pages({(*mw::assets_folder() / "lessons" / "sample.toml").string()}, "lesson.pdf") >= 3);
  const std::string a4 = whole(folder / "one.pdf");
  REQUIRE(run_program(to({"sheet", "Lamps"}, folder / "letter.pdf", {"--paper", "letter"})).code == 0);
  CHECK(a4.find("595.") != std::string::npos); // 210 mm in points
  CHECK(whole(folder / "letter.pdf").find(" 612 792") != std::string::npos);
}

TEST_CASE("sheet: a lesson that is missing or broken is a problem of the input, and so is one without lines") {
  const Folder folder;
  const fs::path out = folder / "out.pdf";
  std::ofstream(folder / "broken.toml") << "title = \"Brass\"\ncolour = 3\n";
  std::ofstream(folder / "empty.toml") << "title = \"Nothing yet\"\n";
  const auto gone = run_program(to({"sheet", (folder / "gone.toml").string()}, out));
  CHECK(gone.code == 2);
  CHECK(gone.err.find("gone.toml") != std::string::npos);
  const auto broken = run_program(to({"sheet", (folder / "broken.toml").string()}, out));
  CHECK(broken.code == 2);
  CHECK_MESSAGE(broken.err.find("broken.toml line 2") != std::string::npos, broken.err);
  CHECK(run_program(to({"sheet", (folder / "empty.toml").string()}, out)).code == 2);
  CHECK(run_program(to({"sheet", ""}, out)).code == 2);
  CHECK_FALSE(fs::exists(out));
}

TEST_CASE("shape: with -o and --json together the picture is written and the values are printed") {
  const Folder folder;
  const auto run = run_program({"shape", "s", "--json", "-o", (folder / "s.svg").string()});
  REQUIRE(run.code == 0);
  CHECK(run.out == run_program({"shape", "s", "--json"}).out);
  CHECK(whole_picture(whole(folder / "s.svg"), ".svg"));
}
