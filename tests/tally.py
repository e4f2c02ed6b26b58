# tally.py: counts the single tests in the logs of `meson test`.
#
# Input: a file with one line a round, "NAME STATUS LOG"; LOG is meson's JSON, one line a program.
# Output: a line a round, then "N passed, N failed". The round "sanitized" repeats tests that another
# round counts; only its failures are added.
#
# SPDX-License-Identifier: GPL-3.0-or-later
import json
import os
import re
import sys

RESULT = re.compile(r"^(not )?ok\b(.*)$", re.MULTILINE)
GOOD = ("OK", "SKIP", "EXPECTEDFAIL")


def count_program(entry):
    """Passed, failed, skipped of one program. One that crashed has failed at least once."""
    passed = failed = skipped = 0
    for bad, rest in RESULT.findall(entry.get("stdout") or ""):
        if re.search(r"#\s*(skip|todo)", rest, re.IGNORECASE):
            skipped += 1
        elif bad:
            failed += 1
        else:
            passed += 1
    if entry["result"] not in GOOD and failed == 0:
        failed = 1
    return passed, failed, skipped


def count_round(path, status):
    programs = []
    if os.path.exists(path):
        with open(path, encoding="utf-8") as log:
            programs = [json.loads(line) for line in log if line.strip()]
    counts = [count_program(entry) for entry in programs]
    passed, failed, skipped = (sum(column) for column in zip(*counts)) if counts else (0, 0, 0)
    # No test ran, or the build of the tests, the display or meson itself failed.
    if failed == 0 and (status != 0 or passed == 0):
        failed = 1
    return passed, failed, skipped


def main():
    total_passed = total_failed = 0
    with open(sys.argv[1], encoding="utf-8") as rounds:
        for line in rounds:
            name, status, path = line.split(" ", 2)
            passed, failed, skipped = count_round(path.strip(), int(status))
            print(f"{name}: {passed} passed, {failed} failed, {skipped} skipped")
            total_failed += failed
            if name != "sanitized":
                total_passed += passed
    print(f"{total_passed} passed, {total_failed} failed")
    return 0 if total_passed > 0 and total_failed == 0 else 1


sys.exit(main())
