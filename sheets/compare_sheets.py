"""What has changed on cut sheets and the order, in words, as in ``sheets.compare_columns``."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

from layouts.lumber import bought_as
from sheets.compare_columns import Numbers, Words, by_name, text

# --- cut sheets and what to buy --------------------------------------------------------------------------------------


def lists(old: Numbers, new: Numbers) -> dict[tuple[str, str], Words]:
    """For the cut sheets, the mark tables and the grade sheets, by kind and title: columns and pieces that have
    changed."""
    keys = ("offset", "length", "stock", "drop")
    seats = ("reading", "offset", "seat", "shoot_again")
    shot = _names("the seats of", old, new, lambda c: [*(text(c.get(key)) for key in seats), text(c.get("note", ""))])
    listed = _names("the lines of", old, new, lambda c: [text(c.get(key)) for key in keys])
    marked = _names("the marks of", old, new, lambda c: [(m["name"], text(m)) for m in c.get("marks", ())])
    return {
        ("cuts", "Cut sheet"): (*listed, *_kinds(old, new)),
        ("cuts", "Mark table"): marked,
        ("grade", "Grade sheet"): (*shot, *_below(old, new)),
        ("roof", "Roof sheet"): _roof(old, new),
        **_templates(old, new),
        **_cladding(old, new),
    }


def _below(old: Numbers, new: Numbers) -> Words:
    """What of the grade sheet hangs on what stands on the seats: its sum up to the eave line, and the stock."""
    was, now = ([_told(step) for one in side.get("sums", ()) for step in _stepped(one)] for side in (old, new))
    before = by_name(old, "columns")
    stock = any(
        text(c.get("stock")) != text(before.get(n, {}).get("stock")) for n, c in by_name(new, "columns").items()
    )
    return (
        *(("the sum from a seat to the eave line",) if was != now else ()),
        *(("the column stock that lines take",) if stock else ()),
    )


def _stepped(one: Numbers) -> list[Any]:
    """The steps and the total of a sum up to an eave line."""
    return [*one["steps"], one["total"]] if str(one["name"]).startswith("Eave line") else []


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


def _templates(old: Numbers, new: Numbers) -> dict[tuple[str, str], Words]:
    """Patterns of another shape, and such as are for other columns or rows: their figures stand on them."""
    before = {str(one["key"]): one for one in old.get("templates", ())}
    found: dict[tuple[str, str], Words] = {}
    for one in new.get("templates", ()):
        was = before.get(str(one["key"]), {})
        if was.get("title") != one["title"]:
            continue
        shape = ["another shape"] * (_shape(was) != _shape(one))
        whom = ["for others than before"] * (was["for"] != one["for"])
        number, name = str(one["key"]).partition("-")[0], str(one["title"]).partition(":")[0]
        found["templates", f"Template {number}: {name}"] = (*shape, *whom)
    return found


def _shape(pattern: Numbers) -> list[object]:
    """What of a pattern is printed at full scale."""
    figures = [(f["name"], text(f["length"]), text(f["on"])) for f in pattern["figures"]]
    return [figures, [[_told(point) for point in path] for path in pattern["cuts"]]]


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
        kind = f"{bought_as(str(piece.get('board')), piece.get('treated'))} {text(piece['length'])}"
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
        found[f"{bought_as(board['board'], board.get('treated'))} {text(board['stock'])}"] += board["count"]
    return found
