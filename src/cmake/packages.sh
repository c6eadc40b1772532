# The Debian packages of the project, in one place, and the step that installs those that are missing.
MW_BUILD_PACKAGES=(g++ cmake ninja-build ccache pkg-config libglm-dev libutf8proc-dev libtomlplusplus-dev libcairo2-dev
  libharfbuzz-dev libfreetype-dev libfontconfig-dev libisal-dev nlohmann-json3-dev libcli11-dev libespeak-ng-dev
  espeak-ng-data libsdl2-dev libimgui-dev libstb-dev libepoxy-dev libgl1-mesa-dri libegl1 fonts-sil-andika
  fonts-sil-charis)
MW_TEST_PACKAGES=(doctest-dev poppler-utils ffmpeg xvfb)

# install_packages NAME...: asks apt only for what dpkg does not list; sudo only when not root.
install_packages() {
  local missing=() name
  for name in "$@"; do
    dpkg-query -W -f='${Status}' "$name" 2>/dev/null | grep -q 'install ok installed' || missing+=("$name")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "run: these packages are missing: ${missing[*]}; install them as root" >&2; return 5; }
    as_root=(sudo)
  fi
  echo "Installing: ${missing[*]}" >&2
  "${as_root[@]}" apt-get update -qq >&2
  DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2
}
