# setup.sh: what src/start and tests/run share: packages and the build. Sourced by bash, not run.
#
# SPDX-License-Identifier: GPL-3.0-or-later

# Debian 12 names.
readonly build_packages=(
  meson ninja-build gcc libc6-dev pkg-config gettext
  libglib2.0-dev libgtk-4-dev libadwaita-1-dev libcairo2-dev libpango1.0-dev libgdk-pixbuf-2.0-dev
  libxml2-dev libgsl-dev libjson-glib-dev libexif-dev libarchive-dev
  desktop-file-utils shared-mime-info gtk-update-icon-cache
  adwaita-icon-theme fonts-cantarell fonts-dejavu-core gsettings-desktop-schemas
)
readonly test_packages=(
  xvfb xauth xdotool x11-apps dbus dbus-user-session dbus-x11 at-spi2-core
  libical-dev
  libarchive-tools unzip libxml2-utils poppler-utils imagemagick appstream valgrind ngspice jq python3 procps
)

say () {
  printf '%s\n' "$*" >&2
}

# Prints those of "$@" that are not installed.
missing_packages () {
  local package
  for package in "$@"; do
    if [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" != installed ]; then
      printf '%s\n' "$package"
    fi
  done
}

# Installs what is missing of "$@"; asks a person at the terminal first. Fails with the line to type.
ensure_packages () {
  local missing answer run=()
  command -v dpkg-query >/dev/null || {
    say "This is no Debian system. Install what corresponds to these Debian 12 packages: $*"
    return 0
  }
  mapfile -t missing < <(missing_packages "$@")
  [ "${#missing[@]}" -eq 0 ] && return 0

  if [ "$(id -u)" -ne 0 ]; then
    if command -v sudo >/dev/null && { [ -t 0 ] || sudo -n true 2>/dev/null; }; then
      run=(sudo)
    else
      say "Some packages are missing. Please type:"
      say "  su -c 'apt-get update && apt-get install --no-install-recommends ${missing[*]}'"
      return 1
    fi
  fi
  if [ -t 0 ] && [ -z "${CI:-}" ]; then
    printf 'These packages are missing: %s\nInstall them now? [Y/n] ' "${missing[*]}" >&2
    read -r answer
    case "$answer" in
      [nN]*)
        say "Nothing was installed. The line to type yourself:"
        say "  ${run[*]} apt-get install --no-install-recommends ${missing[*]}"
        return 1
        ;;
    esac
  fi
  "${run[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -q >&2 &&
    "${run[@]}" env DEBIAN_FRONTEND=noninteractive \
      apt-get install -q -y --no-install-recommends "${missing[@]}" >&2
}

# configure FOLDER [OPTION...]: sets FOLDER up, or sets the options in one that is.
configure () {
  local folder=$1
  shift
  if [ -f "$folder/build.ninja" ]; then
    if grep -qF "\"source\": \"$PWD\"" "$folder/meson-info/meson-info.json" &&
      meson configure "$folder" "$@" >/dev/null; then
      return 0
    fi
    say "$folder is from another place or version and is set up anew."
    meson setup --wipe "$folder" "$@" >&2
  else
    meson setup "$folder" "$@" >&2
  fi
}
