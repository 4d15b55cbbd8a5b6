"""What has changed between two sets of numbers, in words for a man in the yard.

Both are what ``sheets.report.as_json`` gives, or what a packet keeps of it. Only texts are compared, as they are
printed: what has changed by less than the last fraction that is printed changes no sheet. A change reads ``was X, now
Y``. An arrow would be shorter, but a console without one prints a question mark in its place, nobody can read it out
over a radio, and ``47" to 47 1/4"`` is taken for a board that goes from here to there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from layouts.lengths import LengthError, Style, Unit, parse, show

Numbers = Mapping[str, Any]
Words = tuple[str, ...]

REFERENCE = "REFERENCE SEAT"
# of a column: what is told in words of its own, and what the tag gives only as a consequence
_TOLD = {"name", "cuts", "marks", "length", "drop", "neighbours", "shoot_again", "why_again", "seat", "longer", "value"}


def text(value: Any) -> str:
    """A value of the numbers as it is printed."""
    if isinstance(value, Mapping):
        return str(value.get("text", ""))
    if isinstance(value, bool) or value is None:
        return "yes" if value else "none"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return ", ".join(map(text, value))
    return str(value)


def changed(what: str, was: str, now: str) -> Words:
    """``what: was X, now Y``, or nothing where both are printed alike."""
    return () if was == now else (f"{what}: was {was or 'none'}, now {now or 'none'}",)


def reworded(what: str, was: str, now: str) -> Words:
    """The same of texts, which are told whole."""
    return () if was == now else (f"{what}: {was or 'none'}; now: {now or 'none'}",)


def by_name(numbers: Numbers, key: str) -> dict[str, Any]:
    """The entries of a list in the numbers by their names."""
    return {str(entry["name"]): entry for entry in numbers.get(key, ())}


# --- said first ------------------------------------------------------------------------------------------------------


def first(old: Numbers, new: Numbers) -> Words:
    """What moves everything else: units, what the job says of itself, line reading, reference; then the sums and the
    diagonals."""
    if old.get("units") != new.get("units"):
        return changed("The unit", text(old.get("units")), text(new.get("units")))
    said = [*_head(old, new)]
    line = changed("The line reading", text(old.get("line_reading")), text(new.get("line_reading")))
    if line:
        said.append(f"{line[0]}: {_moved(old, new)}")
    said += changed("The reference seat", _reference(old), _reference(new))
    for what, key in (("COLUMN diagonal", "column_diagonal"), ("building diagonal", "building_diagonal")):
        said += changed(f"The {what}", text(old.get(key)), text(new.get(key)))
    totals = by_name(old, "sums")
    for name, total in by_name(new, "sums").items():
        said += changed(name, text(totals.get(name, {}).get("total", "none")), text(total.get("total")))
    return tuple(said)


HEAD = {"place": "The place", "crew": "The crew", "date": "The date"}
DRAWN = {"language": "The language", "tags": "The size of tags", "print": "The print"}


def _head(old: Numbers, new: Numbers) -> Iterator[str]:
    """What the sheets say beside their numbers, and how they are drawn: no number is another by it."""
    yield from changed("The name of the job", text(old.get("job")), text(new.get("job")))
    was, now = old.get("head", {}), new.get("head", {})
    both = was.keys() & now.keys()  # a packet of an earlier day keeps none of these
    for key, what in HEAD.items():
        yield from changed(what, text(was[key]), text(now[key])) if key in both else ()
    for key, what in DRAWN.items():
        if key in both and was[key] != now[key]:
            yield f"{what} is another: print the whole packet to have it so"


def _moved(old: Numbers, new: Numbers) -> str:
    """How many offsets have changed."""
    was, now = by_name(old, "columns"), by_name(new, "columns")
    both = [name for name in now if name in was]
    moved = [name for name in both if text(was[name].get("offset")) != text(now[name].get("offset"))]
    if len(moved) == len(both):
        return "every offset has changed"
    return f"{len(moved)} of {len(both)} offsets have changed" if moved else "no offset has changed"


def _reference(numbers: Numbers) -> str:
    found = (name for name, column in by_name(numbers, "columns").items() if column.get("seat") == REFERENCE)
    return text(numbers.get("reference") or next(found, None))


def warnings(old: Numbers, new: Numbers) -> Words:
    """The warnings that were not there."""
    known = Counter(map(text, old.get("warnings", ())))
    return tuple((Counter(map(text, new.get("warnings", ()))) - known).elements())


# --- columns ---------------------------------------------------------------------------------------------------------


def renamed(old: Numbers, new: Numbers) -> dict[str, str]:
    """Columns that stand in the same place of the same wall under another name: old name to new name."""
    before, after = by_name(old, "walls"), by_name(new, "walls")
    gone, come = _standing(old) - _standing(new), _standing(new) - _standing(old)
    pairs = {
        was: now
        for name in before
        if name in after and len(before[name]["columns"]) == len(after[name]["columns"])
        for was, now in zip(before[name]["columns"], after[name]["columns"], strict=True)
    }
    return {was: now for was, now in pairs.items() if was in gone and now in come}


def _standing(numbers: Numbers) -> set[str]:
    return {name for wall in numbers.get("walls", ()) for name in wall["columns"]}


def columns(old: Numbers, new: Numbers) -> dict[str, Words]:
    """For every column of either side by its name, what has changed on it; renamed ones stand under both names."""
    was, now = by_name(old, "columns"), by_name(new, "columns")
    called = renamed(old, new)
    before = {after: name for name, after in called.items()}
    said: dict[str, Words] = {}
    for name, column in now.items():
        other = was.get(name, was.get(before.get(name, "")))
        if other is not None:
            own = (f"was called {before[name]}",) if name in before else ()
            said[name] = (*own, *_column(other, column, text(new.get("units"))))
        else:
            said[name] = ("it had no tag: not read",) if name in old.get("not_read", ()) else ("a new column",)
    for name in (name for name in was if name not in now):
        said[name] = (_gone(name, called, new),)
    return said


def _gone(name: str, called: Mapping[str, str], new: Numbers) -> str:
    if name in called:
        return f"the column is called {called[name]} now"
    if name in new.get("not_read", ()):
        return "the column has no reading any more"
    return "the column cannot be cut as it was read: see the warnings" if name in _standing(new) else "no such column"


def _column(was: Numbers, now: Numbers, unit: str) -> Words:
    """Whether to shoot it again, offset, then length and cuts as they stand on the tag, then the rest."""
    said = []
    if was.get("shoot_again") != now.get("shoot_again"):
        why = text(now.get("why_again") or "")
        again = "SHOOT AGAIN BEFORE CUTTING" + f": {why}" * bool(why)
        said.append(again if now.get("shoot_again") else "need not be shot again")
    said += changed("offset", text(was.get("offset")), text(now.get("offset")))
    said += _longer(text(was.get("length")), text(now.get("length")), unit)
    said += _cuts(was.get("cuts", {}), now.get("cuts", {}))
    said += _own_marks(was.get("marks", ()), now.get("marks", ()))
    for key in ("stock", "reading", "walls"):
        said += changed(key, text(was.get(key)), text(now.get(key)))
    said += changed("neighbours", _sides(was), _sides(now))
    words = reworded("in words", text(was.get("seat")), text(now.get("seat")))
    said += words or reworded("in words", text(was.get("longer")), text(now.get("longer")))
    known = {"offset", "stock", "reading", "walls", *_TOLD}
    for key in (key for key in now if key in was and key not in known):
        said += changed(key.replace("_", " "), text(was[key]), text(now[key]))
    return tuple(said)


def _sides(column: Numbers) -> str:
    return " and ".join(map(text, column.get("neighbours", ())))


def _longer(was: str, now: str, unit: str) -> Words:
    """By how much a column is longer, as one finds who takes one printed length from the other."""
    by = apart(was, now, unit)
    return (f"column {by[1]} {'longer' if by[0] > 0 else 'shorter'}",) if by else changed("length", was, now)


def apart(was: str, now: str, unit: str) -> tuple[float, str] | None:
    """By how much a printed length is more than it was (less than 0: less), in *unit*, and the figure; ``None`` where
    it is the same or no length."""
    own: Unit = "mm" if unit == "mm" else "in"
    try:
        by = parse(now, own) - parse(was, own)
    except LengthError:
        return None
    return (by, show(abs(by), Style(own, 32))) if was != now else None


def _cuts(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[str]:
    """Cuts by their keys, called as on the tag."""
    for key, cut in now.items():
        called = f"{cut.get('name')}: {cut.get('where')}"
        if key not in was:
            yield f"new cut: {called}: {text(cut)}"
            continue
        before = f"{was[key].get('name')}: {was[key].get('where')}"
        if before == called:
            yield from changed(str(cut.get("name")), text(was[key]), text(cut))
        else:
            yield f"{before}: {text(was[key])}; now: {called}: {text(cut)}"
    yield from (f"no more: {cut.get('name')}: {cut.get('where')}" for key, cut in was.items() if key not in now)


def _own_marks(was: Sequence[Numbers], now: Sequence[Numbers]) -> Iterator[str]:
    """Marks of headers and sills, which stand on a tag because other columns have not got them."""
    if not all("own" in mark for mark in (*was, *now)):
        return  # an earlier packet does not say which they are
    before, after = _called(was), _called(now)
    for name, mark in after.items():
        if name not in before:
            yield f"new: {name}: at {text(mark)}"
            continue
        yield from changed(name, text(before[name]), text(mark))
        for key in ("edge", "board"):
            yield from changed(f"{name}: {key}", text(before[name][key]), text(mark[key]))
    yield from (f"gone: {name}: was at {text(mark)}" for name, mark in before.items() if name not in after)


def _called(marks: Sequence[Numbers]) -> dict[str, Numbers]:
    """Those of one column alone by their names, as the tag has them; of two alike the second is counted."""
    found: dict[str, Numbers] = {}
    for mark in (mark for mark in marks if mark["own"]):
        name = str(mark["name"]).upper()
        found[name if name not in found else f"{name}, {len(found) + 1}"] = mark
    return found
