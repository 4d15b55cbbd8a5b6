"""The tables of ``check``: columns, rods, what to order. Here as words alone; who shows them lays them out."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from layouts import nails, sheeting
from layouts.building import Building
from layouts.bundles import Bundle
from layouts.columns import Column
from layouts.lengths import Style, show
from layouts.lumber import bought_as
from layouts.readings import taken
from layouts.rods import Rod
from sheets import tongue
from sheets.ordered import top

Row = tuple[str, ...]
NAMES = 8  # of columns in a row


class Table(Struct, frozen=True):
    """A *title*, a *head* and *rows*. The cells of the columns *may_wrap* may be parted between words, no others: a
    number is read whole. *narrow* is a shorter head for where there is little room."""

    title: str
    head: Row
    rows: tuple[Row, ...]
    may_wrap: frozenset[str] = frozenset()
    narrow: Row = ()


def tables(building: Building) -> Iterator[Table]:
    """All of them, in the order in which they are wanted, in the language that the terminal speaks."""
    return map(_turned, _tables(building))


def _tables(building: Building) -> Iterator[Table]:
    yield _columns(building)
    yield from (_rod(rod, building.job.style) for rod in building.rods)
    if any(wall.openings for wall in building.walls):
        yield _levels(building)
    yield _order(building)
    if building.cladding:
        yield _sheets(building)


def _turned(table: Table) -> Table:
    def row(cells: Row) -> Row:
        return tuple(map(tongue.turned, cells))

    wrap = frozenset(map(tongue.turned, table.may_wrap))
    rows = tuple(map(row, table.rows))
    return replace(
        table,
        title=tongue.turned(table.title),
        head=row(table.head),
        rows=rows,
        may_wrap=wrap,
        narrow=row(table.narrow),
    )


def _columns(building: Building) -> Table:
    head = ("column", "wall", "reading", "offset", "stock", "cut", "where", "height")
    rows = tuple(row for column in building.columns for row in _column(building, column))
    title = "COLUMNS (heights from each column's bottom end)"
    return Table(title, head, rows, frozenset({"cut", "where"}), ("col", *head[1:]))


def _column(building: Building, column: Column) -> Iterator[Row]:
    """One line a cut, the column's own numbers on the first: no cut may be left out for want of width."""
    style = building.job.style
    stock = show(column.stock, style) if column.stock is not None else "NONE"
    own: Row = (
        column.name,
        "+".join(column.walls),
        taken(building.readings, column.reading, style),
        show(column.offset, style),
        stock,
    )
    for cut in column.cuts:
        yield (*own, cut.name, cut.where, show(column.up(cut.station), style))
        own = ("",) * len(own)


def _rod(rod: Rod, style: Style) -> Table:
    what = rod.of or f"walls {', '.join(rod.walls)}; stations above the grade line"
    rows = tuple(
        (show(m.station, style), m.name, m.board, m.where or m.edge if m.kind == "board" else m.where)
        for m in rod.marks
    )
    head = ("station", "mark", "board", "edge")
    return Table(f"{rod.name.upper()} ({what})", head, rows, frozenset({"mark", "edge"}))


def _levels(building: Building) -> Table:
    """Headers, sills and track boards: where along its wall each begins and ends."""
    style = building.job.style
    rows = tuple(
        (wall.name, board.name, board.section.name, *(show(n, style) for n in (board.start, board.end, board.low)))
        for wall in building.walls
        for opening in wall.openings
        for board in (*opening.levels, opening.track)
        if board
    )
    head = ("wall", "mark", "board", "from", "to", "bottom")
    title = "BOARDS OF OPENINGS (along each wall, seen from outside, from the outside of its left corner column)"
    return Table(title, head, rows, frozenset({"mark"}))


def _order(building: Building) -> Table:
    style = building.job.style
    rows = [_bundle(building, bundle) for bundle in building.bundles]
    for order in building.orders:
        name = bought_as(order.section, order.treated)
        rows += [(str(n), name, show(stock, style)) for stock, n in order.sticks]
        rows += [(str(n), f"{name}, spare", show(stock, style)) for stock, n in order.spare]
    rows += [(str(n.order), "nails", nails.show_nail(n.nail, style)) for n in building.nails]
    rows += _left_out(building)
    return Table("TO ORDER", ("how many", "what", "length"), tuple(rows), frozenset({"what"}))


def _bundle(building: Building, bundle: Bundle) -> Row:
    """Columns that are alike, with what the factory makes of their tops."""
    made = top(building.job, bundle, short=True)
    what = ", ".join(filter(None, ("columns", made, "spare" if bundle.spare else "")))
    return str(bundle.count), what, show(bundle.stock, building.job.style)


def _left_out(building: Building) -> Iterator[Row]:
    """Columns that nobody has read, or that no stock gives, and seat blocks: what is to be got besides."""
    style, missing = building.job.style, building.unordered
    count, what = str(len(missing)), f"column{'s' if len(missing) > 1 else ''} NOT IN THIS ORDER: "
    for i in range(0, len(missing), NAMES):
        yield count, f"{what}{', '.join(missing[i : i + NAMES])}", ""
        count, what = "", ""
    for block in building.blocks:
        many, size = len(block.columns), f"{show(block.thick, style)} thick, {show(block.deep, style)} deep"
        yield str(many), f"seat block{'s' if many > 1 else ''} NOT IN THIS ORDER: {size}", show(block.length, style)


def _sheets(building: Building) -> Table:
    """What sheets to order; the standing building is measured first."""
    style = building.job.style
    rows = tuple((str(n), kind, show(long, style)) for kind, long, n in sheeting.order(building.cladding))
    return Table("SHEETS TO ORDER (measure the standing building first)", ("how many", "what", "length"), rows)
