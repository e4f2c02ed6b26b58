# journey.sh: what the journeys share: start the program, wait for what it shows, press and point.
#
# Sourced, with the program's path in $1. Waits are on conditions in the status file, never on time alone; a
# condition that does not come in 10 s ends the journey.
#
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

program=$1
source_root=${TINLAP_SOURCE_ROOT:?}
work=$(mktemp -d "${TMPDIR:-/tmp}/tinlap-journey.XXXXXX")
pid=
export TINLAP_STATUS_FILE="$work/status"
export XDG_STATE_HOME="$work/state"

finish () {
  [ -z "$pid" ] || kill "$pid" 2>/dev/null || :
  rm -rf "$work"
}
trap finish EXIT

fail () {
  echo "not ok: $1" >&2
  echo "last status: $(tail -n 1 "$TINLAP_STATUS_FILE" 2>/dev/null || echo none)" >&2
  cat "$work/log" >&2
  exit 1
}

# status EXPRESSION: a jq expression on the last line of the status
status () { tail -n 1 "$TINLAP_STATUS_FILE" | jq -r "$1"; }

# wait_for CONDITION WHAT: until the jq condition is true of the last line
wait_for () {
  for _ in $(seq 200)
  do
    if [ -s "$TINLAP_STATUS_FILE" ] && tail -n 1 "$TINLAP_STATUS_FILE" | jq -e "$1" > /dev/null 2>&1
    then
      echo "ok: $2"
      return
    fi
    kill -0 "$pid" 2>/dev/null || fail "the program ended before: $2"
    sleep 0.05
  done
  fail "$2"
}

# start FILE: the program in its window, with the keyboard
start () {
  rm -f "$TINLAP_STATUS_FILE"
  "$program" "$1" > "$work/log" 2>&1 &
  pid=$!
  wait_for '.page == "build" and (.bodies | length) > 0' "the window shows $(basename "$1")"
  window=$(xdotool search --onlyvisible --pid "$pid" | tail -n 1)
  xdotool windowfocus "$window"
}

# middle OBJECT KEY: x and y of the middle of a rectangle of the status
middle () {
  status ".$1[\"$2\"] | \"\(.[0] + (.[2] / 2 | floor)) \(.[1] + (.[3] / 2 | floor))\""
}

key () { xdotool key --clearmodifiers "$@"; }

stop () {
  kill "$pid"
  wait "$pid" 2>/dev/null || :
  pid=
  if grep -q -i -E 'critical|assertion' "$work/log"
  then
    fail "the program complained"
  fi
}

# save_and_reopen: Ctrl+S, then a new run on the same file
save_and_reopen () {
  key ctrl+s
  wait_for '.modified == false and .message == "Saved."' "it is saved"
  stop
  start "$1"
}

# export_and_read: the sheet as PDF through the file chooser, then its text
export_and_read () {
  key ctrl+e
  for _ in $(seq 200)
  do
    chooser=$(xdotool search --onlyvisible --name '^Step sheet as PDF$' 2>/dev/null | tail -n 1)
    [ -z "$chooser" ] || break
    sleep 0.05
  done
  [ -n "$chooser" ] || fail "the file chooser opens"
  xdotool windowfocus "$chooser"
  key ctrl+a
  xdotool type --delay 5 "$work/sheet.pdf"
  key Return
  wait_for '.message | startswith("Step sheet written")' "the sheet is written"
  pdftotext -layout "$work/sheet.pdf" "$work/sheet.txt"
  for words in "$@"
  do
    tr -s '[:space:]' ' ' < "$work/sheet.txt" | grep -q -i "$words" || fail "“$words” stands on the sheet"
    echo "ok: “$words” stands on the sheet"
  done
}
