"""Two jobs, or a packet and a job, held against each other: which sheets are stale, and what has changed.

A sheet is stale if its stamp is another: a stamp is made from the words and numbers of a sheet, so what has changed by
less than the last fraction that is printed makes nothing stale. Stamps of rods, walls and lists depend on the paper
they are drawn for: a job is drawn as the packet that it is held against was, and two jobs on the paper of the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from layouts.building import Building
from layouts.problems import JobRefused, Problem
from sheets import compare_columns, compare_rods, compare_sheets, compare_walls, own_words, packet
from sheets.changes import UNNAMED, Changes, Item, place
from sheets.held import PARTED, ROLLED, Held, On, Row
from sheets.kinds import KINDS
from sheets.paper import Paper, find
from sheets.profile import UNMEASURED, Profile
from sheets.sides import Side, of_job, of_packet
from sheets.strip import title

Unit = tuple[str, str]  # kind, and the tag, rod, wall or list
Rows = dict[Unit, list[Row]]

ROLL: Unit = ("rods", ROLLED)
ELSEWHERE = "printed on other paper, and without numbers that could be compared"


# --- their sheets -----------------------------------------------------------------------------------------------------


def _units(rows: Iterable[Row], kinds: Sequence[str]) -> Rows:
    """Sheets by what they belong to, in the order of *kinds*."""
    found: Rows = {}
    for row in rows:
        if row.kind in kinds:
            found.setdefault(row.unit, []).append(row)
    return dict(sorted(found.items(), key=lambda entry: kinds.index(entry[0][0])))


def _drawn(building: Building, on: On, kinds: Sequence[str]) -> Rows:
    paper = replace(find(on[0]), margin=on[1])
    return _units((Row(*listed, on) for listed in packet.stamps(building, paper, kinds)), kinds)


def _drawn_like(building: Building, other: Rows, on: On, kinds: Sequence[str]) -> Rows:
    """The sheets of *building* as the *other* side's were drawn, each on the paper of its counterpart; what has none
    there, *on* the paper of the other side."""
    papers = dict.fromkeys([on, *(row.on or on for rows in other.values() for row in rows)])
    found: Rows = {}
    for paper in papers:
        for key, rows in _drawn(building, paper, kinds).items():
            counterpart = other[key][0].on or on if key in other else on
            if counterpart == paper:
                found[key] = rows
    return found


def _both(old: Side, new: Side, kinds: Sequence[str]) -> tuple[Rows, Rows]:
    """The sheets of both sides; those of a job drawn as the other side's are."""
    if old.building and new.building:
        on = _known(old, old)
        return _drawn(old.building, on, kinds), _drawn(new.building, on, kinds)
    had, has = _units(old.rows, kinds), _units(new.rows, kinds)
    if old.building:
        return _drawn_like(old.building, has, _known(new, old), kinds), has
    if new.building:
        return had, _drawn_like(new.building, had, _known(old, new), kinds)
    return had, has


def _known(side: Side, other: Side) -> On:
    """What *side* was drawn for; where it does not say, what *other* is."""
    on = side.on or other.on
    assert on is not None  # a job has a paper
    return on


# --- held against each other ------------------------------------------------------------------------------------------


def compare(old: Side, new: Side, only: str | None = None) -> Changes:
    """What has changed from *old* to *new*, of the kinds of sheets that both have or of *only* one.

    Raises ``JobRefused`` where they have no kind in common.
    """
    kinds = [k for k in KINDS if k in old.kinds and k in new.kinds and only in (None, k)]
    if not kinds:
        wrong = f"has no kind of sheets in common with {old.name}."
        raise JobRefused([Problem(new.name, "", "", wrong, "Compare it with a whole packet or with its job.")])
    known = bool(old.numbers and new.numbers)
    had, has = _both(old, new, kinds)
    said = _words(old.numbers, new.numbers) if known else {}
    keys = sorted(dict.fromkeys((*has, *had)), key=lambda key: place(key[0]))  # what is gone, after the others
    items = [item for key in keys if (item := _item(key, had, has, said, known))]
    first = compare_columns.first(old.numbers, new.numbers) if known else ()
    warnings = compare_columns.warnings(old.numbers, new.numbers) if known else ()
    whole = not (only or old.only or new.only)
    if whole and (items or first or warnings):
        items.append(Item("index", "Index", "stale", (), ()))
    return Changes(
        old.name,
        new.name,
        first,
        tuple(items),
        compare_sheets.order(old.numbers, new.numbers) if known and "cuts" in kinds else (),
        warnings,
        tuple(_notes(old, new)),
        tuple(kinds) if len(kinds) < len(KINDS) else (),
        tuple(sorted(own_words.of_numbers(old.numbers) | own_words.of_numbers(new.numbers))),
    )


