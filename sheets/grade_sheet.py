"""The grade sheet: what was read, how good it is, and what was decided from it.

In the order it is asked for on the site: the line, what is to be done first, the profile, every reading, how the rounds
close, what other lines would cost, the sum from a seat to the eave, and what goes under or into columns made to fit.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fonts import BOLD, REGULAR
from layouts.building import Building
from layouts.columns import Column
from layouts.lengths import Style, show
from layouts.readings import taken
from layouts.roof import Sum
from layouts.sums import on_wall
from sheets import grade_choice, grade_rounds, profile_drawing
from sheets.frame import Body
from sheets.grade_rounds import Written
from sheets.index import step_row
from sheets.lettering import Align, pt, width
from sheets.paper import Paper
from sheets.profile_drawing import flags
from sheets.roof_words import named
from sheets.tables import Column as Part
from sheets.tables import Flow

LEFT: Align = "left"
RIGHT: Align = "right"
SIZE = pt(10.5)
LEAST = 0.86  # a table that is too wide is set so much smaller at the most
REST = 2.0  # inches of it for what is to be done first and for notes
INTRO = 1.6  # inches that head and words of the profile take up
MANY = 9  # lines of warnings that stand before the profile; more follow it


def pages(building: Building, paper: Paper) -> list[Body]:
    """The grade sheet; none where nothing was read."""
    if not building.grade.offsets:
        return []
    flow = Flow("grade", "Grade sheet", paper)
    _line(flow, building)
    later = _warnings(flow, building)
    _profile(flow, building)
    if later:
        flow.boxed("SEAT BY SEAT, BEFORE ANY COLUMN IS CUT", later)
    _table(flow, building)
    grade_rounds.add(flow, building)
    grade_choice.add(flow, building)
    _stack_up(flow, building)
    _made(flow, building)
    return flow.bodies()


def _line(flow: Flow, building: Building) -> None:
    """The line reading large, why, and how offsets and words are meant."""
    grade, style, readings = building.grade, building.job.style, building.readings
    line = grade.line or 0.0
    flow.heading(f"LINE READING {taken(readings, line, style)}", pt(40))
    flow.gap(0.06)
    flow.para(grade.why, pt(12))
    less = "line reading less reading" if readings.up else "reading less line reading"
    above = "a seat"
    if packing(building):
        above, less = "a column's bottom end", f"{less}, less the packing under it"
    flow.para(
        f"The grade line is the bottom edge of the grade board. An offset is how far it stands above {above}: {less}. "
        f"HIGH and LOW are told against {grade.reference}."
    )
    if grade.floor is not None:
        wanted = taken(readings, grade.floor, style)
        flow.para(f"On the finished floor wanted, from {building.job.grade.benchmark}, the rod would read {wanted}.")
    flow.gap()


def packing(building: Building) -> dict[str, float]:
    """What columns stand on between their seats and their bottom ends, inches, by name."""
    return {c.name: c.fit.packing for c in building.columns if c.fit.packing}


def _warnings(flow: Flow, building: Building) -> list[str]:
    """What has to be done before columns are cut. Many seats are told together; then each seat's own lines are given
    back, to follow the profile."""
    lines = of_grade(building)
    if len(lines) <= MANY:
        flow.boxed("BEFORE ANY COLUMN IS CUT" if lines else "NOTHING TO SHOOT AGAIN, NO PIER OUT OF TOLERANCE", lines)
        return []
    seats = [w for w in lines if w.partition(":")[0] in building.grade.offsets]
    short = [w for w in lines if w not in seats]
    order = tuple(building.grade.offsets)
    again = tuple(building.grade.again)
    if again:
        short.append(f"SHOOT AGAIN before cutting ({len(again)}): {grade_choice.runs(again, order)}.")
    # untreated ends are not the line's to mend, and no line is weighed by them
    out = tuple(dict.fromkeys(p.name for p in building.piers if p.kind != "end"))
    if out:
        short.append(f"PIERS OUT OF TOLERANCE ({len(out)}): {grade_choice.runs(out, order)}.")
    ends = tuple(p.name for p in building.piers if p.kind == "end")
    if ends:
        short.append(f"UNTREATED ENDS TOO NEAR THE FLOOR ({len(ends)}): {grade_choice.runs(ends, order)}.")
    asked = tuple(dict.fromkeys(p.name for p in building.piers if p.engineer))
    if asked:
        short.append(f"ASK THE ENGINEER FIRST about {grade_choice.runs(asked, order)}.")
    flow.boxed(
        "BEFORE ANY COLUMN IS CUT", [*short, "Why, and what can be done, stands seat by seat after the profile."]
    )
    return seats


def of_grade(building: Building) -> list[str]:
    """The building's warnings that come of the readings."""
    return [one.text for one in building.warned if one.read]


