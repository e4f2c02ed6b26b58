#!/bin/sh
# journey-mouse.sh: a washer between two eyes, with the mouse: verdict, undo, save, reopen, sheet.
#
# Aluminium eye on copper eye in damp is Unsafe, with a steel washer between no more than Watch: the must-show list
# of the rules (IEC 60950-1 Annex J values).
#
# usage: journey-mouse.sh PROGRAM, under run-under-xvfb.sh
#
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/journey.sh"

part=washer-plain-m5-steel
joint="$work/joint.tinlap"
cp "$source_root/data/examples/copper-on-aluminium.tinlap" "$joint"
start "$joint"
wait_for '.verdict == "Unsafe"' "copper on aluminium is Unsafe"
layers=$(status .layers)

wait_for ".parts[\"$part\"] != null" "the washer stands in Parts"
set -- $(middle parts "$part")
xdotool mousemove "$1" "$2" mousedown 1 mousemove "$(($1 + 30))" "$(($2 + 4))"
wait_for '.dragging and (.places | length) > 0' "places open while it is dragged"

# The place whose middle lies between those of the two eyes.
place=$(status '([.bodies["leg-1"], .bodies["leg-2"]] | map(.[1] + .[3] / 2) | sort) as $eyes
  | .places | to_entries
  | map(select((.value[1] + .value[3] / 2) > $eyes[0] and (.value[1] + .value[3] / 2) < $eyes[1])) | .[0].key')
set -- $(middle places "$place")
xdotool mousemove "$1" "$2"
wait_for '.preview == "Watch"' "the place under the pointer shows the verdict to come"
xdotool mouseup 1
wait_for ".verdict == \"Watch\" and .layers == $((layers + 1)) and .modified" "the drop changes the verdict"

key ctrl+z
wait_for ".verdict == \"Unsafe\" and .layers == $layers and .modified == false" "undo takes it back"
key ctrl+shift+z
wait_for '.verdict == "Watch"' "redo brings it again"

# Escape during a drag: the release that follows puts nothing in.
set -- $(middle parts "$part")
xdotool mousemove "$1" "$2" mousedown 1 mousemove "$(($1 + 30))" "$(($2 + 4))"
wait_for '.dragging' "a second drag begins"
key Escape
wait_for '.dragging == false' "Escape cancels it"
xdotool mousemove 560 300 mouseup 1
wait_for ".layers == $((layers + 1)) and .dragging == false" "nothing was put in"

save_and_reopen "$joint"
wait_for ".verdict == \"Watch\" and .layers == $((layers + 1))" "the saved joint opens as it was"
export_and_read 'prove dead' 'torque' 'HOLD'
stop
