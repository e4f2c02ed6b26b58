#!/bin/sh
# journey-keyboard.sh: the same joint and the same sheet, by keyboard alone.
#
# usage: journey-keyboard.sh PROGRAM, under run-under-xvfb.sh
#
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/journey.sh"

part=washer-plain-m5-steel
joint="$work/joint.tinlap"
cp "$source_root/data/examples/copper-on-aluminium.tinlap" "$joint"
start "$joint"
wait_for '.verdict == "Unsafe"' "copper on aluminium is Unsafe"
layers=$(status .layers)

# press_until KEY CONDITION WHAT: a key, again and again, until the condition holds
press_until () {
  for _ in $(seq 40)
  do
    if tail -n 1 "$TINLAP_STATUS_FILE" | jq -e "$2" > /dev/null
    then
      echo "ok: $3"
      return
    fi
    before=$(wc -l < "$TINLAP_STATUS_FILE")
    key "$1"
    for _ in $(seq 40)
    do
      [ "$(wc -l < "$TINLAP_STATUS_FILE")" -eq "$before" ] || break
      sleep 0.05
    done
    # What a key leads to may be painted a few frames later; a key too early would walk past it.
    for _ in $(seq 8)
    do
      ! tail -n 1 "$TINLAP_STATUS_FILE" | jq -e "$2" > /dev/null || break
      sleep 0.05
    done
  done
  fail "$3"
}

key ctrl+f
wait_for '.focus == "GtkText"' "Ctrl+F stands in the search"
xdotool type --delay 5 "plain washer steel bare"
wait_for ".parts[\"$part\"] != null and (.parts | length) < 12" "the search finds it"
key Tab
wait_for '.focus != "GtkText"' "Tab goes to the list"
press_until Down ".chosen == \"$part\"" "arrows choose the washer"

key F6
wait_for '.focus | startswith("TlBench")' "F6 goes to the bench"
press_until Down '.preview == "Watch"' "arrows stand in the gap between the eyes"
key Return
wait_for ".verdict == \"Watch\" and .layers == $((layers + 1))" "Enter puts the washer in"

key ctrl+z
wait_for ".verdict == \"Unsafe\" and .layers == $layers" "undo takes it back"
key ctrl+y
wait_for '.verdict == "Watch"' "redo brings it again"

save_and_reopen "$joint"
wait_for ".verdict == \"Watch\" and .layers == $((layers + 1))" "the saved joint opens as it was"
key ctrl+3
wait_for '.page == "ageing"' "Ctrl+3 shows the years ahead"
key ctrl+2
wait_for '.page == "steps"' "Ctrl+2 shows the steps"
export_and_read 'prove dead' 'torque' 'HOLD'
stop
