"""Papers against the standards that name them."""

from __future__ import annotations

import pytest

from sheets.paper import FOOTER, MM, PAPERS, NoPaper, find


def test_inch_is_25_4_mm() -> None:
    # 1959 agreement; NBS Circular 572 addendum (seen): 25.4 mm exactly
    assert pytest.approx(1.0, abs=1e-15) == MM * 25.4


def test_a4_is_iso_216() -> None:
    # ISO 216 (seen): A4 is 210 x 297 mm
    paper = PAPERS["a4"]
    assert paper.width * 25.4 == pytest.approx(210, abs=1e-9)
    assert paper.height * 25.4 == pytest.approx(297, abs=1e-9)


def test_letter_is_ansi_a() -> None:
    # ANSI A (seen): 8.5 x 11 in
    assert (PAPERS["letter"].width, PAPERS["letter"].height) == (8.5, 11.0)


@pytest.mark.parametrize("name", PAPERS)
def test_turned_lies_on_its_side(name: str) -> None:
    paper = PAPERS[name]
    assert (paper.turned().width, paper.turned().height) == (paper.height, paper.width)
    assert paper.turned().turned() == paper


def test_body_keeps_margins_and_footer() -> None:
    # 8.5 - 2 x 1/2 across; 11 - 2 x 1/2 - 0.44 up
    body = PAPERS["letter"].body
    assert (body.x0, body.y1) == (0.5, 10.5)
    assert body.width == pytest.approx(7.5)
    assert body.height == pytest.approx(10.0 - FOOTER)
    assert body.y0 == pytest.approx(0.5 + FOOTER)


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ANSI B to E and ARCH A to E1, inches; legal (references: sizes as commonly published, seen)
        ("tabloid", 11, 17),
        ("ansi-c", 17, 22),
        ("ansi-d", 22, 34),
        ("ansi-e", 34, 44),
        ("arch-a", 9, 12),
        ("arch-b", 12, 18),
        ("arch-c", 18, 24),
        ("arch-d", 24, 36),
        ("arch-e", 36, 48),
        ("arch-e1", 30, 42),
        ("legal", 8.5, 14),
        # ISO 216 (seen): A3 is 297 x 420 mm
        ("a3", 297 / 25.4, 420 / 25.4),
    ],
)
def test_sheets_have_their_published_sizes(name: str, width: float, height: float) -> None:
    assert (find(name).width, find(name).height) == pytest.approx((width, height), abs=1e-12)


@pytest.mark.parametrize(
    ("name", "sides"),
    [("12x18", (12, 18)), ("18 x 12", (12, 18)), ("300x420mm", (300 / 25.4, 420 / 25.4)), ("9 1/2 x 13", (9.5, 13))],
)
def test_a_size_of_ones_own(name: str, sides: tuple[float, float]) -> None:
    assert (find(name).width, find(name).height) == pytest.approx(sides)


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("leter", "Did you mean letter?"),
        ("12x", "not a paper"),
        ("3x5", "too small: at least 8 x 10 in"),
        ("24x201", "no side over 200 in"),
        ("-9x12", "cannot be negative"),
        ("nanxinf", "not a size"),
        ("9x9**9", "not a size"),
    ],
)
def test_what_is_no_paper_is_refused(name: str, says: str) -> None:
    with pytest.raises(NoPaper) as refused:
        find(name)
    assert says in str(refused.value)


def test_a_printer_s_edge_is_the_margin_and_a_quarter_inch_the_least() -> None:
    assert find("letter").within(0.6).body.x0 == 0.6
    assert find("letter").within(0.1).body.x0 == 0.25
