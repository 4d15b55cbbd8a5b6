"""The lift of a wall against statics: who lifts it, by what, where it is picked, and how it lies."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import given
from jobs import buildings, every, job
from test_wood import Settings as Wood

from layouts import bodies, lift
from layouts.bodies import Body, Weight, box, weigh
from layouts.building import Building, lay_out
from layouts.lift import Face, Lift


@dataclass(frozen=True)
class Settings:
    """What a job says of its lifts."""

    lies: Face = "inside"
    hold: float | None = 108.0
    people: int = 6
    wind: float = 15.0
    extra: int = 10
    treated_up: float = 60.0


def read(changes: dict[str, Any] | None = None) -> Building:
    """A building with one reading for all columns: offset 2."""
    made = job({"grade.line": "43", **(changes or {})})
    return lay_out(made, every(made))


def lifted(building: Building, name: str, settings: Settings | None = None, wood: Wood | None = None) -> Lift:
    wall = next(w for w in building.walls if w.name == name)
    return lift.lay(building.job, building.plan, building.roof, wall, wood or Wood(), settings or Settings())


# --- the example of the trade ---------------------------------------------------------------------------------------


def strip(length: float, low: float, high: float, a_foot: float) -> Body:
    """A member of *a_foot* pounds a foot, *length* inches along, from *low* to *high*."""
    volume = length * (high - low)
    feet = max(length, high - low) / 12
    return Body("", box(0, length, low, high), 1.0, a_foot * feet * 1728 / volume)


def example() -> Weight:
    """Common practice, no source: a 48 ft sidewall of seven columns 12'-10" (9.6 lb/ft over 5 ft, 6.0 above), six rows
    of 2x4 (1.3) and a treated 2x8 (4.4), 10 % more; heights from the bottom ends, which stand 4 1/2 below the floor."""
    rows = [b + 4.5 for b in (23.625, 47, 70.375, 93.75, 117.125, 140.5)]
    parts = [strip(576, b, b + 3.5, 1.3) for b in rows] + [strip(576, 1, 8.25, 4.4)]
    parts += [strip(4.5, 0, 60, 9.6), strip(4.5, 60, 154, 6.0)] * 7
    return weigh(tuple(parts), 10)


def test_the_example_weighs_and_balances() -> None:
    """664 + 374 + 211 = 1,250, and a tenth: 1,375 lb; the centre of gravity 5.3 ft up."""
    assert example().pounds == pytest.approx(1375, abs=2)
    assert example().up / 12 == pytest.approx(5.3, abs=0.02)


@pytest.mark.parametrize(("feet", "force"), [(12, 610), (9, 815)])
def test_the_example_at_the_first_lift(feet: int, force: float) -> None:
    """1,375 x 5.3 / 12 = 607; / 9 = 810: the example's figures to 1 %."""
    assert lift.first_lift(example(), 0.0, feet * 12) == pytest.approx(force, rel=0.01)


def test_the_example_needs_people() -> None:
    """610 lb: at 51 lb 11.96, twelve people; at 35 lb 17.4, eighteen."""
    assert (lift.hands(610, lift.IDEAL), lift.hands(610, lift.REALISTIC)) == (12, 18)


@pytest.mark.parametrize(("mph", "push"), [(20, 270), (25, 420)])
def test_the_example_in_the_wind(mph: int, push: float) -> None:
    """146 ft2 of open wall (common practice, no source): 0.00256 x 400 x 1.8 x 146 = 269; x 625 = 420."""
    assert lift.wind(mph, 146) == pytest.approx(push, abs=1)


# --- forces ---------------------------------------------------------------------------------------------------------


def test_the_first_lift_is_a_lever() -> None:
    """100 lb, 40 above a foot at -10 (station 30): held there 100 lb, twice as far 50."""
    weight = Weight(100, 0, 30)
    assert lift.first_lift(weight, -10, 40) == pytest.approx(100)
    assert lift.first_lift(weight, -10, 80) == pytest.approx(50)


@pytest.mark.parametrize("hold", [0.0, -5.0, float("nan")])
def test_nothing_is_lifted_by_its_foot(hold: float) -> None:
    with pytest.raises(ValueError, match="by its foot"):
        lift.first_lift(Weight(100, 0, 30), 0, hold)


