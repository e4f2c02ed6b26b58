# road.py: no file of src uses a file above it, neither by including it nor by calling it: rooms stand on one
# another in one order, and inside a room files do not use one another in a circle.
#
# A file is a .c with the .h of its name. What it uses is read from its names: tl_...() and tables tl_..., each
# defined in one .c only. Comments and strings do not count.
#
# SPDX-License-Identifier: GPL-3.0-or-later
import collections
import os
import re
import sys

ROOMS = ("base", "physics", "stock", "picture", "joint", "assembly", "rules", "plan", "draw", "cli", "app")
FUNCTION = re.compile(r"^(tl_\w+) \(", re.MULTILINE)
TABLE = re.compile(r"^(?:const )?[\w *]+?\b(tl_\w+)(?:\[[^\]]*\])+ =", re.MULTILINE)
NAME = re.compile(r"\btl_\w+")
INCLUDE = re.compile(r'^#include "(\w+/[\w-]+\.h)"', re.MULTILINE)
HIDDEN = re.compile(r'/\*.*?\*/|"(?:\\.|[^"\\\n])*"', re.DOTALL)


def read_sources(root):
    """Text of each .c of the rooms, by ROOM/FILE, with what is no code taken out."""
    texts = {}
    for room in ROOMS:
        for name in sorted(os.listdir(os.path.join(root, "src", room))):
            if name.endswith(".c"):
                with open(os.path.join(root, "src", room, name), encoding="utf-8") as file:
                    texts[f"{room}/{name}"] = HIDDEN.sub(lambda m: '""' if m[0][0] == '"' else " ", file.read())
    return texts


def find_uses(texts):
    """Which file uses which, and by what name: {user: {used: name}}."""
    owners = collections.defaultdict(set)
    for path, text in texts.items():
        for name in FUNCTION.findall(text) + TABLE.findall(text):
            owners[name].add(path)
    uses = {path: {} for path in texts}
    for path, text in texts.items():
        for name in set(NAME.findall(text)):
            for owner in owners[name] if len(owners[name]) == 1 else ():
                if owner != path:
                    uses[path][owner] = name
    return uses


def find_includes(root):
    """Which file of a room includes which header of another, as find_uses()."""
    includes = {}
    for room in ROOMS:
        for name in sorted(os.listdir(os.path.join(root, "src", room))):
            if name.endswith((".c", ".h")):
                with open(os.path.join(root, "src", room, name), encoding="utf-8") as file:
                    includes[f"{room}/{name}"] = {header: "types" for header in INCLUDE.findall(file.read())
                                                  if header.split("/")[0] in ROOMS}
    return includes


def find_upward(uses):
    """Uses of a room that stands higher; of the two doors neither stands on the other."""
    floor = {room: i for i, room in enumerate(ROOMS)}
    floor["app"] = floor["cli"]
    for user, used in uses.items():
        for path, name in used.items():
            mine, other = user.split("/")[0], path.split("/")[0]
            if mine != other and floor[other] >= floor[mine]:
                yield f"{user} uses {name} of {path}"


def find_circle(uses):
    """One circle as "a uses x of b", ..., or an empty list."""
    state, trail = {}, []

    def visit(path):
        state[path] = "open"
        trail.append(path)
        for used in sorted(uses[path]):
            if state.get(used) == "open":
                ring = trail[trail.index(used):] + [used]
                return [f"{a} uses {uses[a][b]} of {b}" for a, b in zip(ring, ring[1:])]
            if used not in state:
                ring = visit(used)
                if ring:
                    return ring
        trail.pop()
        state[path] = "done"
        return []

    for path in uses:
        ring = visit(path) if path not in state else []
        if ring:
            return ring
    return []


def self_check():
    """The finders find what they are made for."""
    up = {"base/a.c": {"draw/b.c": "tl_b"}, "draw/b.c": {}}
    ring = {"base/a.c": {"base/b.c": "tl_b"}, "base/b.c": {"base/c.c": "tl_c"}, "base/c.c": {"base/a.c": "tl_a"}}
    texts = {"base/a.c": "void\ntl_a (void)\n{\n  tl_b ();\n}\n", "base/b.c": "void\ntl_b (void)\n{\n}\n"}
    return (len(list(find_upward(up))) == 1 and len(find_circle(ring)) == 3 and not find_circle(up)
            and find_uses(texts)["base/a.c"] == {"base/b.c": "tl_b"})


def tell(number, title, faults):
    for fault in faults:
        print(f"# {fault}")
    print(f"{'not ok' if faults else 'ok'} {number} {title}")
    return not faults


def main():
    sys.setrecursionlimit(10000)
    root = os.environ["TINLAP_SOURCE_ROOT"]
    uses, includes = find_uses(read_sources(root)), find_includes(root)
    print("1..5")
    results = [
        tell(1, "/road/finders", [] if self_check() else ["the finders miss what they should find"]),
        tell(2, "/road/sources-read", [] if min(sum(map(len, u.values())) for u in (uses, includes)) > 500 else ["hardly anything was read"]),
        tell(3, "/road/rooms", list(find_upward(uses))),
        tell(4, "/road/includes", list(find_upward(includes))),
        tell(5, "/road/circles", find_circle(uses)),
    ]
    return 0 if all(results) else 1


sys.exit(main())
