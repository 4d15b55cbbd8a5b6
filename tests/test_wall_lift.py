"""The lift on a wall's sheets: the verdict, how the wall lies, its centre of gravity, where to pick it; and nails."""

from __future__ import annotations

from typing import Any

import boxes
import jobs
import opened
import pytest
from opened import OVERHEAD

from layouts import bodies
from layouts.building import Building
from layouts.lift_words import words as lift_words
from sheets import lift_drawn, wall
from sheets.frame import Body
from sheets.mirrored import mirrored
from sheets.paper import PAPERS
from sheets.shapes import Polygon

LETTER = PAPERS["letter"]
AREA = LETTER.turned().body
DOOR = {**OVERHEAD, "width": "6'", "bay": 1}  # to one side: the centre of gravity is out of the middle


def sheets(building: Building, name: str = "A") -> tuple[list[Body], list[Body]]:
    """The pictures of a wall, and the sheets of its lift."""
    mine = [b for b in wall.pages(building, LETTER) if b.title.split(",")[0] == f"Wall {name}"]
    return [b for b in mine if "lift" not in b.title], [b for b in mine if "lift" in b.title]


def said(*found: Body) -> str:
    return " ".join(" ".join(t.words.split()) for b in found for t in boxes.written(b.drawing.shapes))


def built(lies: str, **changes: Any) -> Building:
    return opened.opened(DOOR, lift__lies=lies, **changes)


@pytest.mark.parametrize("lies", ["inside", "outside"])
@pytest.mark.parametrize("name", ["A", "1"])
def test_all_words_of_the_lift_stand_on_its_sheet(lies: str, name: str) -> None:
    building = built(lies)
    lift = next(x for x in building.lifts if x.wall == name)
    want = lift_words(lift, building.job.style)
    pictures, own = sheets(building, name)
    told = said(*own)
    for text in (want.verdict, want.lie, want.arrow, *want.lines):
        assert " ".join(text.split()) in told
    assert want.lie in said(pictures[0])
    assert want.verdict in said(pictures[0])


@pytest.mark.parametrize("kept", ["sequential trigger", "29 CFR", "ot-dip galvanised", "never burn it"])
def test_what_is_no_part_of_the_lift_is_kept(kept: str) -> None:
    pictures, own = sheets(built("inside"))
    assert kept in said(pictures[0])
    assert kept in said(*own)
    assert "it is not on this sheet" not in said(*pictures, *own)


def test_the_verdict_is_the_largest_of_its_sheet() -> None:
    _, own = sheets(built("inside"))
    texts = list(boxes.written(own[0].drawing.shapes))
    largest = max(texts, key=lambda t: t.size)
    assert largest.words == "MACHINE LIFT"
    assert sum(t.size == largest.size for t in texts) == 1


def test_a_light_wall_goes_up_by_hand() -> None:
    building = jobs.build({"lift.people": 40})
    pictures, own = sheets(building)
    verdict = lift_words(building.lifts[0], building.job.style).verdict
    assert verdict.startswith("BY HAND: ")
    assert verdict in said(pictures[0])
    assert verdict in said(own[0])


@pytest.mark.parametrize(("lies", "words"), [("inside", "TOP INTO"), ("outside", "TOP AWAY FROM")])
def test_the_arrow_goes_up_the_page(lies: str, words: str) -> None:
    building = built(lies)
    found = building.walls[0]
    v = wall.plot(building, found if lies == "inside" else mirrored(found), AREA).views[0]
    (arrow,) = boxes.groups(sheets(building)[0][0].drawing.shapes, "to-the-top")
    assert arrow.title == f"{words} THE BUILDING"
    (shaft,) = boxes.lines(arrow.shapes)
    assert shaft.x0 == shaft.x1
    assert min(shaft.y0, shaft.y1) == pytest.approx(v.y0)
    (head,) = (s for s in arrow.shapes if isinstance(s, Polygon) and s.grey == 0.0)
    tip = max(head.points, key=lambda p: p[1])
    assert tip[0] == pytest.approx(shaft.x0)
    assert [y for _, y in head.points].count(tip[1]) == 1


