"""Profiles against a printer made of plain geometry: its own matrix on an upright sheet, pages laid on it as a driver
lays them. Distances are taken with a tape (``math.dist``), the way a user takes them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import astuple, replace

from sheets.profile import BadMeasure, Profile, Taped, measured
from sheets.shapes import Drawing, Line, Point, Recorder, Text, flat

LONG, SHORT = 10.0, 7.0
DAY = "2026-09-14"


@dataclass(frozen=True)
class Printer:
    """What it does to a sheet that stands upright: right = xx·x + xy·y, up = yy·y, and then some offset."""

    xx: float
    xy: float
    yy: float

    def lands(self, drawing: Drawing, point: Point, turn: int = 1) -> Point:
        """Where a point of a page lands; a page on its side is turned a quarter left (1) or right (-1) to fit."""
        x, y = point
        if drawing.width > drawing.height:
            x, y = -turn * y, turn * x
        return self.xx * x + self.xy * y + 0.11, self.yy * y - 0.07

    def measure(self, corrected: Callable[[Drawing], Drawing], turn: int = 1) -> Taped:
        """Tape on the rectangle of a ruler page."""
        pen = Recorder(11.0, 8.5)
        left, low = 0.5, 0.94
        for x, y in ((left, low), (left + LONG, low), (left + LONG, low + SHORT), (left, low + SHORT)):
            pen.stroke(x, y, x, y)
        page = corrected(pen.drawing())
        a, b, c, d = [self.lands(page, (s.x0, s.y0), turn) for s in flat(page.shapes) if isinstance(s, Line)]
        return Taped(math.dist(a, b), math.dist(a, d), math.dist(a, c), math.dist(d, b))


def plainly(drawing: Drawing) -> Drawing:
    return drawing


def learn(got: Taped, previous: Profile | None = None) -> Profile:
    return measured((LONG, SHORT), got, "any", "letter", DAY, 0.25, previous)


# --- by hand --------------------------------------------------------------------------------------------------------


def test_scales_are_measured_over_drawn() -> None:
    # 10.03 for 10 and 6.986 for 7; no skew, so both diagonals are sqrt(10.03² + 6.986²) = 12.2232
    profile = learn(Taped(10.03, 6.986, 12.22312, 12.22312))
    assert (profile.along, profile.across, profile.skew) == pytest.approx((1.003, 0.998, 0.0), abs=1e-6)
    assert (profile.printer, profile.paper, profile.date, profile.edge) == ("any", "letter", DAY, 0.25)
    assert profile.residual is None


def test_skew_is_in_the_diagonals() -> None:
    # upright, a point 10 in higher stands 0.05 in further right. On its side the page is the long side (10, -0.05) and
    # the short side (0, 7): diagonals sqrt(10² + 6.95²) = 12.177951 and sqrt(10² + 7.05²) = 12.235297, long side
    # sqrt(10² + 0.05²) = 10.000125
    profile = learn(Taped(10.000125, 7.0, 12.177951, 12.235297))
    assert (profile.along, profile.across, profile.skew) == pytest.approx((1.0, 1.0, 0.005), abs=2e-6)


# --- a printer of geometry ------------------------------------------------------------------------------------------

scale = st.floats(-0.018, 0.018).map(lambda off: 1 + off)
printers = st.builds(Printer, scale, st.floats(-0.009, 0.009), scale)
turns = st.sampled_from([1, -1])


@given(printers, turns)
def test_the_printer_is_found_from_a_page_on_its_side(printer: Printer, turn: int) -> None:
    profile = learn(printer.measure(plainly, turn))
    found = (profile.across, profile.skew, profile.along)
    assert found == pytest.approx((printer.xx, printer.xy, printer.yy), abs=1e-6)


@given(printers, turns, st.sampled_from([(8.5, 11.0), (11.0, 8.5), (24.0, 36.0), (17.0, 11.0)]))
def test_corrected_pages_of_either_kind_land_true(printer: Printer, turn: int, size: tuple[float, float]) -> None:
    profile = learn(printer.measure(plainly))
    pen = Recorder(*size)
    places = [(0.5, 0.5), (size[0] - 0.5, 0.6), (size[0] / 3, size[1] - 0.5), (2.0, 5.0)]
    for x, y in places:
        pen.stroke(x, y, x, y)
    page = profile.correct(pen.drawing())
    landed = [printer.lands(page, (s.x0, s.y0), turn) for s in flat(page.shapes) if isinstance(s, Line)]
    for i, place in enumerate(places):
        for j in range(i):
            assert math.dist(landed[i], landed[j]) == pytest.approx(math.dist(place, places[j]), abs=1e-4)


@given(printers)
def test_what_is_drawn_is_where_it_lands_undone(printer: Printer) -> None:
    profile = learn(printer.measure(plainly))
    for drawing in (Drawing(8.5, 11, ()), Drawing(11, 8.5, ()), Drawing(9, 9, ())):
        for point in ((0.0, 0.0), (drawing.width, 0.0), (3.0, 8.0)):
            assert profile.printed(drawing, profile.drawn(drawing, point)) == pytest.approx(point, abs=1e-12)
            assert math.dist(profile.drawn(drawing, point), point) < 0.03 * math.hypot(5.5, 4.5)


@given(printers)
def test_a_second_measurement_shows_nothing_and_changes_nothing(printer: Printer) -> None:
    first = learn(printer.measure(plainly))
    second = learn(printer.measure(first.correct), first)
    assert second.residual == pytest.approx(0.0, abs=2e-5)
    assert astuple(second)[2:5] == pytest.approx(astuple(first)[2:5], abs=3e-6)


@given(st.builds(Printer, st.floats(0.985, 1.015), st.floats(-0.009, 0.009), st.floats(0.985, 1.015)))
def test_a_second_measurement_mends_a_profile_read_badly(printer: Printer) -> None:
    true = printer.measure(plainly)
    slip = replace(learn(true), along=printer.yy * 1.003, across=printer.xx * 0.999, skew=printer.xy + 0.0005)
    again = learn(printer.measure(slip.correct), slip)
    assert again.residual == pytest.approx(0.03, abs=0.001)  # 0.3 % of 10 in
    found = (again.across, again.skew, again.along)
    assert found == pytest.approx((printer.xx, printer.xy, printer.yy), abs=3e-6)


def test_a_plain_profile_leaves_a_drawing_alone() -> None:
    drawing = Drawing(8.5, 11, (Line(1, 1, 2, 2),))
    assert Profile().correct(drawing) is drawing


def test_only_places_are_corrected_not_sizes() -> None:
    pen = Recorder(8.5, 11)
    pen.begin("a", "b")
    pen.stroke(1, 1, 4, 1, 0.028, (0.1, 0.05))
    pen.shape(((1, 1), (2, 1), (2, 3)), 0.5, 0.01)
    pen.end()
    (group,) = Profile(along=1.01, across=0.99, skew=0.002).correct(pen.drawing()).shapes
    line, polygon = flat([group])
    assert isinstance(line, Line)
    assert (line.width, line.dash) == (0.028, (0.1, 0.05))
    assert line.x1 - line.x0 == pytest.approx(3 / 0.99)
    assert getattr(group, "name", "") == "a"
    assert (getattr(polygon, "grey", 0), getattr(polygon, "width", 0)) == (0.5, 0.01)


def test_letters_fill_their_place_as_they_are_printed() -> None:
    """A printer 2 % long across and 1 % short along: words that lie run across an upright sheet and are drawn smaller,
    words that are turned run along it and are drawn larger; on a sheet that lies it is the other way round."""
    profile = Profile(along=0.99, across=1.02)
    for size, lie, turned in (((8.5, 11.0), 1 / 1.02, 1 / 0.99), ((11.0, 8.5), 1 / 0.99, 1 / 1.02)):
        pen = Recorder(*size)
        pen.text(Text(2, 3, "12", 0.5, "bold"))
        pen.text(Text(2, 3, "12", 0.5, "bold", turn=90))
        sizes = [t.size for t in flat(profile.correct(pen.drawing()).shapes) if isinstance(t, Text)]
        assert sizes == pytest.approx([0.5 * lie, 0.5 * turned])


def test_a_page_keeps_off_what_a_correction_needs() -> None:
    """Letter, 2 % short along: from the middle 5.5 - 0.6 = 4.9 is drawn at 4.9 / 0.98 = 5, half an inch off. A roll cut
    to 200 in, 0.62 % short: 100 - 99.5·0.9938 = 1.1169. Leaning by 1 % a corner 4.95 up is 0.0495 further out."""
    assert Profile(along=0.98).margin(8.5, 11) == pytest.approx(0.6)
    assert Profile(along=0.98).margin(11, 8.5) == pytest.approx(0.6)
    assert Profile(along=0.9938).margin(36, 200) == pytest.approx(1.1169)
    assert Profile(skew=0.01).margin(8.5, 11) == pytest.approx(0.5 + 0.01 * (5.5 - 0.5495), abs=1e-4)
    assert Profile(along=1.02, across=1.02, edge=0.25).margin(8.5, 11) == 0.25


@given(printers, st.sampled_from([(8.5, 11.0), (42.0, 30.0), (36.0, 200.0)]), st.sampled_from([0.25, 0.5]))
def test_nothing_within_the_margin_is_drawn_in_the_unprinted_edge(
    printer: Printer, size: tuple[float, float], edge: float
) -> None:
    profile = replace(learn(printer.measure(plainly)), edge=edge)
    m, (wide, high) = profile.margin(*size), size
    for x in (m, wide - m):
        for y in (m, high - m):
            at = profile.drawn(Drawing(wide, high, ()), (x, y))
            assert edge - 1e-9 <= at[0] <= wide - edge + 1e-9
            assert edge - 1e-9 <= at[1] <= high - edge + 1e-9


# --- what cannot be -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("shrunk", [0.97, 0.96, 0.94, 1.03, 0.979])
def test_a_dialog_that_scaled_is_found_out(shrunk: float) -> None:
    got = Printer(shrunk, 0, shrunk).measure(plainly)
    with pytest.raises(BadMeasure, match=r"(?s)print dialog.*fit to page.*actual size, 100 %"):
        learn(got)


def test_a_sheet_askew_is_refused() -> None:
    with pytest.raises(BadMeasure, match=r"leans by 1\.2 %"):
        learn(Printer(1, 0.012, 1).measure(plainly))


@pytest.mark.parametrize("name", ["along", "across", "rising", "falling"])
@pytest.mark.parametrize("slip", [-1.0, -0.5, 0.5, 1.0, math.nan, math.inf, 0.0])
def test_one_number_misread_is_found_out(name: str, slip: float) -> None:
    got = Printer(1.002, 0.001, 0.998).measure(plainly)
    wrong = getattr(got, name) + slip if slip else 0.0
    with pytest.raises(BadMeasure):
        learn(replace(got, **{name: wrong}))


@pytest.mark.parametrize("name", ["along", "across", "rising", "falling"])
@pytest.mark.parametrize("slip", [-1 / 32, 1 / 32])
def test_a_tape_read_to_a_32nd_is_taken(name: str, slip: float) -> None:
    got = Printer(1.002, 0.001, 0.998).measure(plainly)
    profile = learn(replace(got, **{name: getattr(got, name) + slip}))
    assert (profile.along, profile.across) == pytest.approx((0.998, 1.002), abs=1 / 32 / SHORT + 1e-4)


def test_two_corrections_do_not_creep_past_the_limit() -> None:
    old = Profile("any", "letter", along=1.015, date=DAY)
    with pytest.raises(BadMeasure, match="printed plain"):
        learn(Printer(1, 0, 1.015 * 1.01).measure(old.correct), old)


# --- words ----------------------------------------------------------------------------------------------------------


def test_words_name_profile_day_errors_and_what_is_left() -> None:
    profile = Profile("Shed", "letter", 1.0031, 0.9988, 0.0002, date=DAY, residual=0.02)
    axes = "along 0.31 % long, across 0.12 % short, skew 0.02 %"
    assert profile.words() == f"Shed, letter, 2026-09-14: {axes}: corrected, left over 0.02 in in 10"
    assert "0.5 mm in 250" in profile.words(metric=True)  # 0.02 in 10 is 0.2 %
    assert "not measured again" in replace(profile, residual=None).words()
    assert "not measured" in Profile().words()