@pytest.mark.parametrize("hold", [60.0, 72.0, 80.0, 101.0, 102.0, 130.0, 200.0])
def test_walking_up_is_hardest_where_every_angle_says(hold: float) -> None:
    """Moments at each angle from where hands reach 72 in: push x 72 / sin = weight x arm x cos."""
    start = math.asin(min(72 / hold, 1.0))
    angles = [start + (math.pi / 2 - start) * i / 5000 for i in range(5001)]
    worst = max(1000 * 60 * math.cos(a) * math.sin(a) / 72 for a in angles)
    assert lift.walking(Weight(1000, 0, 60), 0, hold) == pytest.approx(worst, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(
    ("force", "each", "people"), [(102, 51, 2), (102.1, 51, 3), (1, 51, 1), (0, 51, 1), (210, 35, 6)]
)
def test_hands(force: float, each: float, people: int) -> None:
    assert lift.hands(force, each) == people


def test_people_are_for_the_harder_of_lifting_and_walking() -> None:
    """Held at the top the first lift is light, and walking it up is not."""
    found = lifted(read(), "A", Settings(hold=None))
    assert found.later > found.force
    assert found.realistic == math.ceil(found.later / 35)
    near = lifted(read(), "A", Settings(hold=96))
    assert near.force > near.later
    assert near.ideal == math.ceil(near.force / 51)


def test_the_hold_is_the_top_of_the_lowest_column_or_what_is_asked_for() -> None:
    """Long point of the made sidewall columns in BASE: 144 + 9.25 + 5.5 sqrt(1 + 1/9) + 5.5 / 3, bottoms 2 below."""
    top = 144 + 9.25 + 5.5 * math.sqrt(1 + 1 / 9) + 5.5 / 3
    found = lifted(read(), "A", Settings(hold=None))
    assert found.hold == pytest.approx(top + 2)
    assert found.height == pytest.approx(top + 2)
    assert found.zone == pytest.approx(top + 2 + 48)
    assert lifted(read(), "A", Settings(hold=100)).hold == 100
    assert lifted(read(), "A", Settings(hold=1000)).hold == pytest.approx(top + 2)


# --- hands or machine -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("people", "machine"), [(6, ("people",)), (60, ())])
def test_too_many_people_is_a_machine_lift(people: int, machine: tuple[str, ...]) -> None:
    found = lifted(read(), "A", Settings(people=people))
    assert found.machine == machine
    assert found.restrained is (not machine)  # 13 ft by hand: restraints at the foot


@pytest.mark.parametrize(("bearing", "machine"), [("16'-2", ()), ("16'-10", ("height",))])
def test_eighteen_feet_is_a_machine_lift(bearing: str, machine: tuple[str, ...]) -> None:
    """BASE is 16.88 in over the bearing and 2 below the grade line: 16'-2 makes 17'-8 7/8, 16'-10 makes 18'-4 7/8."""
    found = lifted(read({"truss.bearing": bearing}), "A", Settings(people=90))
    assert (found.height >= 18 * 12) is bool(machine)
    assert found.machine == machine


@pytest.mark.parametrize(("bearing", "restrained"), [("8'", False), ("8'-8", True)])
def test_ten_feet_by_hand_needs_restraints(bearing: str, restrained: bool) -> None:
    """96 + 16.88 + 2 = 114.9; 104 + 18.88 = 122.9."""
    found = lifted(read({"truss.bearing": bearing}), "A", Settings(people=90))
    assert (found.height >= 120) is restrained
    assert (found.restrained, found.machine) == (restrained, ())


# --- picks ----------------------------------------------------------------------------------------------------------


def test_equal_bending_is_where_statics_puts_it() -> None:
    """An even beam q over L on two supports a from the ends: q a^2 / 2 over them, q (L - 2a)^2 / 8 - q a^2 / 2
    between."""
    a = lift.EQUAL_BENDING
    assert a**2 / 2 == pytest.approx((1 - 2 * a) ** 2 / 8 - a**2 / 2, abs=1e-4)


def test_an_even_wall_is_picked_a_fifth_from_its_ends() -> None:
    """48 ft: .207 is 9'-11", nearest to the columns at 7'-10 1/2" from each end."""
    found = lifted(read(), "A")
    assert found.picks is not None
    assert [p.name for p in found.picks] == ["A6", "A2"]
    assert [p.pounds for p in found.picks] == [pytest.approx(found.wet.pounds / 2)] * 2


@pytest.mark.parametrize(("along", "names"), [(150.0, ["A7", "A4"]), (420.0, ["A4", "A1"])])
def test_picks_follow_the_centre_of_gravity(along: float, names: list[str]) -> None:
    """Columns every 96 from 94.5: wanted are 167 each way of the centre of gravity; 573 x .586 / 2 = 168."""
    building = read()
    wall = building.walls[0]
    found = lift.picks(wall, Weight(1000, along, 60))
    assert found is not None
    first, second = found
    assert [first.name, second.name] == names
    assert first.pounds * (along - first.along) == pytest.approx(second.pounds * (second.along - along))


@given(buildings())
def test_picks_carry_the_wall_level(building: Building) -> None:
    """Sum of loads and of moments; slings above the centre of gravity; no pair of columns nearer to what is wanted."""
    for wall in building.walls:
        found = lifted(building, wall.name)
        if found.picks is None:
            assert len(bodies.own(wall)) < 3
            continue
        a, b = found.picks
        assert a.along < found.wet.along < b.along
        assert a.pounds + b.pounds == pytest.approx(found.wet.pounds)
        assert a.pounds * (found.wet.along - a.along) == pytest.approx(b.pounds * (b.along - found.wet.along))
        for pick in (a, b):
            stand = next(s for s in wall.stands if s.name == pick.name)
            assert bodies.bottom(wall, stand) + pick.low >= found.wet.up - 1e-9
            assert pick.low < pick.high


@pytest.mark.parametrize("along", [1.0, 572.0])
def test_no_picks_where_all_columns_are_to_one_side(along: float) -> None:
    assert lift.picks(read().walls[0], Weight(1000, along, 60)) is None


def test_no_picks_below_the_centre_of_gravity() -> None:
    """Columns of 162.88 in: slings 108.6 to 122.2 from the bottom, which is 2 below the grade line; a centre of
    gravity 115 above it is 117 from the bottom."""
    wall = read().walls[0]
    for up, low in ((60, 108.59), (115, 117)):
        found = lift.picks(wall, Weight(1000, 286, up))
        assert found is not None
        assert [p.low for p in found] == [pytest.approx(low, abs=0.01)] * 2
        assert [p.high for p in found] == [pytest.approx(122.16, abs=0.01)] * 2
    assert lift.picks(wall, Weight(1000, 286, 130)) is None


def bare() -> Building:
    """A building whose endwalls have no column of their own."""
    return read({"building.width": "16'", "building.front_columns": [], "building.back_columns": []})


def test_an_endwall_without_columns_is_boards_alone() -> None:
    found = lifted(bare(), "1")
    assert found.picks is None
    assert found.lowest == ""
    assert found.foot == 0.0  # the grade board's bottom edge
    assert found.ends == (("", -1.5), ("", 16 * 12 - 1.5))  # boards run past the columns by a girt


# --- how it lies ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("where", ["inside", "outside"])
@pytest.mark.parametrize("side", ["A", "7", "G", "1"])
def test_which_face_is_up_and_which_end_is_left(where: Face, side: str) -> None:
    """Inside of the footprint the outside is up, and the ends are as seen from outside; outside it is turned over."""
    building = read()
    wall = next(w for w in building.walls if w.name == side)
    first, last = wall.line.columns[0], wall.line.columns[-1]
    found = lift.lie(wall, where)
    assert found.up == ("outside" if where == "inside" else "inside")
    assert (found.left, found.right) == ((first, last) if where == "inside" else (last, first))
    assert found.mirrored is (where == "outside")
    assert found.theirs == ((first, last) if wall.line.gable else ())


@pytest.mark.parametrize("where", ["inside", "outside"])
@given(buildings())
def test_the_arrow_points_from_the_foot_to_the_top(where: Face, building: Building) -> None:
    """And a man who stands at the foot and looks along it has the left column on his left: plan axes are u right and v
    up as seen from above (front wall below), so left is a quarter turn against the clock."""
    middle = building.plan.across / 2, building.plan.along / 2
    for wall in building.walls:
        found = lift.lie(wall, where)
        spots = [building.plan.spot(n) for n in wall.line.columns]
        centres = {s.name: ((s.u0 + s.u1) / 2, (s.v0 + s.v1) / 2) for s in spots}
        (lu, lv), (ru, rv) = centres[found.left], centres[found.right]
        inward = middle[0] - (lu + ru) / 2, middle[1] - (lv + rv) / 2
        along = found.toward[0] * inward[0] + found.toward[1] * inward[1]
        assert (along > 0) is (where == "inside")
        # z of toward x (left - right): positive where left is to the left
        assert found.toward[0] * (lv - rv) - found.toward[1] * (lu - ru) > 0
