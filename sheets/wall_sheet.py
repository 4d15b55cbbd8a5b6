"""What a wall's picture does not hold, on sheets of its own: its lift, its nails, and where they are too many its
openings, pieces and rows."""

from __future__ import annotations

from collections.abc import Mapping

import fonts
from layouts import nails
from layouts.building import Building
from layouts.lengths import Style, show
from layouts.lift import Lift
from layouts.lift_words import words
from layouts.nail_count import Schedule, Tally, asked, nailing, tallies
from layouts.nails import JOINTS, Joint, Nailing
from layouts.pieces import PieceLine
from layouts.rods import board_mark
from sheets import cautions, openings_drawn
from sheets.boards import board_text, counted
from sheets.cuts import ends
from sheets.frame import Body
from sheets.language import Said
from sheets.lettering import fit, pt, width, write
from sheets.paper import Paper
from sheets.row_names import STRAIGHTEST
from sheets.tables import Column, Flow
from sheets.wall_below import Below, straightest

SIZE, VERDICT = pt(12), pt(34)


def pages(below: Below, paper: Paper) -> list[Body]:
    """The sheets, the lift first."""
    flow = Flow("walls", below.sheet, paper)
    _lift(flow, below)
    _nails(flow, below)
    if not below.told:
        _openings(flow, below)
    if below.overleaf:
        _pieces(flow, below)
        _rows(flow, below)
    return flow.bodies()


def _lift(flow: Flow, below: Below) -> None:
    """What it takes to lift the wall, the verdict largest; and how it lies before."""
    wall, said = below.wall, words(below.lift, below.style)
    flow.heading(said.verdict, VERDICT, 0.5)
    name = f"WALL {wall.name}: ITS LIFT"
    taken = width(said.verdict, VERDICT, fonts.BOLD)
    size = fit(name, pt(20), fonts.BOLD, flow.area.width - taken - 0.3)
    write(flow.pen, flow.area.x1, flow.area.y1 - VERDICT, name, size, fonts.BOLD, "right")
    flow.para(said.lie, pt(12.5), bold=True)
    arrow = f"↑ {said.arrow} ↑"
    flow.para(arrow, pt(15), bold=True, indent=(flow.area.width - width(arrow, pt(15), fonts.BOLD)) / 2)
    flow.gap(0.04)
    flow.boxed("LIFTING A WALL CAN KILL", [*said.lines, *cautions.of_work(below.building.job.style)], pt(10))


# --- nails ----------------------------------------------------------------------------------------------------------


def _nails(flow: Flow, below: Below) -> None:
    """The nails of every joint of this wall: the schedule's; where it has none what is common, marked as a hint."""
    building = below.building
    own = next(w for w in building.walls if w.name == below.wall.name)
    schedule: Schedule = {joint.key: getattr(building.job.nails, joint.key) for joint in JOINTS}
    joints = {joint.key: joint for joint in JOINTS}
    rows = []
    for tally in tallies(building.job, (own,), building.job.lift.treated_up):
        joint = joints[asked(tally)[0]]
        name = f"{joints[tally.joint].name}, each end of a splice" if tally.spliced else joint.name
        given = nailing(schedule, tally)
        rows.append([name, str(tally.count), _given(below, joint, given), _hot(tally)])
    flow.heading(f"WALL {below.wall.name}: NAILS", pt(13), 0.8)
    shares = (2.9, 0.6, 5.3, 1.2)
    heads = ("joint", "here", "nails at each", "treated wood")
    flow.table(
        [Column(h, s, "right" if h == "here" else "left") for h, s in zip(heads, shares, strict=True)], rows, pt(9.5)
    )


def _given(below: Below, joint: Joint, given: Nailing | None) -> str:
    if given is not None:
        return f"{given.count} of {nails.show_nail(given.nail, below.style)}"
    hint = nails.hint(joint, below.style)
    return f"not given. {hint}" if hint else "not given"


def _hot(tally: Tally) -> str:
    """How many of a joint touch treated wood: those nails are to be hot-dip galvanised."""
    if not tally.treated:
        return ""
    return "all: HDG" if tally.treated == tally.count else f"{tally.treated} of them: HDG"


# --- what is overleaf -----------------------------------------------------------------------------------------------


def _openings(flow: Flow, below: Below) -> None:
    flow.heading(f"WALL {below.wall.name}: ITS OPENINGS", keep=0.8)
    corner = below.wall.stands[0].name
    for opening in below.wall.openings:
        text = openings_drawn.line(opening, corner, below.style)
        flow.need(0.6)
        flow.y -= SIZE
        write(flow.pen, flow.area.x0, flow.y, text, fit(text, SIZE, fonts.BOLD, flow.area.width), fonts.BOLD)
        flow.y -= SIZE * 0.32
        parts = openings_drawn.boards(below.wall, opening, below.building.job)
        lines = openings_drawn.packed(parts, pt(11), flow.area.width - 0.2)
        flow.para(Said("\n".join(lines)), pt(11), indent=0.2)
        flow.gap(0.06)


def _pieces(flow: Flow, below: Below) -> None:
    style = below.style
    cut = {line.mark: line for line in below.building.pieces}
    straight = straightest(below.wall)
    flow.heading(f"WALL {below.wall.name}: ITS PIECES")
    flow.table(
        [
            Column("piece", 1, bold=True),
            Column("pieces", 1, "right", True),
            Column("board", 1.8),
            Column("long edge", 1.8, "right", True),
            Column("ends", 5),
        ],
        [
            [
                board.mark,
                str(count),
                board_text(board),
                show(board.length, style),
                _ends(cut[board.mark], style, straight),
            ]
            for board, count in counted(below.wall)
        ],
        pt(13),
    )


def _ends(line: PieceLine, style: Style, straight: Mapping[str, str]) -> str:
    """How the ends are cut, and whether the straightest boards are wanted."""
    return ", ".join(text for text in (ends(line, style), straight.get(line.mark, "")) if text)


def _rows(flow: Flow, below: Below) -> None:
    style, wall = below.style, below.wall
    flow.heading(f"WALL {wall.name}: ITS ROWS, TOP TO BOTTOM", keep=0.8)
    rows = []
    for course in sorted(wall.all_courses, key=lambda c: -c.row.low):
        mark = board_mark(course.row, below.building.job)
        marks = ", ".join(p.mark for p in course.pieces)
        name = f"{course.row.name}, {STRAIGHTEST}" if course.straightest else course.row.name
        rows.append([name, mark.edge, show(mark.station, style), marks])
    flow.table(
        [
            Column("row", 2.2),
            Column("edge", 0.9),
            Column("at", 1.5, "right", True),
            Column("pieces, left to right", 5.5),
        ],
        rows,
        pt(13),
    )


def lift_of(building: Building, name: str) -> Lift:
    """The lift of the wall called *name*."""
    return next(lift for lift in building.lifts if lift.wall == name)
