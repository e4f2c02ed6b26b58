#!/bin/sh
# run-under-xvfb.sh: run a command on a screen of its own, with a session bus, folders and settings of its own.
#
# usage: run-under-xvfb.sh COMMAND [ARGUMENT...]
# TINLAP_SCREEN chooses the size, 1280x800 if unset.
#
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

home=$(mktemp -d "${TMPDIR:-/tmp}/tinlap-ui.XXXXXX")
trap 'rm -rf "$home"' EXIT INT TERM
mkdir -p "$home/data" "$home/config" "$home/cache" "$home/run"
chmod 700 "$home/run"

export HOME="$home" XDG_DATA_HOME="$home/data" XDG_CONFIG_HOME="$home/config" XDG_CACHE_HOME="$home/cache"
export XDG_RUNTIME_DIR="$home/run" GDK_BACKEND=x11 GSK_RENDERER=cairo GSETTINGS_BACKEND=memory
export GTK_A11Y="${GTK_A11Y:-test}" LC_ALL="${TINLAP_LOCALE:-C.UTF-8}" G_DEBUG="${G_DEBUG:-fatal-criticals}" TINLAP_TEST=1
export NO_AT_BRIDGE=1 ADW_DISABLE_PORTAL=1 GTK_USE_PORTAL=0
unset WAYLAND_DISPLAY DISPLAY SESSION_MANAGER || :

status=0
xvfb-run -a -s "-screen 0 ${TINLAP_SCREEN:-1280x800}x24" dbus-run-session -- "$@" || status=$?
exit $status
