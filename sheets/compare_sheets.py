"""What has changed on walls, cut sheets and the order, in words, as in ``sheets.compare_columns``."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from sheets.compare_columns import Numbers, Words, by_name, changed, renamed, text
from sheets.compare_rods import Names, boards, of_wall, renumbered

# --- walls -----------------------------------------------------------------------------------------------------------


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
            said[name] = (*_stands(was[name], wall, offsets, called), *_pieces(was[name], wall, names), *rows)
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
    kinds = [f"{p[0].get('board')}{' treated' if p[0].get('treated') else ''}" for p in (was, now)]
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
    moved = [name for name in now if called[name] in was and was[called[name]] != now[name]]
    stays = {name: called[name] for name in now if called[name] in was and name not in moved}
    said = (f"rows that stand elsewhere: {', '.join(moved)}",) if moved else ()
    return (*said, *renumbered(stays))


def _stations(wall: str, numbers: Numbers) -> dict[str, str]:
    return {str(m["name"]): f"{m['edge']} {text(m['station'])}" for m in boards(wall, numbers)}


# --- cut sheets and what to buy --------------------------------------------------------------------------------------


def lists(old: Numbers, new: Numbers) -> dict[tuple[str, str], Words]:
    """For the cut sheets, the mark tables and the grade sheets, by kind and title: columns and pieces that have
    changed."""
    keys = ("offset", "length", "stock", "drop")
    seats = ("reading", "offset", "seat", "shoot_again")
    shot = _names("the seats of", old, new, lambda c: [text(c.get(key)) for key in seats])
    listed = _names("the lines of", old, new, lambda c: [text(c.get(key)) for key in keys])
    marked = _names("the marks of", old, new, lambda c: [(m["name"], text(m)) for m in c.get("marks", ())])
    return {
        ("cuts", "Cut sheet"): (*listed, *_kinds(old, new)),
        ("cuts", "Mark table"): marked,
        ("grade", "Grade sheet"): shot,
        ("roof", "Roof sheet"): _roof(old, new),
        **_cladding(old, new),
    }


def _roof(old: Numbers, new: Numbers) -> Words:
    """What of the roof lies elsewhere."""
    was, now = old.get("roof") or {}, new.get("roof") or {}
    keys = {
        "the slopes": ("tail", "run", "length", "slide"),
        "the purlins": ("purlins", "last_at_top"),
        "the lookouts": ("lookouts", "lookout_deep"),
    }
    said = [
        name
        for name, each in keys.items()
        if [[_told(s.get(k)) for k in each] for s in was.get("slopes", ())]
        != [[_told(s.get(k)) for k in each] for s in now.get("slopes", ())]
    ]
    moved = _told(was.get("trusses")) != _told(now.get("trusses"))
    return (*said, *(("the trusses along the eave",) if moved else ()))


def _cladding(old: Numbers, new: Numbers) -> dict[tuple[str, str], Words]:
    """Walls and slopes with other sheets, and how many of what length are to be ordered."""
    was, now = old.get("cladding") or {}, new.get("cladding") or {}
    found: dict[tuple[str, str], Words] = {("cladding", "Sheets to order"): _to_order(was, now)}
    before = by_name(was, "faces")
    for name, face in by_name(now, "faces").items():
        keys = ("name", "left", "right", "low", "order")
        mine, theirs = (
            {str(s["name"]): [_told(s.get(k)) for k in keys] for s in f.get("sheets", ())}
            for f in (face, before.get(name, {}))
        )
        other = [one for one in mine if mine[one] != theirs.get(one)]
        gone = [one for one in theirs if one not in mine]
        said = [f"{what} sheets {', '.join(names)}" for what, names in (("other", other), ("no more", gone)) if names]
        found["cladding", f"Sheets, {name}"] = tuple(said)
    return found


def _to_order(was: Numbers, now: Numbers) -> Words:
    """Sheets to buy more or less."""
    counts = [
        Counter({f"{o['kind']} sheets {text(o['length'])}": int(o["count"]) for o in side.get("order", ())})
        for side in (was, now)
    ]
    names = dict.fromkeys((*counts[1], *counts[0]))
    more = {name: counts[1][name] - counts[0][name] for name in names}
    return tuple(f"{n}: was {counts[0][n]}, now {counts[1][n]}: {_buy(by)}" for n, by in more.items() if by)


def _told(value: Any) -> object:
    """A length, or a list of them, as printed."""
    return [text(one) for one in value] if isinstance(value, list) else text(value)


def _names(what: str, old: Numbers, new: Numbers, of: Callable[[Numbers], object]) -> Words:
    """The columns of which something has changed: by name, or all of them in one word."""
    was, now = by_name(old, "columns"), by_name(new, "columns")
    found = [n for n in now if n not in was or of(was[n]) != of(now[n])] + [n for n in was if n not in now]
    if not found:
        return ()
    if len(found) > 1 and len(found) == len(now):
        return (f"{what} all columns",)
    return (f"{what} column{'s' * (len(found) > 1)} {', '.join(found)}",)


def _kinds(old: Numbers, new: Numbers) -> list[str]:
    """Boards to cut: how many of which, and pieces that have another number now."""
    (was, called), (now, calls) = _counted(old), _counted(new)
    said = []
    for kind in dict.fromkeys((*now, *was)):
        if kind not in was:
            said.append(f"new: {now[kind]} pc {calls[kind]} {kind}")
        elif kind not in now:
            said.append(f"gone: {was[kind]} pc {called[kind]} {kind}")
        elif was[kind] != now[kind]:
            said.append(f"{calls[kind]} {kind}: was {was[kind]}, now {now[kind]}")
    moved = [
        f"old {called[kind]} is now {calls[kind]}" for kind in now if kind in called and called[kind] != calls[kind]
    ]
    return [*said, f"OTHER PIECE NUMBERS: {'; '.join(moved)}"] if moved else said


def _counted(numbers: Numbers) -> tuple[Counter[str], dict[str, str]]:
    """How many pieces of each kind, and its number."""
    counts: Counter[str] = Counter()
    called: dict[str, str] = {}
    for piece in (p for wall in numbers.get("walls", ()) for p in wall["pieces"]):
        sloped = sorted({text(back) for back in piece.get("back", ())} - {'0"', "0 mm"})
        kind = f"{piece.get('board')}{' treated' if piece.get('treated') else ''} {text(piece['length'])}"
        kind += f", {' and '.join(sloped)} back" if sloped else ""
        counts[kind] += 1
        called.setdefault(kind, text(piece.get("mark")))
    return counts, called


def order(old: Numbers, new: Numbers) -> Words:
    """What is to be bought more or less."""
    was, now = _ordered(old), _ordered(new)
    said = []
    for what in dict.fromkeys((*now, *was)):
        more = now[what] - was[what]
        if more:
            said.append(f"{what}: was {was[what]}, now {now[what]}: {_buy(more)}")
    return tuple(said)


def _buy(more: int) -> str:
    return f"buy {more} more" if more > 0 else f"{-more} fewer"


def _ordered(numbers: Numbers) -> Counter[str]:
    found: Counter[str] = Counter()
    listed = numbers.get("order", {})
    for column in listed.get("columns", ()):
        found[f"columns {text(column['stock'])}"] += column["count"]
    for board in listed.get("boards", ()):
        treated = " treated" if board.get("treated") else ""
        found[f"{board['board']}{treated} {text(board['stock'])}"] += board["count"]
    return found
