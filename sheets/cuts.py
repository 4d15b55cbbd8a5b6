"""Cut sheets: columns to order and to cut, every board piece, what to buy, and how each stick is cut."""

from __future__ import annotations

from layouts import nails
from layouts.building import Building
from layouts.bundles import Bundle
from layouts.fields import Job
from layouts.lengths import Style, show
from layouts.lumber import bought_as
from layouts.seats import inner
from layouts.walls import PieceLine
from sheets import sticks
from sheets.frame import Body
from sheets.lettering import pt
from sheets.ordered import left_out, size, top
from sheets.paper import Paper
from sheets.sticks import board_name as board_name
from sheets.tables import Column, Flow

SIZE = pt(14)  # read at the saw


def pages(building: Building, paper: Paper) -> list[Body]:
    """The cut sheets, upright."""
    flow = Flow("cuts", "Cut sheet", paper)
    _order(flow, building)
    _columns(flow, building)
    _blocks(flow, building)
    _pieces(flow, building)
    sticks.draw(flow, building)
    return flow.bodies()


def _order(flow: Flow, building: Building) -> None:
    style = building.job.style
    flow.heading("TO ORDER")
    rows = [_bundle(building.job, bundle) for bundle in building.bundles]
    for order in building.orders:
        rows += [[f"{count}", board_name(order), show(length, style), ""] for length, count in order.sticks]
        rows += [[f"{count}", board_name(order), show(length, style), "spare"] for length, count in order.spare]
    flow.table(
        [
            Column("how many", 1, "right", True),
            Column("what", 4),
            Column("length", 1.6, "right", True),
            Column("", 1.4),
        ],
        rows,
        SIZE,
    )
    _not_ordered(flow, building)
    for order in building.orders:
        flow.para(sticks.said(order, style))
    if building.nails:
        _nails(flow, building)
    flow.gap()


def _not_ordered(flow: Flow, building: Building) -> None:
    """Columns that are to be ordered once they are known, and what is in no list of pieces."""
    for what in left_out(building):
        flow.para(f"NOT IN THIS ORDER: {what}.", bold=True)
    flow.para("Trusses, purlins, lookouts, fascia and soffit boards are not in it.")


def _bundle(job: Job, bundle: Bundle) -> list[str]:
    """Columns that are alike, as a row of the order."""
    made = top(job, bundle)
    what = f"column {size(job)}" + (f". {made}" if made else "")
    return [f"{bundle.count}", what, show(bundle.stock, job.style), "spare" if bundle.spare else ""]


def _nails(flow: Flow, building: Building) -> None:
    """How many nails of each size, and where they go."""
    style = building.job.style
    flow.gap()
    rows = [[str(n.order), nails.show_nail(n.nail, style), str(n.count), "; ".join(n.joints)] for n in building.nails]
    parts = [
        Column("to order", 1, "right", True),
        Column("nails", 3),
        Column("driven", 1, "right"),
        Column("where", 4),
    ]
    flow.table(parts, rows, SIZE)


def _columns(flow: Flow, building: Building) -> None:
    style = building.job.style
    flow.heading("COLUMNS, LONGEST FIRST")
    flow.para("Each is measured from its own bottom end; the tag has every cut. Straightest sticks first.")
    rows = [
        [
            column.name,
            show(column.offset, style),
            show(column.length, style),
            show(column.stock, style) if column.stock is not None else "none long enough",
            show(column.drop, style) if column.drop is not None else "",
        ]
        for column in sorted(building.columns, key=lambda c: (-c.length, c.name))
    ]
    flow.table(
        [
            Column("column", 1, bold=True),
            Column("offset", 1.2, "right"),
            Column("to its highest point", 1.8, "right", True),
            Column("from stock", 1.6, "right"),
            Column("drop", 1.4, "right"),
        ],
        rows,
        SIZE,
    )
    flow.gap()


