"""Names of sheets in the pictures: what is seen of a sheet, beside openings, outside, and what has no place."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import boxes
import pytest
from msgspec.structs import replace
from test_cladding import CLAD, OPEN, made, printed_words

import fonts
from layouts.framed import Opening
from layouts.lengths import Style
from layouts.sheeting import Face, Sheet
from sheets import packet
from sheets.audit import differences
from sheets.cladding_names import GAP, LEAST, REACH, Name, names
from sheets.lettering import pt, width
from sheets.load import load
from sheets.paper import PAPERS

SCALE = 0.02  # inches of the page for one of the building
STRIP = 36.0
COOPER = Path(__file__).parents[1] / "gallery/cooper/job.toml"


def sheet(part: str, low: float, high: float) -> Sheet:
    """A sheet of the only strip."""
    return Sheet(1, part, "wall", 0.0, STRIP, low, ((0.0, high), (STRIP, high)), high - low)


def hole(left: float, right: float, low: float, high: float) -> Opening:
    """Any opening, put elsewhere."""
    some = next(o for wall in made(OPEN).walls for o in wall.openings)
    return replace(some, left=left, right=right, low=low, high=high)


def placed(sheets: Sequence[Sheet], *holes: Opening) -> tuple[dict[str, Name], list[str]]:
    """The names of a wall of one strip, by their sheets, and those without a place."""
    face = Face("Wall A", "left", False, 0.0, STRIP, STRIP, "left", 0.0, tuple(sheets), (), tuple(holes), ())
    found, nameless = names(face, Style(), SCALE)
    return {name.sheet: name for name in found}, nameless


def test_a_lap_is_no_room_for_the_name_of_the_sheet_under_it() -> None:
    """The lower sheet is 126 long, the upper one laps over its last 12: 0 to 114 is seen of it, middle 57, and 114 to
    150 of the other, middle 132; times 0.02."""
    found, nameless = placed([sheet("a", 0, 126), sheet("b", 114, 150)])
    assert nameless == []
    assert found["1a"].words == "1a: 10'-6\""
    assert found["1a"].y == pytest.approx(1.14)
    assert found["1b"].words == "1b: 3'-0\""
    assert found["1b"].y == pytest.approx(2.64)


def test_where_the_length_has_no_room_in_what_is_seen_the_number_stands_alone() -> None:
    """The middle one is 40 long, but the upper one leaves 16 of it: 0.32 in of the page, less 0.06 of air. At 7.5 pt
    its name and length would take more, its name less."""
    found, _ = placed([sheet("a", 0, 100), sheet("b", 90, 130), sheet("c", 106, 190)])
    assert width("1b: 3'-4\"", pt(7.5), fonts.BOLD) > 0.26 > width("1b", pt(7.5), fonts.BOLD)
    assert found["1b"].words == "1b"
    assert found["1b"].y == pytest.approx((90 + 106) / 2 * SCALE)


def test_a_name_stands_beside_an_opening() -> None:
    """A door from 12 on takes the whole height but not the first 12 in: middle 6, times 0.02."""
    found, _ = placed([sheet("", 0, 84)], hole(12, 50, 0, 90))
    assert found["1"].x == pytest.approx(0.12)
    assert found["1"].words == "1: 7'-0\""
    assert found["1"].y == pytest.approx(0.84)


def test_a_sheet_too_low_for_words_is_named_under_the_wall() -> None:
    """4 in high is 0.08 in of the page, less than words of 7.5 pt; the one over it has its name inside. Its stroke goes
    from 0.06 in the sheet to 0.07 under the grade line, in the middle of the strip: 18 x 0.02."""
    found, nameless = placed([sheet("a", 0, 4), sheet("b", 4.5, 100)])
    low = found["1a"]
    assert nameless == []
    assert low.stroke == pytest.approx((0.36, REACH, 0.36, -GAP))
    assert (low.size, low.turned) == (LEAST, True)
    assert low.y + low.half < -GAP
    assert found["1b"].stroke is None


def test_a_sheet_too_low_for_words_is_named_over_the_wall() -> None:
    """The last one is seen from 100 to 104: 2.00 to 2.08 in of the page."""
    found, _ = placed([sheet("a", 0, 100), sheet("b", 100.5, 104)])
    assert found["1b"].stroke == pytest.approx((0.36, 2.08 - REACH, 0.36, 2.08 + GAP))
    assert found["1b"].y - found["1b"].half > 2.08 + GAP


def test_a_name_under_a_wall_is_not_led_through_a_door() -> None:
    """Nothing of the lower sheet is seen: the door is as wide as its strip. What is between two others has no place."""
    assert placed([sheet("a", 0, 4), sheet("b", 4.5, 100)], hole(0, 36, 0, 50))[1] == ["1a"]
    assert placed([sheet("a", 0, 60), sheet("b", 60, 64), sheet("c", 64, 130)])[1] == ["1b"]


def test_what_has_no_place_is_told_under_the_picture() -> None:
    """A door across whole sheets hides what is no higher than it."""
    words = printed_words(made({**OPEN, "cladding.openings": "whole", "cladding.longest": "5'", "cladding.lap": "6"}))
    assert "Numbers that have no room in the picture: " in words
    assert "Numbers that have no room" not in printed_words(made(CLAD))


@pytest.mark.parametrize("longest", ["12'", "10'", "8'", "5'"])
def test_end_laps_are_printed(longest: str, tmp_path: Path) -> None:
    """The packet of a demo whose sheets are shorter than its walls: all that is seen of each sheet takes its words."""
    job = tmp_path / "job.toml"
    text = COOPER.read_text().replace('cover = "36"', f'cover = "36"\nlongest = "{longest}"')
    job.write_text(text)
    job.with_suffix(".csv").write_text(COOPER.with_suffix(".csv").read_text())
    one = load(job)
    printed = packet.build(one, PAPERS["letter"], "cladding")
    packet.save(printed, tmp_path / "t")
    assert differences(printed, one, tmp_path / "t") == []
    for page in printed.sheets:
        assert boxes.overlaps(list(boxes.written(page.page.drawing.shapes))) == [], page.title
        assert boxes.crossed(page.page.drawing.shapes) == [], page.title
