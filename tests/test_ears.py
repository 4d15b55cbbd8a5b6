"""Ears of columns against the trusses between them: what ends below the bearing, what is cut very low. Worked by hand.

The job of ``jobs.BASE``: bearing 12 ft, heel 9 1/4 at the column face, 4/12, purlins 2x6 on edge, columns 4 1/2 by
5 1/2.
"""

from __future__ import annotations

from typing import Any

import pytest
from jobs import METRIC, build, job_text, problems
from test_roof_shapes import LEAN

CHORD = {"tops.sidewall_ears": "chord"}


def refused(changes: dict[str, Any]) -> tuple[str, str, str]:
    """The one thing that is wrong with a job: its field, what is wrong, what would be right."""
    (wrong,) = problems(job_text(changes))
    return f"{wrong.place} = {wrong.text}", wrong.wrong, wrong.right


@pytest.mark.parametrize(
    ("changes", "given", "where", "less"),
    [
        # the short point of ears to the chord is the heel over the bearing: 9 1/4 - 12
        ({**CHORD, "tops.clearance": "12"}, '12"', '2 3/4" BELOW the bearing', '9 1/4"'),
        ({**CHORD, "tops.clearance": "9 1/4"}, '9 1/4"', "at the bearing", '9 1/4"'),
        # 5 1/2 - 6 over wall G, whose heel is the lower one
        ({**CHORD, "truss.far_heel": "5 1/2", "tops.clearance": "6"}, '6"', '1/2" BELOW the bearing', '5 1/2"'),
        # the heel at the outside of girts of 1 1/2: 9 1/4 + 1 1/2/3 = 9 3/4 at the column
        ({**CHORD, "truss.heel_at": "girt", "tops.clearance": "10"}, '10"', '1/4" BELOW the bearing', '9 3/4"'),
        # ears to the roof: 3 + 5 1/2·sqrt(1 + 1/9) = 8.7975 over the bearing
        ({"truss.heel": "3", "tops.clearance": "9"}, '9"', '1/4" BELOW the bearing', '8 3/4"'),
        ({**CHORD, **LEAN, "tops.clearance": "12"}, '12"', '2 3/4" BELOW the bearing', '9 1/4"'),
        ({**CHORD, "column.make": "solid", "tops.clearance": "10"}, '10"', '3/4" BELOW the bearing', '9 1/4"'),
    ],
)
def test_ears_that_end_below_the_bearing_are_refused(
    changes: dict[str, Any], given: str, where: str, less: str
) -> None:
    assert refused(changes) == (
        f"tops.clearance = {given}",
        f"ends the ears of sidewall columns {where}.",
        f"Less than {less}: they stand beside the truss.",
    )


def test_ears_of_the_high_wall_end_below_a_bearing_that_is_too_high() -> None:
    """One slope of 4/12: its chord over the outer face of wall G is 144 + 9.25 + 381/3 = 280.25, over the inner face
    5 1/2/3 less, 278.4167. A bearing of 279 (23'-3) lies under the chord, and 7/12 over the ears."""
    slope = {**CHORD, "roof.shape": "mono-slope"}
    said = refused({**slope, "truss.far_bearing": "23'-3"})
    assert said[0] == "truss.far_bearing = 23'-3\""
    assert said[1:] == (
        'ends the ears of sidewall columns 5/8" BELOW the bearing.',
        "Lower it: they stand beside the truss.",
    )
    assert not problems(job_text({**slope, "truss.far_bearing": "23'-2"}))  # 278


@pytest.mark.parametrize(
    "changes",
    [
        {**CHORD, "tops.clearance": "9"},
        {"tops.clearance": "12"},  # to the roof: 9.25 + 5.7975 - 12 = 3.0475
        {"tops.seat": "flat", "truss.heel": "6", "tops.clearance": "12"},  # no ears
    ],
)
def test_ears_beside_the_truss_are_not_refused(changes: dict[str, Any]) -> None:
    assert not problems(job_text(changes))


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"tops.clearance": "2"}, ""),
        ({"tops.clearance": "2 1/16"}, 'Ears are cut 2 1/16" lower than what they run to'),
        ({"tops.clearance": "12"}, "A bare number is inches."),
        ({"tops.clearance": "12 mm"}, ""),
    ],
)
def test_a_large_clearance_is_asked_about(changes: dict[str, Any], says: str) -> None:
    found = [w for w in build(changes).warnings if "is tops.clearance right?" in w]
    assert bool(found) == bool(says)
    assert says in "".join(found)


def test_a_large_clearance_is_asked_about_in_millimetres() -> None:
    (found,) = (w for w in build({**METRIC, "tops.clearance": "60"}).warnings if "tops.clearance" in w)
    assert found.startswith("Ears are cut 60 mm lower")
    assert "A bare number is mm." in found


# --- lookouts at the corner columns -----------------------------------------------------------------------------------

# the tail 18 1/2 out, the slope (18 1/2 + 190 1/2)*1.0541 = 220.31 in ten spaces of 22.03: lookout 2 at 20.9 - 18.5 =
# 2.4 inside of the columns' face, half of 1 1/2 to either side; ears are 5 1/2 deep
OVER: dict[str, Any] = {"roof.end_overhang": "12", "roof.overhang": "20"}
DROP = {"truss.endwall_drop": "3 1/2"}  # there it lies 3 1/2/3/1.1111 = 1.05 further in: 3.45 inside


