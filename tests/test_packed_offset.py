"""One word, one number: what is called an offset is that of the column's own bottom end, on packing too, wherever it is
told."""

from __future__ import annotations

from functools import cache

import boxes
import pytest
from graded import lines_of, row, shapes, strips, words
from jobs import build
from shooters import shot, site
from test_grade_sheet_sums import after
from test_made_tops import BLOCK, BOTTOM, NEITHER, column

from layouts.building import Building
from sheets import tag_words

LINE = {"grade.line": "44"}


@cache
def packed() -> Building:
    """Notch 145, bearing 144: every bottom end stands 1 under the line. A1, 1 3/8 under it, is packed 3/8, A2, 2 1/8
    under it, 1 1/8; A3 stands on its seat; C1 is cut at the top."""
    return build({**NEITHER, **LINE}, {"A1": "45 3/8", "A2": "46 1/8", "A3": "45", "C1": "46"})


def test_the_table_has_packing_and_the_offset_of_the_tag() -> None:
    building = packed()
    assert ["column", "as written", "taken", "packing", "offset", "against A1", "do first", "note"] in lines_of(
        building
    )
    assert row(building, "A2")[2:6] == ['46 1/8"', '1 1/8"', '1"', 'LOW 3/4"']
    assert row(building, "A3")[2:5] == ['45"', '1"', 'HIGH 3/8"']  # nothing under it
    assert row(building, "C1")[2:5] == ['46"', '2"', 'LOW 5/8"']
    assert row(building, "A4", 2) == ["A4", "NOT READ"]
    for name in ("A1", "A2", "A3", "C1"):
        tag = tag_words.words(building, column(building, name))
        assert tag.offset == ('2"' if name == "C1" else '1"')
    said = " ".join(words(building))
    assert (
        "how far it stands above a column's bottom end: reading less line reading, less the packing under it." in said
    )


def test_a_job_without_packing_tells_it_from_the_seat_as_ever() -> None:
    building = build({**BOTTOM, **LINE}, {"A1": "45", "A2": "46"})
    assert "An offset is how far it stands above a seat: reading less line reading." in " ".join(words(building))
    assert row(building, "A2")[2:5] == ['46"', '2"', 'LOW 1"']


def test_the_sum_goes_over_the_packing() -> None:
    """3/8 of packing, then the offset of 1: from the seat of A1 1 3/8 up to the line, as its reading says. With a notch
    of 143 1/2 its end stands 1/2 above the line, on 1 7/8."""
    found = after(words(packed()), "FROM THE SEAT OF A1 TO THE EAVE LINE", 6)
    assert found[1:3] == ["packing on the seat of A1", '3/8"']
    assert found[3:5] == ["bottom end of A1 up to the grade line (its offset)", '1"']
    high = build({**NEITHER, **LINE, "column.notch": "143 1/2"}, {"A1": "45 3/8"})
    found = after(words(high), "FROM THE SEAT OF A1 TO THE EAVE LINE", 6)
    assert found[1:3] == ["packing on the seat of A1", '1 7/8"']
    assert found[3:5] == ["less the bottom end of A1 down to the grade line", '– 1/2"']


def test_the_profile_is_of_seats() -> None:
    heads = [t.words for t in boxes.written(strips(packed()))]
    assert "seat below" in heads
    assert "offset" not in heads
    plain = [t.words for t in boxes.written(strips(build(LINE, {"A1": "45"})))]
    assert "offset" in plain
    assert "seat below" not in plain


@pytest.mark.parametrize(
    ("changes", "takes"),
    [
        (NEITHER, "a column with a made top takes thicker packing"),
        (BOTTOM, "less is cut off a column with a made top, then it is packed up"),
        (BLOCK, "a column with a made top takes a longer seat block"),
    ],
)
def test_what_a_lower_seat_takes(changes: dict[str, object], takes: str) -> None:
    building = build({**changes, **LINE}, {"A1": "45", "A2": "46"})
    said = " ".join(words(building))
    assert f"On a lower seat {takes}; any other column is longer." in said
    assert "A larger offset takes a longer column" not in said
    heads = [t.words for page in shapes(building) for t in boxes.written(page)]
    assert "seats below" in heads
    assert "offsets" not in heads


def test_a_reading_told_back_has_the_offset_of_the_tag() -> None:
    made = site({**NEITHER, **LINE})
    assert shot(made, ["45 3/8"]).said[-2:] == [
        'REFERENCE SEAT: PACKED UP 3/8"',
        'offset 1" over 3/8" of packing, from line reading 44"',
    ]
    assert shot(made, ["45"]).said[-1] == 'offset 1" from line reading 44"'
    # the line so far: A1 wants 1 up to it, 44; an endwall column reads as ever
    loose = site(NEITHER)
    assert shot(loose, ["45", "45 1/2"]).said[-1] == (
        'offset 1" over 1/2" of packing, PROVISIONAL, from line reading 44" so far'
    )


def test_a_seat_too_high_for_a_made_top_is_not_packed_up_by_less_than_nothing() -> None:
    """Notch 145 wants 1 up to the line: 3/4 is 1/4 too little."""
    assert shot(site({**NEITHER, **LINE}), ["44 3/4"]).said[-2:] == [
        'REFERENCE SEAT: SEAT 1/4" TOO HIGH FOR ITS MADE TOP',
        'offset 3/4" from line reading 44"',
    ]
