"""Sheets of walls and roof, and what is said of openings, against the layout: each thing changed in one place."""

from __future__ import annotations

from functools import cache

import opened
import pytest
from msgspec.structs import replace
from opened import WINDOW
from pages_seen import Told, reworded, seen, small, told, without_runs
from test_cladding import OPEN, made

from layouts.boards import Wall
from layouts.building import Building
from layouts.lengths import Style, show
from layouts.lift_words import verdict
from layouts.sheeting import order
from sheets import audit_cladding, audit_openings
from sheets.audit_model import NEAR, Plan, Seen
from sheets.cladding import groups, named
from sheets.packet import build
from sheets.paper import PAPERS

INCH = Style()
CHANGES = {**OPEN, "cladding.longest": "9'", "cladding.lap": "8"}
Pages = list[tuple[str, Seen]]


@cache
def drawn() -> list[tuple[str, Plan]]:
    """A building of short sheets with a door and a window."""
    built = build(made(CHANGES), PAPERS["letter"], "cladding")
    return [(sheet.title, Plan(sheet.page.drawing)) for sheet in built.sheets]


def pages() -> Pages:
    return [(title, seen(plan, f"p{number}")) for number, (title, plan) in enumerate(drawn(), 1)]


def check(of: Pages, building: Building | None = None) -> list[Told]:
    return told(audit_cladding.check(of, building or made(CHANGES), "cladding.pdf"))


def changed(page: Seen) -> Pages:
    """All pages, one of them another."""
    return [(title, page if page.label == one.label else one) for title, one in pages()]


def of_face(name: str) -> Seen:
    """The first page of a face."""
    return next(one for title, one in pages() if title.startswith(f"Sheets, {name}"))


def test_sheets_that_are_right() -> None:
    assert check(pages()) == []
    assert [title for title, _ in pages() if title.startswith("Sheets to order")]


# --- which pages there are -------------------------------------------------------------------------------------------


def test_a_job_that_says_nothing_of_sheets() -> None:
    assert small().cladding == ()
    none = build(small(), PAPERS["letter"], "cladding").sheets[0]
    page = seen(Plan(none.page.drawing), "p1")
    assert check([("Sheets", page)], small()) == []
    said = next(one.words for one in page.runs if one and "says nothing of sheets" in one.words)
    other = reworded(page, said, "Sheets are in the yard.")
    assert check([("Sheets", other)], small()) == [("p1", "sheets", "those of the job", "others")]
    assert check([], small()) == [("cladding.pdf", "sheets", "those of the job", "others")]
    assert check([]) == [("cladding.pdf", "sheets", "those of the job", "others")]


def test_a_face_that_is_missing_and_one_that_is_none() -> None:
    bare = [(title, one) for title, one in pages() if not title.startswith("Sheets, Wall A")]
    assert check(bare) == [("cladding.pdf", "Wall A", "a page", "none")]
    more = [*pages(), ("Sheets, Wall Z", replace(pages()[1][1], label="z"))]
    assert check(more) == [("z", "Sheets, Wall Z", "no such face", "a page")]
    odd = [*pages(), ("Sheets, Wall A x", replace(pages()[1][1], label="z"))]
    assert check(odd) == [("z", "Sheets, Wall A x", "no such face", "a page")]


def test_the_list_to_order() -> None:
    lines = [f"{count} | {show(long, INCH)}" for _, long, count in order(made(CHANGES).cladding)]
    bare = [(title, one) for title, one in pages() if not title.startswith("Sheets to order")]
    assert check(bare) == [("cladding.pdf", "list to order", line, "not so on the sheet") for line in lines]
    _, page = next(one for one in pages() if one[0].startswith("Sheets to order"))
    count = lines[0].partition(" ")[0]
    found = check(changed(reworded(page, count, "99")))
    assert found[0] == (page.label, "list to order", lines[0], "not so on the sheet")
    assert {one[1:2] + one[3:] for one in found} == {("list to order", "not so on the sheet")}


# --- a face ----------------------------------------------------------------------------------------------------------


def test_the_lengths_of_a_face() -> None:
    face = next(f for f in made(CHANGES).cladding if f.name == "Wall A")
    alike = groups(face)[0]
    want = " ".join((named(alike), str(len(alike)), *(show(x, INCH) for x in (alike[0].order, *alike[0].edges))))
    page = of_face("Wall A")
    name = next(one.words for one in page.runs if one and one.words == named(alike))
    assert check(changed(reworded(page, name, "Z1"))) == [(page.label, "Wall A", want, "not so on the sheet")]