def _profile(flow: Flow, building: Building) -> None:
    """The walk round the building with every seat."""
    area = flow.area
    picture = profile_drawing.picture(building, area.width, area.height, flow.y - area.y0 - INTRO)
    flow.heading("PROFILE ROUND THE BUILDING", keep=picture.strips[0].height + INTRO - 0.3)
    flow.para(picture.words, bold=True)
    flow.para(
        "Left to right is walking order, clockwise as seen from above, the building at your right hand: walls are seen "
        "as from INSIDE. Triangle: shoot again. Diamond: stands out. Crossed box: out of tolerance."
    )
    flow.para(_extremes(building))
    for strip in picture.strips:
        flow.gap(profile_drawing.GAP)
        flow.draw(strip)
    flow.gap()


def _extremes(building: Building) -> str:
    """The highest and the lowest seat in words."""
    offsets, style = building.grade.offsets, building.job.style
    found = zip(("highest", "lowest"), profile_drawing.extremes(building), strict=True)
    said = [
        f"{what} seat{'s' if len(names) > 1 else ''} {', '.join(names)}, {below(offsets[names[0]], style)}"
        for what, names in found
        if names
    ]
    text = "; ".join(said) or f"all seats alike, {below(next(iter(offsets.values())), style)}"
    return f"{text[0].upper()}{text[1:]}."


def below(offset: float, style: Style) -> str:
    """Where a seat stands to the grade line."""
    how = "ABOVE the grade line" if offset < 0 else "below the grade line"
    return f"{show(abs(offset), style)} {how}"


# --- readings -------------------------------------------------------------------------------------------------------


def _table(flow: Flow, building: Building) -> None:
    """Every column in walking order, and benchmarks: readings as they were written, what was taken, offset, words."""
    flow.heading("READINGS AND OFFSETS", keep=1.4)
    for line in grade_rounds.how(building):
        flow.para(line)
    written = Written(building)
    rows = [[*_row(building, s.name, written)] for s in building.plan.spots]
    rows += [_benchmark(building, name, written) for name in building.readings.benchmarks]
    heads = [("column", BOLD), *((h, REGULAR) for h in written.heads), ("taken", REGULAR)]
    heads += [*([("packing", REGULAR)] if packing(building) else []), ("offset", BOLD)]
    heads += [(f"against {building.grade.reference}", REGULAR)]
    sizes = [_wide([head, *(row[i] for row in rows)], cut) for i, (head, cut) in enumerate(heads)]
    size = max(LEAST, min(1.0, (flow.area.width - REST) / sum(sizes))) * SIZE
    rest = max(flow.area.width - sum(sizes), REST)
    parts = [
        Part(head, wide, RIGHT if head in ("taken", "packing", "offset") else LEFT, cut == BOLD)
        for (head, cut), wide in zip(heads, sizes, strict=True)
    ]
    flow.table([*parts, Part("do first", rest * 0.58, bold=True), Part("note", rest * 0.42)], rows, size)


def _wide(texts: Sequence[str], cut: str) -> float:
    """What a column of the table takes so that none of its lines is broken."""
    return max(width(line, SIZE, cut) for text in texts for line in text.split("\n")) + 0.14


def _row(building: Building, name: str, written: Written) -> Iterator[str]:
    """A line of the table."""
    grade, style, packed = building.grade, building.job.style, packing(building)
    yield name
    yield from written.cells(name)
    if name in grade.unread:
        yield from (*[""] * bool(packed), "", "", "", "NOT READ", building.readings.notes.get(name, ""))
        return
    yield taken(building.readings, building.readings.values[name], style)
    if packed:
        yield show(packed[name], style) if name in packed else ""
    yield show(grade.offsets[name] - packed.get(name, 0.0), style)
    yield high_low(building, name)
    yield "; ".join(flags(building, name))
    yield building.readings.notes.get(name, "")


