"""The X on a rod says on which side of its line the board lies: it stands on that side of its own line and beside no
other mark's line, however close marks stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import boxes
import pytest
from boxes import Box
from effort import examples
from hypothesis import given, settings
from hypothesis import strategies as st
from test_flags import GIRTS, INCH, clusters, lay, rod_of, sill

from layouts.lengths import Style
from layouts.rods import Mark, Rod
from sheets import rod as rods
from sheets.crosses import astray, sized
from sheets.flags import label_all
from sheets.labels import Label
from sheets.lanes import Lane
from sheets.paper import PAPERS
from sheets.shapes import Group, Line, Recorder
from sheets.strip import HEIGHT, draw_lane

PAD = 0.07  # an X is no farther from its own line


def drawn(laid: rods.Laid, style: Style = INCH) -> Iterator[dict[str, tuple[Mark, Group]]]:
    """Of every lane the drawn marks by name; its set line at 1, its lower edge at 1."""
    known = {mark.name: mark for mark in laid.rod.marks}
    for lane in laid.lanes:
        pen = Recorder(20, HEIGHT + 2)
        draw_lane(pen, 1, 1, laid.rod, lane, len(laid.lanes), laid.labels, style)
        found = {}
        for group in boxes.groups(pen.drawing().shapes, holds="-mark-"):
            name = group.name.partition("-mark-")[2]
            mark = next(m for m in known.values() if m.name.lower().replace(" ", "-") == name)
            found[mark.name] = (mark, group)
        yield found


def cross(group: Group) -> Box | None:
    """The X of a mark: two slanted strokes with the same ends, one rising and one falling."""
    slanted = [s for s in boxes.lines(group.shapes) if s.x0 != s.x1 and s.y0 != s.y1]
    for a in slanted:
        for b in slanted:
            if (a.x0, a.x1, a.y0, a.y1) == (b.x0, b.x1, b.y1, b.y0) and a is not b:
                return Box(min(a.x0, a.x1), min(a.y0, a.y1), max(a.x0, a.x1), max(a.y0, a.y1))
    return None


def upright(group: Group) -> list[Line]:
    return [s for s in boxes.lines(group.shapes) if s.x0 == s.x1]


def strays(lane: dict[str, tuple[Mark, Group]]) -> list[str]:
    """Every X that is not beside its own line, from end to end, or that is as near to another mark's line."""
    found = []
    for name, (mark, group) in lane.items():
        x = cross(group)
        if mark.kind != "board":
            found += [f"{name} has an X"] * (x is not None)
            continue
        assert x is not None, name
        own = upright(group)[0].x0
        off = x.x0 - own if mark.edge == "bottom" else own - x.x1
        if not 0 < off <= PAD + 1e-9:
            found.append(f"{name}: X {off:.3f} from its line")
        if not any(s.x0 == own and min(s.y0, s.y1) <= x.y0 and x.y1 <= max(s.y0, s.y1) for s in upright(group)):
            found.append(f"{name}: no line beside its X")
        if x.x1 - x.x0 < 0.06:
            found.append(f"{name}: X {x.x1 - x.x0:.3f} large")
        found += _others(name, own, x, lane)
    return found


def _others(name: str, own: float, x: Box, lane: dict[str, tuple[Mark, Group]]) -> Iterator[str]:
    """Lines and Xs of other marks at the height of an X, on its side of its line, nearer than twice its own."""
    low, high = (own + 1e-6, x.x1 + 2 * PAD) if x.x0 > own else (x.x0 - 2 * PAD, own - 1e-6)
    for other, (_, group) in lane.items():
        lines = [s for s in upright(group) if min(s.y0, s.y1) < x.y1 and x.y0 < max(s.y0, s.y1)]
        if other != name and any(low < s.x0 < high for s in lines):
            yield f"{name}: line of {other} beside its X"
        its = cross(group) if other != name else None
        if its and its != x and its.shares(x):
            yield f"{name}: X of {other} in its X"


def of(marks: Sequence[Mark], paper: str = "letter") -> list[dict[str, tuple[Mark, Group]]]:
    laid = lay(rod_of(marks), INCH, paper)
    assert not isinstance(laid, str), laid
    return list(drawn(laid))


def test_the_x_of_a_sill_a_quarter_inch_under_another_is_not_across_its_line() -> None:
    """Sills at 34 and 34 1/4. An X of 0.42 in beside words lies from 34.07 to 34.49, across the line at 34 1/4; one of
    0.17 beside a flag from 34.03 to 34.20, 0.05 from that line. So it stands over the end of the shorter line."""
    (lane,) = (lane for lane in of([sill(1, 34), sill(2, 34.25)]) if "Sill W1" in lane)
    first, second = (lane[f"Sill W{i}"][1] for i in (1, 2))
    x, its = cross(first), cross(second)
    assert x
    assert its
    line, other = upright(first)[0].x0, upright(second)[0].x0
    assert other - line == pytest.approx(0.25)
    assert (x.x0 - line, x.x1 - line) == pytest.approx((0.03, 0.20))
    assert (its.x0 - other, its.x1 - other) == pytest.approx((0.03, 0.20))
    # up to the tape's band, which is a piece of its own
    assert x.y0 > max(max(s.y0, s.y1) for s in upright(second) if min(s.y0, s.y1) < x.y1)