@pytest.mark.parametrize("lies", ["inside", "outside"])
@pytest.mark.parametrize("name", ["A", "1"])
def test_the_cross_stands_at_the_wet_centre_of_gravity(lies: str, name: str) -> None:
    building = built(lies)
    found = next(w for w in building.walls if w.name == name)
    lift = next(x for x in building.lifts if x.wall == name)
    # as it is drawn, what is seen from outside at `along` is seen from inside at the length less that
    along = lift.wet.along if lies == "inside" else found.line.length - lift.wet.along
    v = wall.plot(building, found if lies == "inside" else mirrored(found), AREA).views[0]
    (group,) = boxes.groups(sheets(building, name)[0][0].drawing.shapes, "centre-of-gravity")
    box = boxes.of_shape(group)
    middle = [(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2]
    assert middle == pytest.approx(list(v.at(along, lift.wet.up)))
    assert name == "1" or abs(lift.wet.along - found.line.length / 2) > 3


@pytest.mark.parametrize("lies", ["inside", "outside"])
def test_picks_are_marked_beside_their_columns_where_the_sling_goes(lies: str) -> None:
    building = built(lies)
    laid, lift = building.walls[0], building.lifts[0]
    found = laid if lies == "inside" else mirrored(laid)
    assert lift.picks is not None
    (v,) = wall.plot(building, found, AREA).views
    drawn = {g.title: g for g in boxes.groups(sheets(building)[0][0].drawing.shapes, "pick-")}
    assert set(drawn) == {f"pick {p.name}" for p in lift.picks}
    for pick in lift.picks:
        stand = next(s for s in found.stands if s.name == pick.name)
        foot = bodies.bottom(found, stand)
        for stroke in boxes.lines(drawn[f"pick {pick.name}"].shapes):
            ends = sorted((stroke.y0, stroke.y1))
            assert ends == pytest.approx([v.at(0, foot + pick.low)[1], v.at(0, foot + pick.high)[1]])
            near = min(abs(stroke.x0 - v.at(x, 0)[0]) for x in (stand.left, stand.right))
            assert near == pytest.approx(0.035)


def test_the_words_stay_clear_of_the_arrow() -> None:
    for body in wall.pages(built("outside"), LETTER):
        for arrow in boxes.groups(body.drawing.shapes, "to-the-top"):
            assert boxes.of_shape(arrow).x0 >= AREA.x1 - lift_drawn.SIDE
            assert boxes.of_shape(arrow).x1 <= AREA.x1


@pytest.mark.parametrize("paper", ["tabloid", "arch-d", "arch-e"])
def test_the_weight_keeps_clear_of_the_footer_on_wide_paper(paper: str) -> None:
    """Beside the verdict the caution takes one or two lines there: its box is as tall as the verdict needs."""
    building = opened.opened(*({**DOOR, "name": f"D{i}", "bay": i} for i in range(1, 7)))
    body = wall.pages(building, PAPERS[paper])[0]
    assert "PIECES AND ROWS: on the sheet" in said(body)
    weight = next(t for t in boxes.written(body.drawing.shapes) if t.words.startswith("about "))
    assert weight.box.y0 >= body.paper.body.y0


# --- nails ----------------------------------------------------------------------------------------------------------


def nails(building: Building, name: str = "A") -> list[list[str]]:
    """The lines of the table of nails."""
    texts = [t for b in sheets(building, name)[1] for t in boxes.written(b.drawing.shapes)]
    start = next(i for i, t in enumerate(texts) if t.words == "treated wood")
    rows: dict[float, list[str]] = {}
    for text in texts[start + 1 :]:
        rows.setdefault(round(text.line, 2), []).append(" ".join(text.words.split()))
    return list(rows.values())


def test_what_the_schedule_gives_stands_at_its_joint() -> None:
    building = built("inside", nails__girt="2 of 4 x .177 ring HDG", nails__splice="3 of 3 1/2 x .162 common")
    rows = {row[0]: row[1:] for row in nails(building)}
    assert rows["Girt to column"][1] == '2 of 4" x .177" ring, HDG'
    assert rows["Girt to column, each end of a splice"][1] == '3 of 3 1/2" x .162" common'


def test_a_splice_without_nails_of_its_own_is_nailed_as_a_crossing() -> None:
    rows = {row[0]: row[1:] for row in nails(built("inside", nails__girt="2 of 4 x .177 ring HDG"))}
    assert rows["Girt to column, each end of a splice"][1] == rows["Girt to column"][1]


def test_what_is_not_given_is_told_as_a_hint() -> None:
    rows = {row[0]: row[1:] for row in nails(built("inside"))}
    assert rows["Grade board to column"][1].startswith("not given. Hint, not a schedule: ")
    assert rows["Header, sill, track board"][1] == "not given"


def test_joints_are_counted_on_this_wall_alone() -> None:
    # four columns, the corners stand in the sidewalls but the boards are nailed to them too: 12 + 1 rows of one bay
    # each in the front wall of the plain building are counted by layouts.nail_count; both walls differ
    building = built("inside")
    here = {name: sum(int(row[1]) for row in nails(building, name) if len(row) > 2) for name in ("A", "1")}
    assert here["A"] > here["1"] > 0


def test_treated_wood_asks_for_hot_dip_galvanised_nails() -> None:
    rows = {row[0]: row for row in nails(built("inside"))}
    assert rows["Grade board to column"][-1] == "all: HDG"
    assert rows["Girt to column"][-1].endswith("of them: HDG")
