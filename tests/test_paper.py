"""Papers against the standards that name them."""

from __future__ import annotations

import pytest

from sheets.paper import FOOTER, MM, PAPERS


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
