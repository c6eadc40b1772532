#pragma once

#include "accent/accent.h"

#include <filesystem>

namespace mw {

// The coach's own accents: one file each, `<id>.toml`, in $XDG_DATA_HOME/mouthwright/accents or else
// ~/.local/share/mouthwright/accents. An id is taken as `--accent` takes it. Shipped files are never touched.

/// The folder, which need not be there. Problem (output) without a home.
Result<std::filesystem::path> own_accents_folder();

/// One file of the folder: its id is its name without .toml. `problem`: it cannot be read, and why.
struct OwnAccent {
  AccentName name; // status "yours"
  std::string based_on{};
  std::optional<Problem> problem{};
};
/// All of them by id; none without a folder. Files with the id of a shipped accent are left out: the shipped one wins.
std::vector<OwnAccent> list_own_accents();
/// The file of an id, when there is one.
std::optional<std::filesystem::path> own_accent_file(const std::string& id);
/// An id for a new accent of this name: "your-southern-british", "...-2" when that is taken by any accent.
std::string free_accent_id(const std::string& name);

/// Writes the file in one step, and a copy of it to last-good/ in the folder. A file that stands there and was edited (or
/// broken) by hand since is first kept as `<id>.kept-N`. Problem (output): nothing is lost, the old file stands.
Result<Done> save_own_accent(const Accent& accent);
/// The copy that was last saved, when the file itself is broken. Problem (input) when there is none.
Result<Accent> last_good_accent(const std::string& id);
/// Moves the file to trash/ in the folder; gives where it went.
Result<std::filesystem::path> discard_own_accent(const std::string& id);

} // namespace mw
