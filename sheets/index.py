"""The index: job, sizes, sums, the grade line, warnings first, cautions, the plan, and every sheet with its stamp."""

from __future__ import annotations

from collections.abc import Sequence

from layouts.building import Building
from layouts.lengths import Style, show
from layouts.roof import Step, Sum
from sheets import cautions, rod_error
from sheets.frame import SECTIONS, Body
from sheets.lettering import pt
from sheets.paper import Paper
from sheets.plan import plan_drawing
from sheets.profile import UNMEASURED, Profile
from sheets.rod import lay_all
from sheets.roof_words import described, named
from sheets.strip import title
from sheets.tables import Column, Flow


def pages(
    building: Building,
    paper: Paper,
    sheets: Sequence[tuple[str, str, str]],
    profile: Profile = UNMEASURED,
    rods: Paper | None = None,
) -> list[Body]:
    """The index; *sheets* are (title, page, stamp) of all others, *profile* is the printer's, *rods* the paper that
    rods are printed on if it is another."""
    flow = Flow("index", "Index", paper)
    job = building.job.job
    flow.heading(job.name, pt(26))
    flow.para("  ·  ".join(w for w in (job.place, job.crew, job.date) if w) or "Packet of rodwright", pt(12))
    flow.gap()
    warnings = building.warnings or ("None.",)
    flow.boxed("WARNINGS", [f"{i}. {text}" for i, text in enumerate(warnings, 1)] if building.warnings else warnings)
    _sizes(flow, building)
    flow.draw(plan_drawing(building))
    flow.gap()
    for total in building.roof.sums:
        _sum(flow, building, total)
    _grade(flow, building, sheets)
    _rods(flow, building, rods or paper, profile)
    flow.boxed("CAUTION", cautions.of_job(building.job.style), pt(10))
    flow.boxed("TAKEN FOR GRANTED", cautions.assumed(building.job.style, building.readings.head), pt(10))
    flow.heading("SHEETS IN THIS PACKET", keep=1.4)
    flow.para("Same content, same stamp: a sheet whose stamp is not on this list is out of date.", pt(10))
    columns = [Column("what", 5), Column("page", 1, "right"), Column("stamp", 1.4, "right", True)]
    flow.table(columns, [list(s) for s in sheets], pt(10.5))
    return flow.bodies()


def _rods(flow: Flow, building: Building, paper: Paper, profile: Profile) -> None:
    """How the rods lie on this paper, and how true they can be."""
    style = building.job.style
    laid = lay_all(building, paper)
    flow.heading("RODS", keep=1.2)
    for one in laid:
        lanes = f"{len(one.lanes)} lane{'s' if len(one.lanes) > 1 else ''}"
        pages = f"{one.pages} page{'s' if one.pages > 1 else ''}"
        flow.para(f"{title(one.rod)}: {lanes} on {pages}; {paper.name} allows no fewer than {one.least}.", pt(10.5))
    longest = max(lane.end - lane.start for one in laid for lane in one.lanes)
    most = max(len(one.lanes) for one in laid)
    for line in rod_error.lines(longest, most, profile, style):
        flow.para(line, pt(10.5))
    if profile.date:
        flow.para(f"Printer: {profile.words(style.unit == 'mm')}.", pt(10.5))
    flow.gap()


def _sizes(flow: Flow, building: Building) -> None:
    style, plan = building.job.style, building.plan
    line = building.job.building_line
    rows = [
        [
            f"Building line, outside of {line}",
            f"{show(plan.width, style)} x {show(plan.length, style)}",
            f"building diagonal {show(plan.building_diagonal, style)}",
        ],
        [
            "Column string lines, outside of columns",
            f"{show(plan.across, style)} x {show(plan.along, style)}",
            f"COLUMN diagonal {show(plan.column_diagonal, style)}",
        ],
    ]
    rows.append(["Roof", *described(building)])
    flow.heading("SIZES AND STRING LINES")
    flow.para("Square the columns with the COLUMN diagonal; both of its directions must measure the same.", pt(10.5))
    flow.table([Column("", 3), Column("", 2.4, "left", True), Column("", 3, "left", True)], rows)


def _sum(flow: Flow, building: Building, total: Sum) -> None:
    style = building.job.style
    rows = [step_row(step, style) for step in total.steps]
    rows.append(["SUM, above the grade line (added exactly, rounded once)", show(total.total, style)])
    if building.job.grade.floor > 0:
        above = total.total - building.job.grade.floor
        rows.append(["above the finished floor", show(above, style)])
    flow.heading(named(total, building).upper(), pt(12), 0.25 * len(rows) + 0.3)
    flow.table([Column("", 4), Column("", 1.4, "right", True)], rows, pt(10.5))


def step_row(step: Step, style: Style) -> list[str]:
    """A line of a sum; what is taken off says so twice, in a word and by its sign."""
    if step.inches < 0:
        return [f"less {step.name}", f"– {show(-step.inches, style)}"]
    return [step.name, show(step.inches, style)]


def _grade(flow: Flow, building: Building, sheets: Sequence[tuple[str, str, str]]) -> None:
    """The line and why; everything that was read stands on the grade sheet."""
    grade = building.grade
    flow.heading("GRADE LINE")
    flow.para(grade.why, pt(10.5))
    if not grade.offsets:
        return
    page = next((page for name, page, _ in sheets if name.startswith(SECTIONS["grade"])), "")
    where = f"{SECTIONS['grade']}, page {page}" if page else SECTIONS["grade"]
    flow.para(
        f"{len(grade.offsets)} of {len(building.plan.spots)} seats read, HIGH and LOW told against {grade.reference}. "
        f"Offsets, profile and what other lines cost: {where}.",
        pt(10.5),
    )
    flow.gap()
