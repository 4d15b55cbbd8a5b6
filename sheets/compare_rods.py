"""What has changed on rods, in words: which marks moved and by how much, which came and which went.

Rows are numbered from below, so one row more gives all rows above it other numbers. Whoever has the old rod on a board
wants to know which lines stay: a row that stands where another one stood is the same row under another name.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from math import inf
from typing import Any

from layouts.rods import Rod
from sheets.compare_columns import Numbers, Words, apart, changed, text
from sheets.strip import title

Names = Mapping[str, str]  # of marks or rows now: what they were called; nothing where they were not there

FAR = 1 / 3
SAME = "in the same place, called until now"
_NUMBERED = re.compile(r"(.*?) (\d+)((?:: .*)?)")  # Girt 3; Purlin 3: downhill edge


def rods(old: Numbers, new: Numbers) -> dict[str, Words]:
    """For every rod of both sides, by its title on the new sheets, which marks moved, came and went."""
    was = {_for(rod): rod for rod in old.get("rods", ())}
    unit = text(new.get("units"))
    both = ((rod, was[_for(rod)]) for rod in new.get("rods", ()) if _for(rod) in was)
    return {_title(now): tuple(_marks(before, now, unit)) for now, before in both}


def _for(rod: Numbers) -> tuple[str, tuple[str, ...]]:
    """What a rod is for: an earlier packet does not say who else uses it."""
    return str(rod["name"]), tuple(map(str, rod["walls"]))


def _title(rod: Numbers) -> str:
    name, walls = _for(rod)
    return title(Rod(name, walls, False, (), 0.0, str(rod.get("of", "")), tuple(map(str, rod.get("users", ())))))


def _marks(was: Numbers, now: Numbers, unit: str) -> Iterator[str]:
    before, after = _named(was["marks"]), _named(now["marks"])
    called = pairs(before, after)
    for name, mark in after.items():
        other = before.get(called[name])
        if other is None:
            yield f"new: {_call(name, mark)}: at {text(mark['station'])}"
            continue
        known = name if called[name] == name else f"{name}: until now: {called[name]}"
        if mark["edge"] != other["edge"]:
            told = f"{other['edge']}: {text(other['station'])}; now: {mark['edge']}: {text(mark['station'])}"
            board = moved(text(other["low"]), text(mark["low"]), unit) if "low" in other and "low" in mark else ""
            yield f"{known}: was marked: {told}" + f"; board: {board}" * bool(board)
        else:
            places = text(other["station"]), text(mark["station"])
            by = moved(*places, unit)
            yield from changed(_call(known, mark) + f": {by}" * bool(by), *places)
        yield from changed(f"{known}: board", text(other["board"]), text(mark["board"]))
    for name, mark in before.items():
        if name not in called.values():
            yield f"gone: {_call(name, mark)}: was at {text(mark['station'])}"
    yield from renumbered({n: o for n, o in called.items() if o and _place(before[o]) == _place(after[n])})


def moved(was: str, now: str, unit: str) -> str:
    """By how much a mark moved, and which way; nothing where it cannot be told."""
    by = apart(was, now, unit)
    return f"moved {by[1]} {'up' if by[0] > 0 else 'down'}" if by else ""


def renumbered(called: Names) -> Iterator[str]:
    """Which of them stand where they stood under other names, in one line."""
    other = {now: was for now, was in called.items() if was and was != now}
    if other:
        yield f"{', '.join(other)}: {SAME}: {', '.join(other.values())}"


# --- which is which ---------------------------------------------------------------------------------------------------


def of_wall(wall: str, old: Numbers, new: Numbers) -> Names:
    """The rows of a *wall* by the marks of its rod."""
    return pairs(*(_named(boards(wall, side)) for side in (old, new)))


def boards(wall: str, numbers: Numbers) -> list[Numbers]:
    """The boards that the rod of a *wall* marks."""
    rod = next((r for r in numbers.get("rods", ()) if wall in r["walls"]), {"marks": ()})
    return [mark for mark in rod["marks"] if mark.get("kind") == "board"]


def pairs(before: Mapping[str, Numbers], after: Mapping[str, Numbers]) -> dict[str, str]:
    """What each mark of *after* was called in *before*: its own name; of rows that are numbered, where more of them
    stand where they stood under another number, by their places."""
    called = {name: name if name in before else "" for name in after}
    series = _series(after)
    for base, names in _series(before).items():
        now = series.get(base, [])
        was, are = [_place(before[n]) for n in names], [_place(after[n]) for n in now]
        steps = SequenceMatcher(None, was, are, autojunk=False).get_opcodes()
        same = sum(end - start for kind, start, end, *_ in steps if kind == "equal")
        if same > sum(a == b for a, b in zip(was, are, strict=False)):
            for _, a, b, c, d in steps:
                called |= _between({n: before[n] for n in names[a:b]}, {n: after[n] for n in now[c:d]})
    return called


def _between(before: Mapping[str, Numbers], after: Mapping[str, Numbers]) -> dict[str, str]:
    """What each of *after* was called, where all stand between two rows that stay: in their order from below, as at
    another step; where they moved far less that way (``FAR``), to the nearest, as round a row that came or went."""
    swapped = len(before) > len(after)
    few, many = (after, before) if swapped else (before, after)
    near, names = _nearest(few, many)
    far = sum(abs(_height(a) - _height(b)) for a, b in zip(few.values(), many.values(), strict=False))
    same = dict(zip(few, names if near < far * FAR else many, strict=False))
    return dict.fromkeys(after, "") | (same if swapped else {now: was for was, now in same.items()})


def _nearest(few: Mapping[str, Numbers], many: Mapping[str, Numbers]) -> tuple[float, tuple[str, ...]]:
    """How far *few* stand from as many of *many*, all in all, in the same order and as near as they can; and which."""
    best: list[tuple[float, tuple[str, ...]]] = [(0.0, ())] * (len(many) + 1)  # of the first so many of them
    for mark in few.values():
        found: list[tuple[float, tuple[str, ...]]] = [(inf, ())] * (len(many) + 1)
        for at, (name, other) in enumerate(many.items(), 1):
            by = abs(_height(mark) - _height(other))
            found[at] = min(found[at - 1], (best[at - 1][0] + by, (*best[at - 1][1], name)))
        best = found
    return best[-1]


def _series(marks: Mapping[str, Numbers]) -> dict[str, list[str]]:
    """Boards that are numbered, by what they are, in the order of their numbers."""
    found: dict[str, dict[int, str]] = {}
    for name, mark in marks.items():
        numbered = _NUMBERED.fullmatch(name)
        if numbered and mark.get("kind") == "board":
            found.setdefault(numbered[1] + numbered[3], {})[int(numbered[2])] = name
    return {base: [names[number] for number in sorted(names)] for base, names in found.items()}


def _height(mark: Numbers) -> float:
    return float(mark["station"]["value"])


def _place(mark: Numbers) -> Sequence[str]:
    return str(mark["edge"]), text(mark["station"])


def _named(marks: Iterable[Numbers]) -> dict[str, Any]:
    """Marks by what they are called; where two are called alike the second is counted."""
    found: dict[str, Any] = {}
    for mark in marks:
        name = ": ".join(part for part in (str(mark["name"]), str(mark.get("where") or "")) if part)
        same = sum(known == name or known.startswith(f"{name}, ") for known in found)
        found[f"{name}, {same + 1}" if same else name] = mark
    return found


def _call(name: str, mark: Numbers) -> str:
    return f"{name}: {mark['edge']}" if mark.get("kind") == "board" else name
