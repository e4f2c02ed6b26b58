#!/bin/sh
# journey-pictures.sh: an inspected joint: a scale and a measure with the mouse, a mark by keyboard, undone, saved, reopened.
#
# The rule in the picture is our own drawing: 0 to 50 mm on it is the known length.
#
# usage: journey-pictures.sh PROGRAM, under run-under-xvfb.sh
#
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/journey.sh"

joint="$work/joint.tinlap"
cp "$source_root/data/examples/sleeve-inspected.tinlap" "$joint"
start "$joint"
key ctrl+5
wait_for '.page == "pictures" and .pictures.canvas != null' "Ctrl+5 shows the pictures"
scales=$(status .pictures.scales)
measures=$(status .pictures.measures)
marks=$(status .pictures.marks)

# at X Y: where a pixel of the picture lies on the screen; its size is given in millionths
at () {
  status ".pictures.canvas as \$c | \"\((\$c[0] + $1 * \$c[2] / 1000000) | floor) \((\$c[1] + $2 * \$c[2] / 1000000) | floor)\""
}

# pull X0 Y0 X1 Y1: press at one pixel of the picture, release at another
pull () {
  set -- $(at "$1" "$2") $(at "$3" "$4")
  xdotool mousemove "$1" "$2" mousedown 1 mousemove "$(( ($1 + $3) / 2 ))" "$(( ($2 + $4) / 2 ))" \
    mousemove "$3" "$4" mouseup 1
}

key s
wait_for '.pictures.tool == 1' "S takes the scale"
pull 365 510 756 512
wait_for '.pictures.tool == 0 and .focus == "GtkText"' "the line drawn asks for its length"
xdotool type --delay 5 "5 cm"
key Return
wait_for ".pictures.scales == $((scales + 1)) and .modified" "the length makes it a scale"

key Escape
set -- $(at 600 700)
xdotool mousemove "$1" "$2" click 1
key l
wait_for '.pictures.tool == 2' "L takes the length"
pull 400 330 740 330
wait_for ".pictures.measures == $((measures + 1)) and .pictures.tool == 0" "the line drawn is measured"

# One end is pulled to another place, which is one step of undo.
pull 740 330 700 330
wait_for '.undo == "Move in the picture"' "a handle is pulled"
key ctrl+z
wait_for '.undo == "Measure in the picture"' "undo puts it back in one step"

set -- $(at 600 700)
xdotool mousemove "$1" "$2" click 1
key m
wait_for '.pictures.tool == 3' "M takes the mark"
key Right Right Down Return
wait_for ".pictures.marks == $((marks + 1)) and .pictures.selected != \"\"" "Enter sets it at the cross"
key Delete
wait_for ".pictures.marks == $marks" "Delete takes it out"
key ctrl+z
wait_for ".pictures.marks == $((marks + 1))" "undo brings it back"

save_and_reopen "$joint"
key ctrl+5
wait_for ".pictures.marks == $((marks + 1)) and .pictures.scales == $((scales + 1)) and .pictures.measures == $((measures + 1))" \
  "the saved document opens with all of it"
unzip -tq "$joint" > /dev/null || fail "the document is a whole ZIP"
stop
