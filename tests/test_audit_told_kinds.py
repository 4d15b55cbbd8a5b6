"""Pages of each kind of sheets against the layout: every kind that is there is held whole."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import sheets, small, told
from test_audit_told_files import built

from sheets.audit_kinds import numbers
from sheets.audit_model import Seen
from sheets.packet import Sheet


def pages_of(kind: str) -> tuple[list[Sheet], list[Seen]]:
    return list(built(kind).sheets), sheets(kind)


@pytest.mark.parametrize("kind", ["rods", "tags", "walls", "cuts", "roof", "templates", "cladding"])
def test_every_kind_is_held_against_the_layout(kind: str) -> None:
    """Right, nothing is told; without its words, something of it is."""
    own, seen = pages_of(kind)
    assert numbers("x", own, seen, small(), small()) == []
    empty = [replace(one, runs=[None] * len(one.runs)) for one in seen]
    found = numbers("x", own, empty, small(), small())
    assert found
    assert {d.sheet for d in found} <= {"x", *(one.label for one in seen)}


def test_of_the_part_alone_that_a_packet_holds() -> None:
    part = replace(small(), columns=small().columns[:4], walls=small().walls[:1])
    own, seen = pages_of("tags")
    assert numbers("x", own[:2], seen[:2], small(), part) == []
    assert told(numbers("x", own, seen, small(), part)) == [("x", "tags", "4 tags", "9")]
    own, seen = pages_of("walls")
    assert numbers("x", own[:2], seen[:2], small(), part) == []
    assert told(numbers("x", own[:2], seen[:2], small(), small())) == [
        ("x", f"Wall {name}", "a diagram", "none") for name in ("4", "C", "1")
    ]


def test_what_is_missing_from_a_file_is_told_of_the_file() -> None:
    fewer = replace(small(), rods=small().rods[:1])
    own, seen = pages_of("rods")
    assert told(numbers("x", own, seen, small(), fewer)) == [
        ("x", "rods", "1 rods from 0 up", f"{len(small().rods)} lanes that begin at 0")
    ]
    own, seen = pages_of("cuts")
    found = told(numbers("x", own[:-1], seen[:-1], small(), fewer))
    assert [one[:2] for one in found] == [("x", f"mark table, {c.name}") for c in small().columns]


def test_a_wall_is_told_by_its_title() -> None:
    """`Wall 1` is no page of wall 12."""
    own, seen = pages_of("walls")
    renamed = [replace(one, title=one.title.replace("Wall 1", "Wall 12")) for one in own]
    assert told(numbers("x", renamed, seen, small(), small())) == [("x", "Wall 1", "a diagram", "none")]


def test_pages_of_patterns_and_of_sheets_are_told_by_their_titles() -> None:
    own, seen = pages_of("templates")
    named = [replace(own[0], title="Cover"), *own[1:]]
    assert told(numbers("x", named, seen, small(), small())) == [
        ("x", 'EARS of sidewall columns, 4/12: pitch cut across 5 1/2"', "a page", "none")
    ]
    own, seen = pages_of("cladding")
    named = [replace(own[0], title="Cover")]
    assert told(numbers("x", named, seen, small(), small())) == [("x", "sheets", "those of the job", "others")]