def lookouts(changes: dict[str, Any]) -> list[str]:
    """What is told of lookouts at ears."""
    return [w for w in build({**OVER, **changes}).warnings if "through the ears" in w]


@pytest.mark.parametrize(
    ("changes", "can"),
    [
        # without a drop they lie on the chord, beside the purlins
        ({}, 'or take tops.sidewall_ears = "chord".'),
        # ears to the chord stand past a dropped one by the drop, less the clearance
        ({**CHORD, **DROP}, 'or cut those ears 3 1/2" lower than their tags say.'),
        ({**CHORD, **DROP, "tops.clearance": "1/2"}, 'or cut those ears 3" lower than their tags say.'),
        # 5 1/2*1.0541 + 3 1/2 = 9.2975, and to the chord would not be enough
        (DROP, 'or cut those ears 9 5/16" lower than their tags say.'),
        # flush purlins are no higher than the chord
        ({**DROP, "roof.purlins": "flush"}, 'or cut those ears 3 1/2" lower than their tags say.'),
        # the chord less 1 is what the drop leaves
        ({"truss.endwall_drop": "1", "tops.clearance": "1"}, 'or take tops.sidewall_ears = "chord".'),
    ],
)
def test_lookouts_through_the_ears_of_corner_columns(changes: dict[str, Any], can: str) -> None:
    (found,) = lookouts(changes)
    assert found == (
        "Walls A and G: lookout 2 runs through the ears of the corner columns, which stand up past the chord of the "
        f"endwall truss: choose another roof.lookout_step, {can}"
    )


@pytest.mark.parametrize(
    "changes",
    [
        CHORD,
        {**CHORD, **DROP, "tops.clearance": "3 1/2"},
        {**CHORD, "truss.endwall_drop": "1", "tops.clearance": "1"},  # what is advised above
        # seven spaces of 31.26: lookout 2 begins 31.40 - 18.5 = 12.9 inside, 11.8 at its top
        {**CHORD, **DROP, "roof.lookout_step": "36"},
        {**CHORD, **DROP, "roof.end_overhang": "0"},  # none
        {**DROP, "tops.seat": "flat"},  # no ears
        {"tops.clearance": "5 13/16"},  # 5.7975 to the purlins' tops: these ears end under the chord
    ],
)
def test_lookouts_beside_the_ears_are_not_told(changes: dict[str, Any]) -> None:
    assert not lookouts(changes)


def test_a_lookout_that_lies_at_the_columns_whatever_the_step() -> None:
    """Without an overhang lookout 1 is at the end of the chord, 1.05 in from the face on a dropped one."""
    (found,) = lookouts({**CHORD, **DROP, "roof.overhang": "0"})
    assert "lookout 1 runs through" in found
    assert 'truss: cut those ears 3 1/2" lower than' in found


def test_a_lookout_leans_into_the_ears() -> None:
    """Lookout 1 clears the fascia, (5 1/2 - 3 1/2/1.0541)/3 + 3/4 = 1.4765 up the slope at its middle. In nine spaces
    lookout 2 begins (1.4765·8/9 + (t + 190.5)·1.0541/9 - 3/4 + 1.1068)/1.0541 - t inside, t the tail: 6.528 for 18 1/4,
    6.750 for 18. At its top, 3 1/2 plumb above the chord, it stands 3 1/2/1.0541/3/1.0541 = 1.05 further out: 5.478 is
    in the ears, 5.700 is not."""
    change = {**CHORD, **DROP, "roof.lookout_step": "25"}
    assert lookouts({**change, "roof.overhang": "19 3/4"})
    assert not lookouts({**change, "roof.overhang": "19 1/2"})


# --- endwall columns --------------------------------------------------------------------------------------------------

# the underside of a 2x12 at 1/2 in 12 over the high edge of B7, 96 3/4 from the face: 144 + 9.25 + 96.75/24 -
# 11.25*sqrt(1 + 1/576) = 146.0215; F7 stands as far from wall G. The next one, C1, has its edge 36 in further up
UNDER: dict[str, Any] = {"truss.pitch": "0.5/12", "truss.top_chord": "2x12", "tops.endwall_ears": "chord bottom"}


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"tops.clearance": "2"}, ""),
        ({"tops.clearance": "3"}, 'Ears of B7, F7 end up to 1" BELOW the bearing of the endwall truss'),
        # the clearance again, as a drop of the chord
        (
            {"truss.endwall_drop": "3", "roof.end_overhang": "12"},
            'Ears of B7, F7 end up to 1" BELOW the bearing of the endwall truss',
        ),
        ({"tops.clearance": "3", "tops.endwall_ears": "bearing"}, ""),  # they are to end there
        ({"tops.clearance": "3", "tops.endwall_ears": "chord"}, ""),
    ],
)
def test_endwall_ears_that_end_below_their_truss(changes: dict[str, Any], says: str) -> None:
    found = [w for w in build({**UNDER, **changes}).warnings if "of the endwall truss: nothing" in w]
    assert len(found) == bool(says)
    assert says in "".join(found)
