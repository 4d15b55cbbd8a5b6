"""What has changed from one packet to the next, and the sheet that tells it in the yard: which old tags come off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any, Literal

from msgspec import Struct
from msgspec.structs import asdict

from sheets.frame import Body
from sheets.language import Said
from sheets.lettering import pt
from sheets.paper import Paper
from sheets.tables import Column, Flow

State = Literal["stale", "new", "gone"]

STATES: dict[str, State] = {"stale": "stale", "new": "new", "gone": "gone"}
NOTHING = "Nothing that is printed has changed."
UNNAMED = "something that is not named here has changed"
HEADS = {
    "tags": "COLUMN TAGS",
    "rods": "RODS",
    "walls": "WALL DIAGRAMS",
    "roof": "ROOF SHEETS",
    "templates": "TEMPLATES",
    "cladding": "SHEETS OF WALLS AND ROOF",
    "cuts": "CUT SHEETS",
    "grade": "GRADE SHEETS",
    "field": "FIELD SHEETS",
}
AWAY = {"tags": "take the old one off the column", "rods": "take the old one off its board"}
CARE = {
    "tags": "A COLUMN ALREADY MARKED OR CUT BY ITS OLD TAG: measure it against the new tag before it goes up.",
    "rods": "WHAT IS MARKED BY AN OLD ROD ALREADY: mark it anew, and strike the old marks out.",
}


class Item(Struct, frozen=True):
    """One tag, rod, wall or list that is not what it was: *name* as on the sheets, the stamps that are *old* (no longer
    right) and those that are *new*, and what has changed in *words*."""

    kind: str
    name: str
    state: State
    old: tuple[str, ...]
    new: tuple[str, ...]
    words: tuple[str, ...] = ()

    @property
    def head(self) -> str:
        """What to do about it, by its stamps."""
        away = AWAY.get(self.kind, "throw the old one away")
        if self.kind == "index":
            return f"{self.name}: out of date with what it lists."
        if not self.old:
            return f"{self.name}: new, {_stamps(self.new)}."
        many = len(self.old) > 1
        gone = f"{self.name}: {_stamps(self.old)} {'are' if many else 'is'} out of date"
        if self.state == "gone" or not self.new:
            away = away.replace("the old one", "it") if self.state == "gone" else away
            return f"{gone}, there is no new one: {away}."
        away = away.replace("one", "ones") if many and self.kind not in AWAY else away
        now = f"the new ones are {', '.join(self.new)}" if len(self.new) > 1 else f"the new one is {self.new[0]}"
        return f"{gone}, {now}: {away}."


def _stamps(codes: Sequence[str]) -> str:
    return f"stamp{'s' * (len(codes) > 1)} {', '.join(codes) or 'not known'}"


class Changes(Struct, frozen=True):
    """From *old* to *new* (what they are called): *first* what moves everything else, then every sheet of the packet
    that is stale, new or gone, what is bought more or less (*order*), *warnings* that were not there, and *notes* on
    how it was compared. *kinds* of sheets were compared, all if there are none."""

    old: str
    new: str
    first: tuple[str, ...] = ()
    items: tuple[Item, ...] = ()
    order: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    own: tuple[str, ...] = ()

    @property
    def stale(self) -> bool:
        """Whether anything that was printed is no longer right, or something is missing."""
        return bool(self.items)

    def of(self, *kinds: str) -> list[Item]:
        """What has changed of these kinds of sheets."""
        return [item for item in self.items if item.kind in kinds]


# --- for the terminal and for programs --------------------------------------------------------------------------------


def lines(changes: Changes) -> Iterator[str]:
    """For the terminal: said first what moves everything, then sheet by sheet."""
    yield f"From {changes.old} to {changes.new}"
    yield from _block("FIRST", changes.first)
    for kind, items in groupby(changes.items, lambda item: item.kind):
        yield ""
        yield HEADS.get(kind, kind.upper())
        for item in items:
            yield f"  {item.head}"
            yield from (f"      {word}" for word in item.words)
    yield from _block("TO ORDER", changes.order)
    yield from _block("NEW WARNINGS", (f"! {text}" for text in changes.warnings))
    yield ""
    yield from (f"Note: {note}" for note in changes.notes)
    yield end(changes)


def end(changes: Changes) -> str:
    """The last word: how much is stale."""
    alone = f" Compared alone: {', '.join(changes.kinds)}." if changes.kinds else ""
    if not changes.items:
        return NOTHING + alone
    counts = [(n, s) for s in ("stale", "new", "gone") if (n := sum(i.state == s for i in changes.items))]
    rest = "Every other one of them" if alone else "Every other sheet"
    return f"{', '.join(f'{n} {state}' for n, state in counts)}.{alone} {rest} is still good."


def _block(head: str, said: Iterable[str]) -> Iterator[str]:
    rows = list(said)
    if rows:
        yield ""
        yield head
        yield from (f"  {row}" for row in rows)


def place(kind: str) -> int:
    """Where a kind of sheets is told of: tags first, they hang on columns."""
    kinds = list(HEADS)
    return kinds.index(kind) if kind in kinds else len(kinds)


def as_json(changes: Changes) -> dict[str, Any]:
    """All of it for programs; ``from_json`` reads it again."""
    return {"stale": changes.stale, **asdict(changes), "items": [asdict(item) for item in changes.items]}


def from_json(found: Mapping[str, Any]) -> Changes:
    """What ``as_json`` gave. Raises ``KeyError``, ``TypeError`` or ``ValueError`` where it is something else."""
    texts = {key: tuple(map(str, found[key])) for key in ("first", "order", "warnings", "notes", "kinds")}
    texts["own"] = tuple(map(str, found.get("own", ())))  # an earlier packet has none
    return Changes(str(found["old"]), str(found["new"]), items=tuple(map(_item, found["items"])), **texts)


def _item(found: Mapping[str, Any]) -> Item:
    old, new, words = (tuple(map(str, found[key])) for key in ("old", "new", "words"))
    return Item(str(found["kind"]), str(found["name"]), STATES[found["state"]], old, new, words)


# --- the sheet --------------------------------------------------------------------------------------------------------


def pages(changes: Changes, job: str, paper: Paper) -> list[Body]:
    """The sheet that lies on top of stale sheets printed anew: what comes off, and what has changed."""
    flow = Flow("index", "Changes", paper)
    flow.heading(f"CHANGES: {job}", pt(24))
    flow.para(f"Since the packet in the folder {changes.old}. Keep this sheet with its index. {end(changes)}", pt(12))
    flow.gap()
    if changes.first:
        flow.boxed("FIRST", changes.first, pt(13))
    _table(flow, "TAKE OFF THE COLUMNS", "staple on", changes.of("tags"))
    others = [i for i in changes.items if i.kind not in ("tags", "index")]
    _table(flow, "TAKE AWAY", "the new one", others)
    care = [said for kind, said in CARE.items() if changes.of(kind)]
    if care:
        flow.boxed("CARE", care, pt(13))
    flow.heading("WHAT HAS CHANGED")
    for item in changes.items:
        if item.words:
            flow.need(pt(12) * 3)
            flow.para(item.name, pt(12), bold=True)
            flow.para("; ".join(item.words) + ".", pt(12), indent=0.2)
            flow.gap(0.05)
    if changes.order:
        flow.heading("TO ORDER")
        for line in changes.order:
            flow.para(line, pt(12))
        flow.gap()
    if changes.warnings:
        flow.boxed("NEW WARNINGS", changes.warnings, pt(12))
    for note in changes.notes:
        flow.para(note, pt(10))
    return flow.bodies()


def _codes(stamps: Sequence[str]) -> str:
    return Said(", ".join(stamps)) if stamps else "none"


def _table(flow: Flow, head: str, now: str, items: Sequence[Item]) -> None:
    if not items:
        return
    flow.heading(head)
    rows = [[i.name, _codes(i.old), _codes(i.new)] for i in items]
    columns = [Column("what", 3.5, bold=True), Column("old stamp", 2.8, bold=True), Column(now, 2.8, bold=True)]
    flow.table(columns, rows, pt(15))
    flow.gap()
