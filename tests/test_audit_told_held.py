"""A packet that holds a part of its job against what it says it holds."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import Told, small, told
from test_audit_told_files import built, sheet

from sheets.audit import held
from sheets.changes import Changes
from sheets.held import Held
from sheets.packet import Sheet


def holding(*of: Sheet, columns: str = "", rods: str = "", walls: str = "", kinds: str = "") -> list[Told]:
    """What is told of a packet of these sheets that says it holds so."""
    names, drawn, more = (frozenset(one.split()) for one in (columns, walls, kinds))
    own = Held(names, frozenset(r for r in rods.split("|") if r), drawn, more, Changes("old", "new"))
    return told(held(replace(built("tags"), sheets=of, held=own), small()))


def test_a_whole_packet_says_nothing_of_what_it_holds() -> None:
    assert built("tags").held is None
    assert list(held(built("tags"), small())) == []


def test_a_packet_that_holds_what_it_says() -> None:
    both = sheet("tags", "Tags A1 and A2", "Tag A1", "Tag A2")
    assert holding(both, columns="A1 A2") == []
    wall = sheet("walls", "Wall A"), sheet("walls", "Wall A, lift and nails")
    assert holding(*wall, walls="A") == []
    rod = sheet("rods", "Rod one: lanes 1 to 3 of 5"), sheet("rods", "Rod one: lanes 4 to 5 of 5")
    assert holding(*rod, rods="Rod one") == []
    assert holding(sheet("rods", "Rods"), rods="Rod one|Rod two") == []
    assert holding(sheet("cuts", "Cut sheet 1"), sheet("index", "Index"), kinds="cuts") == []


Other = tuple[list[tuple[str, ...]], dict[str, str], list[tuple[str, str, str]]]


def missing(name: str, kind: str) -> tuple[str, str, str]:
    """A unit that the packet says it holds, on no sheet."""
    return name, f"on a sheet of {kind}", "on none"


def besides(name: str, kind: str) -> tuple[str, str, str]:
    """A unit on a sheet that it does not say it holds."""
    return name, f"not among the {kind} of this packet", "on a sheet"


OTHER: list[Other] = [
    ([("tags", "Tags", "Tag A1")], {"columns": "A2 A1"}, [missing("Tag A2", "tags")]),
    ([("tags", "Tag A1")], {}, [besides("Tag A1", "tags")]),
    ([("walls", "Wall 4")], {"walls": "A"}, [missing("Wall A", "walls"), besides("Wall 4", "walls")]),
    ([("rods", "One: lane 1")], {"rods": "Two"}, [missing("Two", "rods"), besides("One", "rods")]),
    ([("rods", "Rods")], {}, []),
    ([("cuts", "Cut sheet")], {}, []),
    (
        [("cuts", "Cut sheet")],
        {"kinds": "roof cuts book"},
        [(name, "in this packet", "no sheet of them") for name in ("book", "roof")],
    ),
    (
        [("tags", "Tag Z9"), ("walls", "Wall Y")],
        {"columns": "Z9", "walls": "Y"},
        [(name, "in the job", "not there") for name in ("Y", "Z9")],
    ),
]


@pytest.mark.parametrize(("of", "says", "want"), OTHER)
def test_a_packet_that_holds_other_things(
    of: list[tuple[str, ...]], says: dict[str, str], want: list[tuple[str, str, str]]
) -> None:
    assert holding(*(sheet(*one) for one in of), **says) == [("packet", *one) for one in want]