def _words(old: Mapping[str, Any], new: Mapping[str, Any]) -> dict[Unit, tuple[str, ...]]:
    """What the numbers say of every tag, rod, wall and list; of other units of length nothing but that."""
    if old.get("units") != new.get("units"):
        return {}
    said: dict[Unit, tuple[str, ...]] = {}
    said |= {("tags", f"Tag {name}"): told for name, told in compare_columns.columns(old, new).items()}
    said |= {("rods", name): told for name, told in compare_rods.rods(old, new).items()}
    said |= {("walls", f"Wall {name}"): told for name, told in compare_walls.walls(old, new).items()}
    return said | compare_sheets.lists(old, new)


def _item(key: Unit, had: Rows, has: Rows, said: Mapping[Unit, tuple[str, ...]], known: bool) -> Item | None:
    """What is said of one tag, rod, wall or list; nothing if it is what it was."""
    old, new = had.get(key, []), has.get(key, [])
    words = _said(key, said)
    before, after = [row.stamp for row in old], [row.stamp for row in new]
    if not old or not new:
        return Item(*key, "gone" if old else "new", tuple(before), tuple(after), words)
    gone = tuple(dict.fromkeys(code for code in before if code not in after))
    come = tuple(dict.fromkeys(code for code in after if code not in before))
    if not gone and not come:
        return None
    if _incomparable(old[0], new[0]) and not words:
        return None if known else Item(*key, "stale", gone, come, (ELSEWHERE,))
    return Item(*key, "stale", gone, come, words or ((UNNAMED,) if known else ()))


def _said(key: Unit, said: Mapping[Unit, tuple[str, ...]]) -> tuple[str, ...]:
    """The words of one thing; of rods that lie side by side on a roll those of all of them."""
    if key == ROLL:
        return tuple(f"{name}: {word}" for (kind, name), told in said.items() if kind == ROLL[0] for word in told)
    return said.get(key, ())


def _incomparable(old: Row, new: Row) -> bool:
    """Whether stamps tell nothing: drawn for other paper. A tag is the same on every paper."""
    return old.kind != "tags" and old.on is not None and new.on is not None and old.on != new.on


def _notes(old: Side, new: Side) -> Iterable[str]:
    """How it was compared, where that is not as one would expect, and what footers alone say."""
    for side in (old, new):
        if not side.numbers:
            yield f"{side.name} holds no numbers: its sheets are compared by their stamps alone."
        if not side.on:
            other = new if side is old else old
            yield f"{side.name} does not say what paper it is on: taken to be {(other.on or ('the same',))[0]}."
    if old.numbers and new.numbers and old.numbers.get("job") != new.numbers.get("job"):
        yield f"The job was called {old.numbers.get('job')}, now {new.numbers.get('job')}: footers alone say so."
    if old.on and new.on and old.on[0] != new.on[0]:
        yield f"{old.name} is for {old.on[0]}, {new.name} for {new.on[0]}: other paper alone makes no sheet stale."


# --- only what is stale -----------------------------------------------------------------------------------------------


def stale(
    folder: Path,
    building: Building,
    paper: Paper,
    only: str | None = None,
    profile: Profile = UNMEASURED,
) -> tuple[Changes, packet.Packet | None]:
    """What has changed since the packet in *folder*, and a packet of the sheets of *building* that it does not hold as
    they are now, with a sheet on top that tells which old ones come off; ``None`` if nothing is stale.

    Tags are printed one by one; a rod and a wall with all of its sheets; any other kind of sheets whole. Raises
    ``JobRefused`` where there is no packet in *folder*, or none with sheets of the kind *only*.
    """
    old = of_packet(folder, folder.resolve().name)  # a whole path is no matter of a sheet's
    changes = compare(old, of_job(building, building.job.job.name), only)
    if not changes.stale:
        return changes, None
    keys = {(item.kind, item.name) for item in changes.items}
    fresh = {(item.kind, item.name) for item in changes.items if item.state != "gone"}
    kinds = frozenset(kind for kind, _ in fresh if kind not in (*PARTED, "index"))
    rods = frozenset(title(rod) for rod in building.rods if ("rods", title(rod)) in fresh or ROLL in fresh)
    holds = Held(
        frozenset(c.name for c in building.columns if ("tags", f"Tag {c.name}") in fresh),
        rods,
        frozenset(w.name for w in building.walls if ("walls", f"Wall {w.name}") in fresh),
        kinds,
        changes,
        tuple(row for row in old.rows if row.unit not in keys and row.kind not in kinds),
    )
    return changes, packet.build(building, paper, old.only, profile, holds)


def refuse_same(out: Path, folder: Path) -> None:
    """Stale sheets do not go into the folder that they are compared with: ``JobRefused``."""
    if out.resolve() == folder.resolve():
        wrong = "is the packet that is compared: its good sheets would be lost."
        raise JobRefused([Problem("--out", "", str(out), wrong, "Name another folder.")])
