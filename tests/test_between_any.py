"""Girts between and inside of the columns of any building: pieces and gaps make the wall, mirrored walls are alike."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
import shapely
from hypothesis import given
from jobs import buildings, placed_fields, slope
from test_walls import outline

from layouts.building import Building
from layouts.walls import Piece, Wall

PLACED = buildings(placed_fields())


def clear_of_columns(wall: Wall, pieces: tuple[Piece, ...]) -> bool:
    return all(p.high[1] <= s.left + 1e-6 or p.high[0] >= s.right - 1e-6 for p in pieces for s in wall.stands) and all(
        p.low[1] <= s.left + 1e-6 or p.low[0] >= s.right - 1e-6 for p in pieces for s in wall.stands
    )


@given(PLACED)
def test_pieces_between_their_gaps_and_the_columns_make_the_wall(building: Building) -> None:
    gap = building.job.girts.gap
    for wall in building.walls:
        columns = sum(s.right - s.left for s in wall.stands)
        limit = min(building.roof.chord.over(0), building.roof.bearing)
        for found in wall.courses:
            if found.row.layer != "between":
                continue
            assert clear_of_columns(wall, found.pieces)
            assert not wall.line.gable or building.job.girts.rake or found.row.high > limit or len(found.pieces) > 1
            if wall.line.gable and (found.row.key == "gable girt" or building.job.girts.rake):
                continue
            if wall.line.gable and found.row.high > limit:
                continue
            assert len(found.pieces) == len(wall.stands) - 1
            assert sum(p.length + gap for p in found.pieces) + columns == pytest.approx(wall.line.length)


@given(PLACED)
def test_a_row_of_a_gable_is_what_columns_chord_and_rake_leave_of_it(building: Building) -> None:
    """Against shapely. Between columns a bay is left out where nothing of the upper edge is under the slope."""
    made, across = building.job, building.plan.across
    rake = made.girts.rake.wide * (1 + slope(made) ** 2) ** 0.5 if made.girts.rake else 0.0
    face = building.roof.chord.over(0) - rake
    far, m = 50.0, slope(made)
    roof = [(-far, -far), (across + far, -far), (across + far, face - far * m), (across / 2, face + across / 2 * m)]
    under = shapely.Polygon([*roof, (-far, face - far * m)])
    for wall in (w for w in building.walls if w.line.gable):
        for found in (*wall.courses, *wall.inner):
            got = shapely.union_all([outline(p) for p in found.pieces])
            if found.row.layer == "between":
                bays = [(a.right + made.girts.gap / 2, b.left - made.girts.gap / 2) for a, b in pairwise(wall.stands)]
            else:
                ends = [x for p in found.pieces for x in (*p.low, *p.high)]
                bays = [(min(ends), max(ends))]
            boxes = [shapely.box(a, found.row.low, b, found.row.high).intersection(under) for a, b in bays]
            want = shapely.union_all(
                [b for b in boxes if b.area > 0 and b.bounds[3] > found.row.high - 1e-9 and _top(b)]
            )
            assert got.symmetric_difference(want).area < 1e-4


def _top(shape: shapely.Polygon) -> bool:
    """Whether a shape has an upper edge, not only a corner."""
    high = shape.bounds[3]
    xs = [float(x) for x, y in shape.exterior.coords if y > high - 1e-9]
    return max(xs) - min(xs) > 1e-6


@given(PLACED)
def test_the_two_walls_rows_inside_meet_at_the_corner(building: Building) -> None:
    """Seen from above: the strips of the two walls' rows, and the corner board, fill the corner where the inner faces
    meet, and lie in one another nowhere."""
    made = building.job
    thick = (made.girts.inside if made.girts.place == "both" else made.girts.board).thick
    deep = made.column.depth if made.column.endwall_face == "width" else made.column.width
    starts = {w.line.side: w.inner[0].pieces[0].low[0] for w in building.walls if w.inner}
    assert starts.get("left") == starts.get("right")
    assert starts.get("front") == starts.get("back")
    if not starts:
        assert made.girts.place in ("outside", "between")
        return
    # from the corner at the front: into the building from the sidewall's outer face, and along the sidewall
    end = shapely.box(starts["front"], deep, 200, deep + thick)
    side = shapely.box(made.column.depth, starts["right"], made.column.depth + thick, 200)
    corner = shapely.box(made.column.depth, deep, made.column.depth + thick, deep + thick)
    right = next(w for w in building.walls if w.line.side == "right")
    boards = [u for u in right.uprights if u.name == f"Corner board {right.stands[0].name}"][:1]
    taken = [shapely.box(made.column.depth, u.left, made.column.depth + u.section.thick, u.right) for u in boards]
    assert all(a.intersection(b).area < 1e-9 for a, b in combinations([end, side, *taken], 2))
    assert all(shapely.box(0, 0, made.column.depth, made.column.width).intersection(s).area < 1e-9 for s in (end, side))
    if all(u.right <= deep + 1e-9 for u in boards):
        assert corner.difference(shapely.union_all([end, side])).area < 1e-6
    assert shapely.union_all([end, side, *taken]).geom_type == "Polygon", "they touch along their faces"


@given(PLACED)
def test_rows_inside_run_symmetrically_over_whole_bays(building: Building) -> None:
    for wall in building.walls:
        centres = {s.centre for s in wall.stands[1:-1]}
        for found in wall.inner:
            assert found.row.layer == "inside"
            first, last = found.pieces[0], found.pieces[-1]
            assert first.low[0] == pytest.approx(wall.line.length - last.low[1])
            assert {p.low[1] for p in found.pieces[:-1]} <= centres
            if building.job.girts.place == "both":
                assert found.row.high <= building.roof.bearing + 1e-9


@given(PLACED)
def test_mirrored_walls_have_the_same_pieces(building: Building) -> None:
    """Front and back have like columns only if the job gives them so; sidewalls always do, turned end for end."""
    left, right = ({w.line.side: w for w in building.walls}[side] for side in ("left", "right"))
    for a, b in zip((*left.courses, *left.inner), (*right.courses, *right.inner), strict=True):
        assert a.row == b.row
        if a.row.layer == "between":
            mirrored = [left.line.length - x for p in reversed(a.pieces) for x in reversed(p.low)]
            assert [x for p in b.pieces for x in p.low] == pytest.approx(mirrored)
        assert a.pieces[0].low[0] == b.pieces[0].low[0]
        assert len(a.pieces) == len(b.pieces)