def high_low(building: Building, name: str) -> str:
    """High or low against the reference, in short."""
    by = show(abs(building.grade.lower[name]), building.job.style)
    if name == building.grade.reference:
        return "REFERENCE"
    if by == show(0.0, building.job.style):
        return "LEVEL"
    return f"LOW {by}" if building.grade.lower[name] > 0 else f"HIGH {by}"


def _benchmark(building: Building, name: str, written: Written) -> list[str]:
    readings, style = building.readings, building.job.style
    value = readings.benchmarks[name]
    where = readings.survey.book.head.benchmarks.get(name, "") if readings.survey else ""
    stands = below(value - (building.grade.line or 0.0), style)
    blank = [""] * (2 if packing(building) else 1)
    return [name, *written.cells(name), taken(readings, value, style), *blank, "BENCHMARK", stands, where]


# --- heights --------------------------------------------------------------------------------------------------------


def _stack_up(flow: Flow, building: Building) -> None:
    """The sum from one seat up to the eave line."""
    name = stacked(building)
    spot, roof = building.plan.spot(name), building.roof
    eave = roof.left if spot.role == "end" else roof.at(spot.sidewall)
    total = eave.sums[0]  # that of its eave line comes first
    _sum(flow, building, name, total if roof.plain else on_wall(total, eave.side))


def stacked(building: Building) -> str:
    """The column whose sum is printed: the reference, or the highest seat under the eaves where that is no column
    under them."""
    sides = {s.name for s in building.plan.spots if s.role != "end"}
    offsets = {n: v for n, v in building.grade.offsets.items() if n in sides} or building.grade.offsets
    reference = building.grade.reference
    return reference if reference in offsets else min(offsets, key=lambda n: (offsets[n], n))


def _sum(flow: Flow, building: Building, name: str, total: Sum) -> None:
    style, offset, packed = building.job.style, building.grade.offsets[name], packing(building).get(name, 0.0)
    end, own = f"bottom end of {name}" if packed else f"seat of {name}", offset - packed
    first = f"{end} up to the grade line (its offset)"
    if own < 0:
        first = f"less the {end} down to the grade line"
    rows = [[f"packing on the seat of {name}", show(packed, style)]] if packed else []
    rows.append([first, show(own, style) if own >= 0 else f"– {show(-own, style)}"])
    rows += [step_row(step, style) for step in total.steps]
    rows.append([f"SUM, from the seat of {name} to the eave line", show(offset + total.total, style)])
    rows.append(["the eave line above the grade line", show(total.total, style)])
    flow.heading(f"FROM THE SEAT OF {name} TO THE EAVE LINE", keep=0.25 * len(rows) + 0.6)
    flow.para(f"{named(total, building)}. Added exactly, rounded once.")
    flow.table([Part("", 4), Part("", 1.4, "right", True)], rows, SIZE)


# --- columns made to fit --------------------------------------------------------------------------------------------


def _made(flow: Flow, building: Building) -> None:
    """What is cut off below, packed under and set into columns whose tops come made or whose centre ply is short."""
    found = [c for c in building.columns if c.fit.made or c.fit.seat_block]
    if not found:
        return
    style = building.job.style
    flow.heading("COLUMNS MADE TO FIT", keep=1.4)
    flow.para("Blank: nothing there. The seat block goes on the centre ply and carries the truss at the bearing.")
    parts = [
        Part("column", 1, bold=True),
        Part("cut off its bottom", 1.6, "right", True),
        Part("packing or block under it", 1.8, "right", True),
        Part("seat block", 1.4, "right", True),
        Part("offset", 1.5, "right"),
    ]
    flow.table(parts, [_fitted(c, style) for c in found], SIZE)


def _fitted(column: Column, style: Style) -> list[str]:
    fit = column.fit
    sizes = [show(v, style) if abs(v) > 1e-9 else "" for v in (fit.cut_off, fit.packing, fit.seat_block)]
    return [column.name, *sizes, show(column.offset, style)]
