"""What has changed on walls, in words: what stands on them, their rows, openings and posts, as in
``sheets.compare_columns``."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from layouts.lumber import bought_as
from sheets.compare_columns import Numbers, Words, apart, by_name, changed, renamed, text
from sheets.compare_rods import Names, boards, moved, of_wall, renumbered


def walls(old: Numbers, new: Numbers) -> dict[str, Words]:
    """For every wall of both sides, by its name: its columns and their offsets, its pieces, joints and rows."""
    was, now = by_name(old, "walls"), by_name(new, "walls")
    offsets = [{n: text(c.get("offset")) for n, c in by_name(side, "columns").items()} for side in (old, new)]
    called = renamed(old, new)
    said = {}
    for name, wall in now.items():
        if name in was:
            names = of_wall(name, old, new)
            rows = _rows_moved(name, old, new, names)
            unit = text(new.get("units"))
            found = (
                *_stands(was[name], wall, offsets, called),
                *_openings(was[name], wall, unit),
                *_pieces(was[name], wall, names),
                *_uprights(was[name], wall),
                *rows,
            )
            said[name] = found or _lift(was[name], wall)
    return said


def _stands(was: Numbers, now: Numbers, offsets: Sequence[Mapping[str, str]], called: Mapping[str, str]) -> list[str]:
    """What stands on the wall and under it."""
    said = [*changed("columns out to out", text(was.get("length")), text(now.get("length")))]
    names = [called.get(name, name) for name in was["columns"]]
    if names != list(now["columns"]):
        said += changed("columns, left to right", text(was["columns"]), text(now["columns"]))
    said += [f"{old} is called {called[old]}" for old in was["columns"] if called.get(old) in now["columns"]]
    back = {new: old for old, new in called.items()}
    for name in now["columns"]:
        before = back.get(name, name)
        if before in was["columns"]:
            said += changed(f"offset of {name}", offsets[0].get(before, "NO TAG"), offsets[1].get(name, "NO TAG"))
    return said


def _openings(was: Numbers, now: Numbers, unit: str) -> Iterator[str]:
    """Openings that stand elsewhere, seen from outside, or are of another size."""
    before, after = by_name(was, "openings"), by_name(now, "openings")
    for name, opening in after.items():
        if name not in before:
            yield f"new: opening {name}: left edge: at {text(opening['left'])}"
            continue
        sides = [[text(each[key]) for key in ("left", "right")] for each in (before[name], opening)]
        by = [apart(a, b, unit) for a, b in zip(*sides, strict=True)]
        if by[0] and by[0] == by[1]:
            way = "right" if by[0][0] > 0 else "left"
            told = f"opening {name}: moved {by[0][1]} to the {way}: left edge"
            yield from changed(told, sides[0][0], sides[1][0])
        else:
            for key, a, b in zip(("left edge", "right edge"), *sides, strict=True):
                yield from changed(f"opening {name}: {key}", a, b)
        for key, what in (("low", "bottom"), ("high", "top")):
            a, b = text(before[name][key]), text(opening[key])
            yield from changed(f"opening {name}: {what}: {moved(a, b, unit)}".removesuffix(": "), a, b)
    yield from (f"gone: opening {name}" for name in before if name not in after)


def _uprights(old: Numbers, new: Numbers) -> list[str]:
    """Jamb posts, cripples, corner boards and rake nailers of other sizes or lengths: where they stand is told with
    their opening."""
    found = [_standing(wall) for wall in (old, new)]
    names = dict.fromkeys((*found[1], *found[0]))
    pairs = ((name, *(side.get(name, "none") for side in found)) for name in names)
    return _alike((name, f"was {was}, now {now}" if was != now else "") for name, was, now in pairs)


def _standing(wall: Numbers) -> dict[str, str]:
    """How many of which board and length, by their names."""
    found: dict[str, Counter[str]] = {}
    rakes = [{**rake, "name": "Rake nailer"} for rake in wall.get("rakes", ())]
    for one in (*wall.get("uprights", ()), *rakes):
        found.setdefault(str(one["name"]), Counter())[f"{text(one['board'])} {text(one['length'])}"] += 1
    return {name: ", ".join(f"{n} pc {what}" for what, n in sorted(all_of.items())) for name, all_of in found.items()}


def _lift(was: Numbers, now: Numbers) -> Words:
    """Of a wall with nothing else to tell."""
    before, after = ({k: text(v) for k, v in wall.get("lift", {}).items()} for wall in (was, now))
    return ("its weight or its lift",) if before != after else ()


def _pieces(was: Numbers, now: Numbers, names: Names) -> list[str]:
    """Rows whose boards have changed, like ones together; rows that only have other piece numbers. *names* says what
    rows were called that are called otherwise now."""
    found, after = _rows(was), _rows(now)
    called = {row: names.get(row, row) for row in after}
    before = {row: found[name] for row, name in called.items() if name in found}
    said = _alike((row, _row(before[row], pieces)) for row, pieces in after.items() if row in before)
    gone = {name: pieces for name, pieces in found.items() if name not in called.values()}
    come = {row: pieces for row, pieces in after.items() if row not in before}
    for what, rows in (("new row", come), ("row gone", gone)):
        said += [f"{what}: {row}: {_boards(pieces)}" for row, pieces in rows.items()]
    numbers = [
        row
        for row, pieces in after.items()
        if row in before and not _row(before[row], pieces) and _called(before[row]) != _called(pieces)
    ]
    return [*said, f"other piece numbers: {', '.join(numbers)}"] if numbers else said


def _rows(wall: Numbers) -> dict[str, list[Any]]:
    rows: dict[str, list[Any]] = {}
    for piece in wall["pieces"]:
        rows.setdefault(str(piece["row"]), []).append(piece)
    return rows


def _called(pieces: Iterable[Numbers]) -> list[str]:
    return [text(piece.get("mark")) for piece in pieces]


def _boards(pieces: Sequence[Numbers]) -> str:
    """How many and how long."""
    return f"{len(pieces)} pc {', '.join(text(p['length']) for p in pieces)}"


def _row(was: Sequence[Numbers], now: Sequence[Numbers]) -> str:
    """What has changed in a row: its board, its pieces, or only where they meet."""
    kinds = [bought_as(str(p[0].get("board")), p[0].get("treated")) for p in (was, now)]
    if kinds[0] != kinds[1]:
        return f"was {_boards(was)} of {kinds[0]}, now {_boards(now)} of {kinds[1]}"
    if _boards(was) != _boards(now):
        return f"was {_boards(was)}, now {_boards(now)}"
    ends = [[(text(p.get("from")), text(p.get("to"))) for p in side] for side in (was, now)]
    if ends[0] != ends[1]:
        joints = [", ".join(end for _, end in side[:-1]) or side[0][0] for side in ends]
        return f"same lengths, joints were at {joints[0]}, now at {joints[1]}"
    backs = [[text(p.get("back")) for p in side] for side in (was, now)]
    return "" if backs[0] == backs[1] else f"sloped ends were {_sloped(backs[0])} back, now {_sloped(backs[1])}"


def _sloped(backs: Sequence[str]) -> str:
    return " and ".join(dict.fromkeys(backs))


def _alike(rows: Iterable[tuple[str, str]]) -> list[str]:
    """Rows of which the same is said, together."""
    groups: dict[str, list[str]] = {}
    for row, said in rows:
        if said:
            groups.setdefault(said, []).append(row)
    return [f"{', '.join(names)}: {said}" for said, names in groups.items()]


def _rows_moved(wall: str, old: Numbers, new: Numbers, names: Names) -> Words:
    """Rows of a wall that stand at other stations, and those that are only called otherwise: how they are marked, and
    how far they moved, is told with their rod."""
    was, now = (_stations(wall, side) for side in (old, new))
    called = {name: names.get(name, name) for name in now}
    elsewhere = [name for name in now if called[name] in was and was[called[name]] != now[name]]
    stays = {name: called[name] for name in now if called[name] in was and name not in elsewhere}
    said = (f"rows that stand elsewhere: {', '.join(elsewhere)}",) if elsewhere else ()
    return (*said, *renumbered(stays))


def _stations(wall: str, numbers: Numbers) -> dict[str, str]:
    return {str(m["name"]): f"{m['edge']} {text(m['station'])}" for m in boards(wall, numbers)}