def test_an_x_beside_words_is_nearer_to_its_own_line_than_to_the_next() -> None:
    """Sills at 34 and 34.6, words to either side: 0.6 - 0.07 - 0.2 = 0.33 of the 0.42 in are left for the first X. At
    0.59, 15 mm, 0.32 are; under 0.44 there is less than 0.17 and the words are flags."""
    lane = Lane(4, 30.0, 39.0, False)

    def large(apart: float) -> float:
        marks = sill(1, 34), sill(2, 34 + apart)
        labels = [Label(mark, at, at, 1.0) for mark, at in zip(marks, (31.0, 36.0), strict=True)]
        assert astray(labels[0], labels[1]) == (apart < 0.44)
        return sized(labels, lane)[0].cross

    assert [large(apart) for apart in (0.6, 0.59, 0.45, 0.7)] == pytest.approx([0.33, 0.32, 0.18, 0.42])
    large(0.43)


@pytest.mark.parametrize("edge", ["bottom", "top"])
def test_no_x_stands_beside_a_set_line(edge: str) -> None:
    """A mark half an inch from a set line: an X of 0.42 in would end 0.5 - 0.07 - 0.42 = 0.01 from it, and be nearer to
    it than to its own. It is 0.5 - 0.07 - 0.2 = 0.23 in large."""
    at = 20.5 if edge == "top" else 26.5
    mark = Mark("Girt 1", "board", at, *((at - 3.5, at) if edge == "top" else (at, at + 3.5)), edge, "2x4")  # type: ignore[arg-type]
    rod = Rod("Sidewall rod", ("A",), False, (mark,), 60.0)
    pen = Recorder(20, HEIGHT + 2)
    lane = Lane(3, 20.0, 27.0, False)
    draw_lane(pen, 1, 1, rod, lane, 7, label_all(rod, INCH, 60.0), INCH)
    (group,) = boxes.groups(pen.drawing().shapes, holds="-mark-")
    x = cross(group)
    assert x
    assert x.x1 - x.x0 == pytest.approx(0.23)
    assert (x.x0 - 1.0 if edge == "top" else 8.0 - x.x1) == pytest.approx(0.2)


def test_an_x_is_beside_no_dashed_edge_of_another_board() -> None:
    """A sill from 30 to 35 1/2 has its dashed upper edge in the X of the sill at 35, 35.07 to 35.49 or less: it is
    drawn no higher than the hatched board there."""
    marks = [sill(1, 30), sill(2, 35)]
    laid = rods.lay(rod_of(marks), INCH, PAPERS["letter"].turned().body)
    for lane in laid.lanes:
        pen = Recorder(20, HEIGHT + 2)
        draw_lane(pen, 1, 1, laid.rod, lane, len(laid.lanes), laid.labels, INCH)
        shapes = pen.drawing().shapes
        xs = [x for g in boxes.groups(shapes, holds="-mark-") if (x := cross(g))]
        dashed = [s for s in boxes.lines(shapes) if s.dash == (0.06, 0.05)]
        assert not [s for s in dashed for x in xs if x.x0 < s.x0 < x.x1 and max(s.y0, s.y1) > x.y0]


@pytest.mark.parametrize("edge", ["bottom", "top"])
@pytest.mark.parametrize("apart", [1 / 16, 1 / 8, 1 / 4, 3 / 8, 5 / 8, 1.0])
@pytest.mark.parametrize("count", [2, 3, 4, 6])
def test_close_sills_have_each_its_own_x(count: int, apart: float, edge: str) -> None:
    found = of([sill(i, 34 + i * apart, 5.5, edge) for i in range(count)])  # type: ignore[arg-type]
    assert [fault for lane in found for fault in strays(lane)] == []


def test_a_cut_beside_a_sill_has_no_x() -> None:
    """An X between the sill's line at 34 and the cut at 34 1/4 would be taken for waste beside the cut."""
    cut = Mark("SHORT POINT", "cut", 34.25, 34.25, 34.25, "line", where="outside face")
    assert [fault for lane in of([sill(1, 34), cut]) for fault in strays(lane)] == []


@pytest.mark.parametrize("off", [1 / 8, 1 / 2, 1.5, 2.0])
def test_rows_inside_beside_rows_outside_have_each_its_own_x(off: float) -> None:
    inside = [
        Mark(f"Girt inside {i}", "board", m.low + off, m.low + off, m.high + off, "bottom", "2x4")
        for i, m in enumerate(GIRTS)
    ]
    assert [fault for lane in of(inside) for fault in strays(lane)] == []


@settings(max_examples=examples(40))
@given(clusters(), st.sampled_from(["letter", "a4"]), st.sampled_from([INCH, Style("mm")]))
def test_any_x_is_beside_its_own_line_alone(rod: Rod, paper: str, style: Style) -> None:
    laid = lay(rod, style, paper)
    if not isinstance(laid, str):
        assert [fault for lane in drawn(laid, style) for fault in strays(lane)] == []


def test_two_rows_on_one_line_have_one_x() -> None:
    """A girt at 24 and two rows inside whose top edges are at 24 11/16: both Xs stand below that line, at one place or
    at two heights, never one in the other."""
    inside = [Mark(f"Girt inside {i}", "board", 24.6875, 19.1875, 24.6875, "top", "2x6") for i in (1, 2)]
    assert [fault for lane in of(inside) for fault in strays(lane)] == []
