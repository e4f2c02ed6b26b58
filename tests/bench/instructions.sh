#!/bin/bash
# instructions.sh BENCH-VERDICT: instructions of one verdict, counted by callgrind. They do not hang on the clock
# or on what else the machine does: two runs differ by less than 1 %.
#
# A run of 10 and one of 60 verdicts are counted; start-up and loading fall out of the difference.
#
# SPDX-License-Identifier: GPL-3.0-or-later
set -euo pipefail
program=$1
command -v valgrind >/dev/null || {
  echo "valgrind is not installed; instructions are not counted."
  exit 0
}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# count DEPTH LAYERS TIMES: instructions of the whole run.
count () {
  valgrind --tool=callgrind --callgrind-out-file="$folder/out" "$program" --count "$1" "$2" "$3" >"$folder/log" 2>&1 ||
    { cat "$folder/log" >&2; exit 1; }
  sed -n 's/.*Collected : *\([0-9]*\).*/\1/p' "$folder/log"
}

for case in "quick-cold 12" "quick-cold 200" "quick-cold-saved 12" "full-cold 12" "quick 12" "full 12"; do
  few=$(count $case 10)
  many=$(count $case 60)
  echo "verdict.${case/ /-}-layers $(((many - few) / 50)) instructions"
done
