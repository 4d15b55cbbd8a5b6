"""Where the fascia hangs, by plain trigonometry: overhangs that are too short for it."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import METRIC, build, job_text, problems

from layouts import purlins

SQUARE = {"roof.fascia_cut": "square", "truss.pitch": "12/12", "roof.purlin": "2x10", "roof.fascia": "9 1/4"}
LEANS = "or 0 for none: a square fascia leans in at its foot."


@pytest.mark.parametrize(
    ("changes", "least"),
    [
        # 12/12: purlin or fascia 9 1/4 deep and 1 1/2 thick, both over sqrt 2: 7.6014; 1 1/2 of girt: 9.1014
        (SQUARE, '9 1/8"'),
        ({**SQUARE, "truss.heel_at": "girt"}, '7 5/8"'),
        ({**SQUARE, "girts.place": "between"}, '7 5/8"'),
        # a fascia 5 1/2 deep ends above the purlin's foot: it is the tail that has no room
        ({**SQUARE, "roof.fascia": "5 1/2"}, '9 1/8"'),
        # purlins hung flush: the fascia's foot is (7 1/4 + 1 1/2)/sqrt 2 = 6.1872 in, and 1 1/2 of girt
        ({**SQUARE, "roof.purlins": "flush", "roof.fascia": "7 1/4"}, '7 11/16"'),
        # 6/12, sin 0.44721, cos 0.89443: 11 1/4 of purlin and 1 1/2: 5.0312 + 1.3416 = 6.3728, and 1 1/2: 7.8728
        ({**SQUARE, "truss.pitch": "6/12", "roof.purlin": "2x12"}, '7 7/8"'),
    ],
)
def test_a_square_fascia_needs_room_for_its_lean(changes: dict[str, Any], least: str) -> None:
    (wrong,) = problems(job_text({**changes, "roof.overhang": "5"}))
    assert (wrong.place, wrong.text, wrong.wrong) == ("roof.overhang", '5"', "puts the fascia in the girts.")
    assert wrong.right == f"At least {least}, {LEANS}"
    one = build({**changes, "roof.overhang": least.rstrip('"')})
    out = one.job.girt_out
    assert all(out <= slope.tail for slope in purlins.slopes(one.job, one.roof))


def test_each_eave_needs_its_own() -> None:
    """12/12 over wall A as above; 6/12 with 9 1/4 over the other: (9 1/4 · 1/2 + 1 1/2)/1.1180 + 1 1/2 = 6.9783."""
    near, far = problems(job_text({**SQUARE, "truss.far_pitch": "6/12", "roof.overhang": 5, "roof.far_overhang": 6}))
    assert (near.place, near.right) == ("roof.overhang", f'At least 9 1/8", {LEANS}')
    assert (far.place, far.right) == ("roof.far_overhang", f'At least 7", {LEANS}')
    (one,) = problems(job_text({**SQUARE, "truss.far_pitch": "6/12", "roof.overhang": 5}))
    assert (one.place, one.right) == ("roof.overhang", near.right)


def test_at_the_high_end_a_square_fascia_leans_out() -> None:
    """One slope of 6/12 with 2x10: 8 at the low end is more than 6.9783; at the high end 3 is enough, and the tail
    there is longer than the roof: 3 + (4.625 − 1.5)/1.1180 = 5.7951. So the run is 381 + 8 − 5.4783 + 5.7951."""
    mono = {"roof.shape": "mono-slope", **SQUARE, "truss.pitch": "6/12", "roof.overhang": 8, "roof.far_overhang": 3}
    one = build(mono)
    (slope,) = purlins.slopes(one.job, one.roof)
    assert slope.run == pytest.approx(381 + 8 - 5.4783 + 5.7951, abs=1e-3)


COLUMNS = {"building.line": "columns", "cladding.cover": "36"}


@pytest.mark.parametrize(
    ("changes", "long"),
    [
        # columns 48' out to out, and 1 1/2 of girt at either end, where the sheets of the endwalls hang
        (COLUMNS, 576 + 3),
        ({**COLUMNS, "roof.end_overhang": "1 1/2"}, 576 + 3),
        ({**COLUMNS, "roof.end_overhang": "12"}, 576 + 24),
        ({**COLUMNS, "girts.place": "between"}, 576),
        # 48' out to out of the girts: the overhang is measured from these
        ({**COLUMNS, "building.line": "girts"}, 576),
        ({**COLUMNS, "building.line": "girts", "roof.end_overhang": "1"}, 576 + 2),
    ],
)
def test_fascia_and_sheets_end_where_the_roof_does(changes: dict[str, Any], long: float) -> None:
    one = build({**changes, "roof.overhang": "12"})
    along, places = purlins.along_eave(one.job, one.plan)
    assert along == long
    past = (long - one.plan.along) / 2
    assert [(f.left, f.right) for f in one.cladding if f.roof] == [(-past, one.plan.along + past)] * 2
    # the front truss stands 1 1/2 in from the end of the columns, in their slot
    assert places[0] == past + 1.5


def test_a_metric_fascia_covers_the_girts() -> None:
    """14.4 m of columns, 45 mm of girt at either end."""
    one = build({"building.line": "columns", "roof.overhang": 310}, base=METRIC)
    assert purlins.along_eave(one.job, one.plan)[0] * 25.4 == pytest.approx(14400 + 90)


def test_a_roof_that_ends_in_the_girts_is_refused() -> None:
    """From the columns 1 1/2 of girt; from the girts' outside nothing."""
    (wrong,) = problems(job_text({**COLUMNS, "roof.end_overhang": "1"}))
    assert (wrong.place, wrong.text, wrong.wrong) == ("roof.end_overhang", '1"', "ends the roof in the girts.")
    assert wrong.right == 'At least 1 1/2", or 0 for none.'
    for fine in ({"building.line": "girts"}, {"girts.place": "between"}, {"roof.end_overhang": "0"}):
        assert not problems(job_text({**COLUMNS, "roof.end_overhang": "1", **fine}))
