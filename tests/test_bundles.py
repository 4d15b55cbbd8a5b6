"""Columns as they are ordered: spares, made tops, seat blocks, and what is left out, wherever the order is told."""

from __future__ import annotations

from typing import Any

import boxes
import pytest
from jobs import build
from test_cuts import rows
from test_made_tops import BLOCK, BOTTOM, SITE

from layouts.building import Building
from layouts.bundles import Bundle
from layouts.lengths import show
from sheets import report
from sheets.cuts import pages
from sheets.paper import PAPERS

TWO = {"A1": "48", "A2": "49"}
SPARE = {"lumber.column_spares": 2}


def printed(building: Building) -> str:
    """All words of the cut sheets."""
    texts = (t for b in pages(building, PAPERS["letter"]) for t in boxes.written(b.drawing.shapes))
    return " ".join(t.words for t in texts)


def ordered(text: str) -> list[str]:
    """The lines of TO ORDER that tell of columns, blanks drawn together."""
    lines = text.partition("TO ORDER")[2].partition("\n\n")[0].splitlines()
    return [" ".join(line.split()) for line in lines if "column" in line]


def test_spare_columns_are_told_wherever_the_order_is() -> None:
    """The long points stand 1 and 2 in over 160.88 (144 + 9 1/4 + 5.7975, and 5 1/2 on 4/12), 1/2 is kept for trimming:
    14 ft each, and so are two spares."""
    one, long = build(SPARE, TWO), 168.0
    assert one.bundles == (Bundle(long, 2), Bundle(long, 2, spare=True))
    told = report.as_json(one)["order"]
    assert [(c["stock"]["value"], c["count"]) for c in told["columns"]] == [(long, 2)]
    assert [(c["stock"]["value"], c["count"]) for c in told["column_spares"]] == [(long, 2)]
    feet = "14'-0\""
    assert ordered(report.as_text(one))[:2] == [f"2 columns {feet}", f"2 columns, spare {feet}"]
    assert [(r[0], *r[2:]) for r in rows(one, "TO ORDER") if len(r) > 1 and r[1].startswith("column")] == [
        ("2", feet),
        ("2", feet, "spare"),
    ]


def test_nothing_is_spare_where_no_column_is_ordered() -> None:
    assert build(SPARE).bundles == ()
    assert report.as_json(build(SPARE))["order"]["column_spares"] == []


# --- made tops and seat blocks ----------------------------------------------------------------------------------------

FOUR = {"column.plies": 4, "column.width": "6", "truss.thickness": "3"}
NOTCH = 'TOP MADE: notch 12\'-6" from the bottom end, ears 14" over that'
SHORT = "TOP MADE: {} 11'-2\" from the bottom end, ears 2'-2\" over that"


@pytest.mark.parametrize(
    ("kind", "told", "short"),
    [
        (BOTTOM, NOTCH, 'TOP MADE: notch at 12\'-6", ears 14"'),
        (BLOCK, SHORT.format("centre ply ends"), "TOP MADE: centre ply ends at 11'-2\", ears 2'-2\""),
        ({**BLOCK, **FOUR}, SHORT.format("inner plies end"), "TOP MADE: inner plies end at 11'-2\", ears 2'-2\""),
        (SITE, "MADE: centre ply ends 11'-2\" from the bottom end", "MADE: centre ply ends at 11'-2\""),
    ],
)
def test_the_order_says_what_the_factory_makes_of_tops(kind: dict[str, Any], told: str, short: str) -> None:
    """Of the two sidewall columns; the one of the endwall is a plain stick."""
    one = build(kind, {**TWO, "C1": "48"})
    assert sorted((bool(b.made), b.count) for b in one.bundles) == [(False, 1), (True, 2)]
    listed = {c["made"]: c["count"] for c in report.as_json(one)["order"]["columns"]}
    assert listed == {"": 1, told: 2}
    words = printed(one)
    assert words.count(f"treated. {told}") == 1
    assert any(line.startswith(f"2 columns, {short} ") for line in ordered(report.as_text(one)))


def test_a_spare_column_is_made_as_the_longest_are() -> None:
    """A column delivered 12'-6 and 14 long, 13'-8, is longer than what is read of the endwalls: nothing."""
    one = build({**BOTTOM, "lumber.column_spares": 1}, TWO)
    assert one.bundles == (Bundle(164.0, 2, "notch"), Bundle(164.0, 1, "notch", spare=True))


@pytest.mark.parametrize(("changes", "thick", "plies"), [({}, 1.5, 1), (FOUR, 3.0, 2)])
def test_seat_blocks_are_listed_with_their_thickness(changes: dict[str, Any], thick: float, plies: int) -> None:
    """The line at 47: A1 and A3 1 in below it, A2 2 in; bearing 144 over the line, the centre ply 134 long: 11 in and
    12 in of blocks. One ply of 4 1/2 / 3, or two of 6 / 4."""
    one = build({**BLOCK, **changes}, {**TWO, "A3": "48"})
    assert [b.length for b in one.blocks] == pytest.approx([11.0, 12.0])
    assert [b.columns for b in one.blocks] == [("A1", "A3"), ("A2",)]
    assert {(b.thick, b.plies, b.deep) for b in one.blocks} == {(thick, plies, 5.5)}
    assert [r for r in rows(one, "SEAT BLOCKS") if r[0].isdigit()] == [("2", '11"', "A1, A3"), ("1", '12"', "A2")]
    what = "its 2 inner plies together" if changes else "its centre ply"
    assert f'{show(thick, one.job.style)} thick, as {what}, and 5 1/2" deep. NOT IN THE ORDER' in printed(one)
    assert "NOT IN THIS ORDER: 3 seat blocks, listed under the columns." in printed(one)
    left = report.as_json(one)["order"]["not_in_it"]["seat_blocks"]
    assert [(b["length"]["value"], b["thick"]["value"], b["plies"], b["columns"]) for b in left] == [
        (11.0, thick, plies, ["A1", "A3"]),
        (12.0, thick, plies, ["A2"]),
    ]
    size = f'{show(thick, one.job.style)} thick, 5 1/2" deep'
    lines = [" ".join(line.split()) for line in report.as_text(one).splitlines()]
    assert f'2 seat blocks NOT IN THIS ORDER: {size} 11"' in lines
    assert f'1 seat block NOT IN THIS ORDER: {size} 12"' in lines


def test_no_seat_blocks_where_the_centre_ply_is_cut() -> None:
    assert build(BOTTOM, TWO).blocks == ()
    assert "SEAT BLOCK" not in printed(build(BOTTOM, TWO))


# --- what is left out -------------------------------------------------------------------------------------------------


def test_check_and_json_name_the_columns_that_are_not_ordered() -> None:
    """All but two: eight names in a row."""
    one = build({}, TWO)
    names = [s.name for s in one.plan.spots if s.name not in TWO]
    assert report.as_json(one)["order"]["not_in_it"]["columns"] == names
    lines = ordered(report.as_text(one))
    assert lines[1] == f"{len(names)} columns NOT IN THIS ORDER: {', '.join(names[:8])}"
    assert f"NOT IN THIS ORDER: columns {', '.join(names)}: no tag" in printed(one)
    everyone = build({}, dict.fromkeys((s.name for s in one.plan.spots), "48"))
    assert "NOT IN THIS ORDER" not in report.as_text(everyone)
