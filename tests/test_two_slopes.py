"""Gables whose sides are not alike, by hand: offset ridges, square fascias, a dropped endwall truss."""

from __future__ import annotations

import math

import pytest
from test_roof_shapes import made_column, roof, whole


def test_an_offset_ridge_from_both_sides() -> None:
    """Columns 381 in out to out, bearings 144 and 168, heels 10, 3/12 and 6/12: x = (178 - 154 + 381/2)/(3/4) = 286,
    from wall A 154 + 286/4 = 225.5, from the wall opposite 178 + (381 - 286)/2 = 225.5."""
    made = roof(
        {"truss.pitch": "3/12", "truss.far_pitch": "6/12", "truss.far_bearing": "14'", "truss.heel": "10"},
    )
    assert made.ridge == pytest.approx(286)
    assert made.chord.over(286) == pytest.approx(225.5)
    assert made.sums[-1].total == pytest.approx(225.5)
    assert made.sums[-1].name == "Ridge of the chords"


def test_a_ridge_tells_what_was_left_out() -> None:
    """The same roof from its ridge, 286 + 1 1/2 from the building line."""
    at = {"truss.pitch": "3/12", "truss.heel": "10", "roof.ridge": "287 1/2"}
    pitched = roof({**at, "truss.far_bearing": "14'"})
    assert pitched.right.inward == pytest.approx(0.5)
    borne = roof({**at, "truss.far_pitch": "6/12"})
    assert borne.right.bearing == pytest.approx(168)
    eave = borne.right.eave
    assert eave == pytest.approx(178 + 5.5 * math.sqrt(1.25) - 0.75)
    eaved = roof({**at, "truss.far_eave": eave})
    assert (eaved.right.inward, eaved.right.bearing) == pytest.approx((0.5, 168))
    agreed = roof({**at, "truss.far_pitch": "6/12", "truss.far_bearing": "14'"})
    assert agreed.ridge == pytest.approx(286)


def test_a_square_fascia_and_a_soffit_along_the_slope() -> None:
    """5 1/2 fascia at 5/12: plumb 5.5 down; square 5.5·12/13 = 5.0769 down at its foot; a soffit along the slope under
    a square one 5.5·13/12 = 5.9583 plumb. Overhang 12: fall 5. Roof plane at the column face: 144 + 9.25 + 5.9583. A
    soffit along the slope meets the nailer, 1 1/2 thick, at its outside: 5/8 lower."""
    face = 144 + 9.25 + 5.5 * 13 / 12
    base = {"truss.pitch": "5/12", "roof.overhang": "12", "roof.far_overhang": "24"}
    wanted = {
        ("level", "plumb"): (face - 5 - 5.5, face - 10 - 5.5),
        ("level", "square"): (face - 5 - 5.5 * 12 / 13, face - 10 - 5.5 * 12 / 13),
        ("sloped", "plumb"): (face - 0.625 - 5.5, face - 0.625 - 5.5),
        ("sloped", "square"): (face - 0.625 - 5.5 * 13 / 12, face - 0.625 - 5.5 * 13 / 12),
    }
    for (soffit, cut), want in wanted.items():
        made = roof({**base, "roof.soffit": soffit, "roof.fascia_cut": cut})
        assert (made.left.soffit, made.right.soffit) == pytest.approx(want), (soffit, cut)


def test_a_dropped_endwall_truss_lowers_the_gable_alone() -> None:
    plain, dropped = (whole({"truss.endwall_drop": drop}) for drop in ("0", "5 1/2"))
    for one, other in zip(plain.walls, dropped.walls, strict=True):
        if one.line.gable:
            spans = [max(p.high[1] for p in c.pieces) - min(p.high[0] for p in c.pieces) for c in one.courses]
            lower = [max(p.high[1] for p in c.pieces) - min(p.high[0] for p in c.pieces) for c in other.courses]
            assert min(lower) != min(spans)
        else:
            cut = [[(p.low, p.high) for c in w.courses for p in c.pieces] for w in (one, other)]
            assert cut[0] == cut[1]
    high = {c.key: c.station for c in made_column(plain, "C1")}
    low = {c.key: c.station for c in made_column(dropped, "C1")}
    assert high["high_edge"] - low["high_edge"] == pytest.approx(5.5)
    assert made_column(plain, "A1") == made_column(dropped, "A1")
