#!/bin/sh
# journey-crash.sh: work that was not saved comes back after the program was killed.
#
# usage: journey-crash.sh PROGRAM, under run-under-xvfb.sh
#
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/journey.sh"

joint="$work/joint.tinlap"
cp "$source_root/data/examples/sleeve-inspected.tinlap" "$joint"
start "$joint"
key ctrl+5
wait_for '.page == "pictures" and .pictures.canvas != null' "Ctrl+5 shows the pictures"
marks=$(status .pictures.marks)
wait_for '.focus == "TlPictureCanvas"' "keys go to the picture"
key m
wait_for '.pictures.tool == 3' "M takes the mark"
key Return
wait_for ".modified" "the unsaved work is back"
xdotool windowfocus "$(xdotool search --onlyvisible --pid "$pid" | tail -n 1)"
key ctrl+5
wait_for ".pictures.marks == $((marks + 1)) and .modified" "a mark is set"

for _ in $(seq 200)
do
  ls "$XDG_STATE_HOME"/tinlap/unsaved/*.kept > /dev/null 2>&1 && break
  sleep 0.05
done
ls "$XDG_STATE_HOME"/tinlap/unsaved/*.kept > /dev/null || fail "the work is put by"
kill -9 "$pid"
wait "$pid" 2>/dev/null || :
cmp -s "$joint" "$source_root/data/examples/sleeve-inspected.tinlap" || fail "the file is as it was"
echo "ok: killed; the file is as it was"

start "$joint"
for _ in $(seq 200)
do
  dialog=$(xdotool search --onlyvisible --name 'Bring unsaved work back' 2>/dev/null | tail -n 1)
  [ -z "$dialog" ] || break
  sleep 0.05
done
[ -n "$dialog" ] || fail "the program asks about what was left"
xdotool windowfocus "$dialog"
key Return
wait_for ".modified" "the unsaved work is back"
xdotool windowfocus "$(xdotool search --onlyvisible --pid "$pid" | tail -n 1)"
key ctrl+5
wait_for ".pictures.marks == $((marks + 1)) and .modified and .pictures.photos == 3" "the mark is there again, unsaved"
key ctrl+s
wait_for '.modified == false' "it is saved"
[ -z "$(ls "$XDG_STATE_HOME"/tinlap/unsaved)" ] || fail "nothing is left behind"
echo "ok: nothing is left behind"
stop