@pytest.mark.parametrize("kind", [False, True])
def test_the_end_laps_of_a_face(kind: bool) -> None:
    face = next(f for f in made(CHANGES).cladding if f.laps and f.roof is kind)
    (at, over) = face.laps[0]
    way = "up the slope" if kind else "over the grade line"
    page = of_face(face.name)
    hits = [i for i, one in enumerate(page.runs) if one is not None and way in one.words]
    assert hits
    found = check(changed(without_runs(page, hits)))
    way += " from the sheets' lower edge" if kind else ""
    lies = f"over {over}" if over else "over NOTHING: add a board there"
    lap = made(CHANGES).job.cladding.lap
    begin, middle = show(at - lap / 2, INCH), show(at, INCH)
    want = (
        f"End lap of {show(lap, INCH)}: upper sheets begin {begin} {way}, the middle of the lap is at {middle}, {lies}."
    )
    assert found[0] == (page.label, face.name, want, "not so on the sheet")
    assert len(found) == len(face.laps)


def moved(page: Seen, name: str, dx: float, dy: float, corner: int | None = None) -> Seen:
    """A page with one sheet elsewhere in its picture, or a corner of it."""
    span = next(span for span in page.spans() if span.name == f"clad-{name}")
    outlines = list(page.outlines)
    numbers = list(outlines[span.outlines[0]] or ())
    for i in range(0, len(numbers) - 2, 2):
        if corner is None or i == 2 * corner:
            numbers[i] += dx
            numbers[i + 1] += dy
    outlines[span.outlines[0]] = tuple(numbers)
    return replace(page, outlines=outlines)


@pytest.mark.parametrize("by", [2 * NEAR * 0.99, -2 * NEAR * 0.99, 2 * NEAR * 1.01, -2 * NEAR * 1.01])
@pytest.mark.parametrize("name", ["Wall A", "Wall 1"])
def test_a_sheet_in_its_picture(name: str, by: float) -> None:
    """One in the middle of its face, which sets neither its scale nor its foot."""
    face = next(f for f in made(CHANGES).cladding if f.name == name)
    inner = [
        s for s in face.sheets if face.left < min(x for x, _ in s.outline) and max(x for x, _ in s.outline) < face.right
    ]
    one = max(inner, key=lambda s: s.low)
    page = of_face(name)
    want = [(page.label, name, f"sheet {one.name} in its place", f"off by {abs(by):.4f} in")]
    for dx, dy, corner in ((by, 0.0, None), (0.0, by, None), (by, 0.0, 1), (0.0, by, 2)):
        assert check(changed(moved(page, one.name, dx, dy, corner))) == (want if abs(by) > 2 * NEAR else [])


def test_a_sheet_of_other_corners() -> None:
    page = of_face("Wall A")
    span = next(span for span in page.spans() if span.name.startswith("clad-"))
    outlines = list(page.outlines)
    numbers = outlines[span.outlines[0]]
    assert numbers is not None
    outlines[span.outlines[0]] = (*numbers[:-2], *numbers[:2], *numbers[-2:])
    count = len(numbers) // 2 - 1
    place = f"sheet {span.name.removeprefix('clad-')} of {count} corners"
    assert check(changed(replace(page, outlines=outlines))) == [(page.label, "Wall A", place, f"{count + 1} corners")]
    outlines[span.outlines[0]] = None
    assert check(changed(replace(page, outlines=outlines))) == [(page.label, "Wall A", place, "none")]


def test_sheets_that_are_not_drawn() -> None:
    face = next(f for f in made(CHANGES).cladding if f.name == "Wall A")
    page = of_face("Wall A")
    assert not [title for title, _ in pages() if title.startswith("Sheets, Wall A ")]
    names = sorted(s.name for s in face.sheets)
    spans = [span for span in page.spans() if span.name != f"clad-{names[0]}"]
    other = Plan(page.plan.drawing)
    other.spans = spans
    want = f"sheets {', '.join(names)}"
    assert check(changed(replace(page, plan=other))) == [(page.label, "Wall A", want, ", ".join(names[1:]))]
    other.spans = [span for span in spans if not span.name.startswith("clad-")]
    assert check(changed(replace(page, plan=other))) == [(page.label, "Wall A", want, "none")]