def _blocks(flow: Flow, building: Building) -> None:
    """The seat blocks that are cut to fit: how long, for which columns, and how thick."""
    if not building.blocks:
        return
    job, style, one = building.job, building.job.style, building.blocks[0]
    flow.heading("SEAT BLOCKS")
    what = "its centre ply" if one.plies == 1 else f"its {one.plies} inner plies together"
    flow.para(
        f"One on the {inner(job)} of each column, up to the bearing: {show(one.thick, style)} thick, as {what}, and"
        f" {show(one.deep, style)} deep. NOT IN THE ORDER: what they are cut from and how they are fastened is the"
        " designer's to say."
    )
    rows = [[str(len(b.columns)), show(b.length, style), ", ".join(b.columns)] for b in building.blocks]
    flow.table(
        [Column("how many", 1, "right", True), Column("long", 1.6, "right", True), Column("columns", 5)], rows, SIZE
    )
    flow.gap()


def ends(line: PieceLine, style: Style) -> str:
    """How a piece's ends are cut: square, or back on its width, which needs no protractor."""
    pairs = zip(line.backs, line.rises, strict=True)
    cut = [(show(back, style), show(rise, style)) for back, rise in pairs if back > 1e-6]
    if not cut:
        return "square"
    backs, rises = [back for back, _ in cut], [rise for _, rise in cut]
    each, edge = f"{backs[0]} back on {rises[0]}", show(line.short, style)
    if len(cut) == 2 and abs(line.length - line.short - line.backs[0]) < 1e-3:
        return f"both ends {each}, slanting the same way; each edge {edge}"
    if len(set(rises)) > 1:
        return f"one end {each}; other end {backs[1]} back on {rises[1]}"
    if len(set(backs)) > 1:
        return f"{' and '.join(backs)} back on {rises[0]}"
    return f"{'both ends' if len(cut) == 2 else 'one end'} {each}, short edge {edge}"


def _straightest(line: PieceLine) -> str:
    """What is called for on the rows that the eye follows."""
    if not line.straightest:
        return ""
    how = "these" if line.straightest == line.count else f"{line.straightest} of them"
    return f". Straightest boards for {how}"


def _pieces(flow: Flow, building: Building) -> None:
    style = building.job.style
    flow.heading("BOARDS TO CUT")
    flow.para("Numbers stand on the wall diagrams. Measure the standing bay before cutting a last piece.")
    rows = [
        [
            line.mark,
            str(line.count),
            bought_as(line.section, line.treated),
            show(line.length, style),
            ends(line, style),
            where_text(line.where) + _straightest(line),
        ]
        for line in building.pieces
    ]
    flow.table(
        [
            Column("piece", 0.9, bold=True),
            Column("pieces", 0.85, "right", True),
            Column("board", 2.15),
            Column("length", 1.7, "right", True),
            Column("ends", 3.0),
            Column("where", 3.0),
        ],
        rows,
        SIZE,
    )
    flow.gap()


def where_text(where: tuple[str, ...]) -> str:
    """``A: Girt 1`` and its like, gathered by wall and numbered rows by kind: ``A: girt 1 to 3, 5; G: girt 1``. Names
    of openings and columns keep their capitals."""
    walls: dict[str, dict[str, list[int]]] = {}
    for entry in where:
        wall, _, row = entry.partition(": ")
        row = row[:1].lower() + row[1:]
        kind, _, number = row.rpartition(" ")
        numbered = kind and number.isdigit()
        rows = walls.setdefault(wall, {}).setdefault(kind if numbered else row, [])
        if numbered:
            rows.append(int(number))
    return "; ".join(
        f"{wall}: {', '.join(f'{kind} {runs(numbers)}'.strip() for kind, numbers in rows.items())}"
        for wall, rows in walls.items()
    )


def runs(numbers: list[int]) -> str:
    """Numbers with the neighbours drawn together: ``1 to 3, 5``."""
    parts: list[list[int]] = []
    for n in sorted(set(numbers)):
        if parts and n == parts[-1][-1] + 1:
            parts[-1].append(n)
        else:
            parts.append([n])
    return ", ".join(str(p[0]) if len(p) == 1 else f"{p[0]} to {p[-1]}" for p in parts)
