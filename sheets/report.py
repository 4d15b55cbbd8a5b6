"""The layout as JSON for programs, and as plain lines for whoever reads a file or a pipe."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from layouts.building import Building, marks_of
from layouts.bundles import Bundle
from layouts.lengths import Style, show, to_unit
from layouts.readings import Readings, taken
from layouts.rods import Mark
from sheets import report_roof, report_tables, report_walls, tongue
from sheets.ordered import top


def _head(building: Building) -> dict[str, str]:
    """What the job says of itself and of its sheets, beside the numbers."""
    job = building.job.job
    return {
        "place": job.place,
        "crew": job.crew,
        "date": job.date,
        "language": job.language,
        "tags": job.tags.text,
        "print": job.print,
    }


def as_json(building: Building) -> dict[str, Any]:
    """Everything that is printed: lengths as ``{"value": ..., "text": ...}``, the value exact, in inches or mm."""
    style = building.job.style
    return {
        "job": building.job.job.name,
        "head": _head(building),
        "units": style.unit,
        "warnings": list(building.warnings),
        "at_stake": [one.cost.name.lower() for one in building.warned],
        "line_reading": _reading(building.readings, building.grade.line, style),
        "column_diagonal": _plain(building.plan.column_diagonal, style),
        "building_diagonal": _plain(building.plan.building_diagonal, style),
        "sums": [
            {
                "name": total.name,
                "steps": [{"name": step.name, **_plain(step.inches, style)} for step in total.steps],
                "total": _plain(total.total, style),
            }
            for total in building.roof.sums
        ],
        "not_read": list(building.grade.unread),
        "columns": [_column(building, c.name, style) for c in building.columns],
        "rods": [
            {
                "name": rod.name,
                "walls": list(rod.walls),
                "of": rod.of,
                "users": list(rod.users),
                "length": _length(rod.length, style),
                "marks": [_mark(mark, style) for mark in rod.marks],
            }
            for rod in building.rods
        ],
        "walls": [report_walls.wall(building, i, lambda n: _plain(n, style)) for i in range(len(building.walls))],
        "roof": report_roof.roof(building, lambda n: _plain(n, style)),
        "templates": report_roof.patterns(building, lambda n: _plain(n, style)),
        "cladding": report_roof.cladding(building, lambda n: _plain(n, style)),
        "nails": report_walls.nails(building, lambda n: _plain(n, style)),
        "order": _order(building, style),
    }


def _mark(mark: Mark, style: Style) -> dict[str, Any]:
    return {
        "name": mark.name,
        "kind": mark.kind,
        "station": _length(mark.station, style),
        "edge": mark.edge,
        "board": mark.board,
        "low": _length(mark.low, style),
        "high": _length(mark.high, style),
        "where": mark.where,
    }


def _length(inches: float | None, style: Style) -> dict[str, Any] | None:
    return None if inches is None else _plain(inches, style)


def _reading(readings: Readings, down: float | None, style: Style) -> dict[str, Any] | None:
    """Readings print as they are read off a rod: all in inches, as fine as they were taken."""
    if down is None:
        return None
    return {**_plain(readings.down(down), style), "text": taken(readings, down, style)}


def _plain(inches: float, style: Style) -> dict[str, Any]:
    return {"value": round(to_unit(inches, style), 6) + 0.0, "text": show(inches, style)}  # never minus nothing


def _column(building: Building, name: str, style: Style) -> dict[str, Any]:
    column = next(c for c in building.columns if c.name == name)
    return {
        "name": column.name,
        "walls": list(column.walls),
        "neighbours": list(column.neighbours),
        "reading": _reading(building.readings, column.reading, style),
        "offset": _length(column.offset, style),
        "seat": column.seat,
        "longer": column.longer,
        "shoot_again": column.flagged,
        "why_again": building.grade.again.get(column.name, ""),
        "cuts": {
            cut.key: {**_plain(column.up(cut.station), style), "name": cut.name, "where": cut.where}
            for cut in column.cuts
        },
        "marks": [
            {
                "name": found.mark.name,
                "edge": found.mark.edge,
                "board": found.mark.board,
                "own": bool(found.mark.only),
                **_plain(found.up, style),
            }
            for found in marks_of(building, column)
        ],
        "note": column.note,
        "length": _length(column.length, style),
        "stock": _length(column.stock, style),
        "drop": _length(column.drop, style),
        "cut_off_bottom": _length(column.fit.cut_off, style),
        "block_under": _length(column.fit.packing, style),
        "seat_block": _length(column.fit.seat_block, style),
    }


def _bundle(building: Building, bundle: Bundle) -> dict[str, Any]:
    """Columns that are alike; *made* in the words of the cut sheet where the factory makes their tops."""
    made = top(building.job, bundle)
    return {"stock": _length(bundle.stock, building.job.style), "count": bundle.count, "made": made}


def _blocks(building: Building, style: Style) -> Iterator[dict[str, Any]]:
    for one in building.blocks:
        sizes = {"length": one.length, "thick": one.thick, "deep": one.deep}
        yield {
            **{key: _plain(inches, style) for key, inches in sizes.items()},
            "plies": one.plies,
            "columns": list(one.columns),
        }


def _order(building: Building, style: Style) -> dict[str, Any]:
    return {
        "columns": [_bundle(building, b) for b in building.bundles if not b.spare],
        "column_spares": [_bundle(building, b) for b in building.bundles if b.spare],
        "not_in_it": {"columns": list(building.unordered), "seat_blocks": list(_blocks(building, style))},
        "boards": [
            {"board": order.section, "treated": order.treated, "stock": _length(stock, style), "count": count}
            for order in building.orders
            for stock, count in order.sticks
        ],
        "spares": [
            {"board": order.section, "treated": order.treated, "stock": _length(stock, style), "count": count}
            for order in building.orders
            for stock, count in order.spare
        ],
        "plans": [
            {
                "board": order.section,
                "treated": order.treated,
                "proved": order.plan.proved,
                "cost": order.plan.cost if order.plan.priced else _length(order.plan.cost, style),
                "bound": order.plan.bound if order.plan.priced else _length(order.plan.bound, style),
            }
            for order in building.orders
        ],
    }


# --- in plain lines -------------------------------------------------------------------------------------------------


def as_text(building: Building) -> str:
    """What a man wants to see before he prints: warnings, columns, rods, order. No table is over 100 letters wide."""
    return "\n".join(_lines(building)) + "\n"


def _lines(building: Building) -> Iterator[str]:
    yield building.job.job.name
    yield tongue.turned(building.grade.why)
    yield ""
    yield tongue.turned(f"WARNINGS: {len(building.warnings) or 'none'}")
    yield from (tongue.turned(f"  ! {text}") for text in building.warnings)
    for table in report_tables.tables(building):
        yield ""
        yield table.title
        yield from aligned(table.head, table.rows)


def aligned(head: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """A table in plain text: columns as wide as their longest cell, two blanks between."""
    table = [list(head), *[list(r) for r in rows]]
    widths = [max(len(row[i]) for row in table) for i in range(len(head))]
    for row in table:
        yield "  " + "  ".join(cell.ljust(w) for cell, w in zip(row, widths, strict=True)).rstrip()