def test_the_slope_over_wall_a_has_its_front_on_the_right() -> None:
    """Every building's left slope is turned over in its picture; the other one and walls are not."""
    faces = {f.name: f for f in made(CHANGES).cladding}
    for face in faces.values():
        one = face.sheets[0]
        want = [(face.right - x if face.roof and face.side == "left" else x - face.left, y) for x, y in one.outline]
        assert audit_cladding._corners(face, one) == want
    assert {(f.roof, f.side == "left") for f in faces.values()} == {
        (True, True),
        (True, False),
        (False, True),
        (False, False),
    }


# --- openings and the lift of a wall ---------------------------------------------------------------------------------


def window(lies: str) -> tuple[Building, Wall]:
    building = opened.opened(WINDOW, lift__lies=lies)
    return building, building.walls[0]


def said(building: Building, wall: Wall) -> list[str]:
    """What a wall with a window at its second bay says: worked from the opening's numbers."""
    (one,) = wall.openings
    left, right, corner = one.left, one.right, wall.stands[0].name
    if next(lift for lift in building.lifts if lift.wall == wall.name).lie.mirrored:
        left, right, corner = wall.line.length - right, wall.line.length - left, wall.stands[-1].name
    rough = f"RO {show(one.right - one.left, INCH)} x {show(one.high - one.low, INCH)}"
    at = f"{show(left, INCH)} to {show(right, INCH)} from {corner}"
    heights = f"bottom {show(one.low, INCH)}, top {show(one.high, INCH)}"
    return [f"W9 {show(left, INCH)}", f"W9 {show(right, INCH)}", f"W9 · window · {rough} · {at} · {heights}"]


@pytest.mark.parametrize("lies", ["inside", "outside"])
def test_what_is_said_of_an_opening(lies: str) -> None:
    building, wall = window(lies)
    texts = said(building, wall)
    low, high, whole = texts
    edge, _, rough, at, heights = (low.removeprefix("W9 "), *whole.split(" · ")[1:])
    assert list(audit_openings.openings(["x", *texts, f"see {low}"], wall, building)) == []
    assert list(audit_openings.openings(texts[1:], wall, building)) == [("opening W9, edge", edge, high)]
    assert list(audit_openings.openings([whole], wall, building)) == [
        ("opening W9, edge", edge, "nothing"),
        ("opening W9, edge", high.removeprefix("W9 "), "nothing"),
    ]
    other = [f"W9 {'9' * 36}", f"W9 {'9' * 37}", high, whole]
    assert list(audit_openings.openings(other, wall, building)) == [("opening W9, edge", edge, f"{other[0]} or {high}")]
    for part in (rough, at, heights):
        wrong = whole.replace(part, f"{part}!")
        found = f"{wrong}" if "RO" in wrong else "nothing"
        assert list(audit_openings.openings([low, high, wrong], wall, building)) == [("opening W9", part, found)]
    assert list(audit_openings.openings([low, high], wall, building)) == [
        ("opening W9", part, "nothing") for part in (rough, at, heights)
    ]
    two = [low, high, whole.replace(at, "here"), f"W9 RO {at}"]
    assert list(audit_openings.openings(two, wall, building)) == [("opening W9", at, f"{two[2]} or {two[3]}")]


@pytest.mark.parametrize("lies", ["inside", "outside"])
def test_what_is_said_of_a_lift(lies: str) -> None:
    building, wall = window(lies)
    found = next(lift for lift in building.lifts if lift.wall == wall.name)
    face = f"{found.lie.up.upper()} FACE UP"
    other = {"INSIDE FACE UP": "OUTSIDE FACE UP", "OUTSIDE FACE UP": "INSIDE FACE UP"}[face]
    hands = verdict(found)
    assert list(audit_openings.lift([face, hands, "x"], wall, building)) == []
    assert list(audit_openings.lift([face], wall, building)) == [("lift", hands, "nowhere")]
    assert list(audit_openings.lift([hands, f"{face}!"], wall, building)) == [("lift", face, "nowhere")]
    assert list(audit_openings.lift([hands, face, other], wall, building)) == [("face", f"{found.lie.up} up", other)]
