"""Faults for the audit to find: drawings and files changed in one place, the way a slip of a writer, of a sheet's code
or of a disk would change them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import jobs
from msgspec.structs import replace

from layouts.building import Building
from sheets import packet, pdf, svg
from sheets.audit import Difference, differences
from sheets.packet import Packet, Sheet
from sheets.paper import PAPERS
from sheets.shapes import Drawing, Group, Line, Polygon, Shape, Text, moved

Edit = Callable[[Line | Polygon | Text], Iterable[Shape]]


def edited(drawing: Drawing, edit: Edit, inside: str = "", count: int = 10**9) -> Drawing:
    """*drawing* with *edit* made to the first *count* shapes that it changes in groups whose name holds *inside*."""
    left = [count]

    def walk(shapes: Iterable[Shape], within: bool) -> Iterable[Shape]:
        for shape in shapes:
            if isinstance(shape, Group):
                deeper = within or inside in shape.name
                yield Group(shape.name, tuple(walk(shape.shapes, deeper)), shape.title)
            elif within and left[0] > 0:
                made = list(edit(shape))
                left[0] -= made != [shape]
                yield from made
            else:
                yield shape

    shapes = tuple(walk(drawing.shapes, inside == ""))
    assert left[0] < count, "the fault was not put in"
    return Drawing(drawing.width, drawing.height, shapes)


def shifted(dx: float, dy: float = 0.0) -> Edit:
    """Every line elsewhere."""
    return lambda shape: [moved(shape, dx, dy) if isinstance(shape, Line) else shape]


def retext(change: Callable[[Text], Text], when: Callable[[Text], bool] = lambda text: True) -> Edit:
    """Words changed where *when* says so."""
    return lambda shape: [change(shape) if isinstance(shape, Text) and when(shape) else shape]


def reads(old: str, new: str) -> Edit:
    """Words *old* replaced by *new*."""
    return retext(lambda text: replace(text, text=new), lambda text: text.text == old)


def without(words: str) -> Edit:
    """Words left out."""
    return lambda shape: [] if isinstance(shape, Text) and shape.text == words else [shape]


def scaled(drawing: Drawing, scale: float) -> Drawing:
    """As a viewer that fits a page would print it."""

    def larger(shape: Shape) -> Shape:
        if isinstance(shape, Line):
            x0, y0, x1, y1 = (v * scale for v in (shape.x0, shape.y0, shape.x1, shape.y1))
            return Line(x0, y0, x1, y1, shape.width, shape.dash)
        if isinstance(shape, Text):
            return replace(shape, x=shape.x * scale, y=shape.y * scale)
        if isinstance(shape, Polygon):
            return replace(shape, points=tuple((x * scale, y * scale) for x, y in shape.points))
        return Group(shape.name, tuple(map(larger, shape.shapes)), shape.title)

    return replace(drawing, shapes=tuple(map(larger, drawing.shapes)))


@dataclass(frozen=True)
class Bench:
    """A small packet of one kind of sheets on the disk, to be spoilt."""

    building: Building
    packet: Packet
    folder: Path

    def found(self, packet: Packet | None = None) -> list[Difference]:
        """What the audit finds."""
        return differences(packet or self.packet, self.building, self.folder)

    def drawing(self, page: int) -> Drawing:
        """What stands on a page, counted from 1."""
        return self.packet.sheets[page - 1].page.drawing

    def spoilt(self, page: int, drawing: Drawing) -> tuple[Sheet, ...]:
        """The sheets with another drawing on one page."""
        sheets = list(self.packet.sheets)
        old = sheets[page - 1]
        sheets[page - 1] = replace(old, page=replace(old.page, drawing=drawing))
        return tuple(sheets)

    def spoil_pdf(self, page: int, drawing: Drawing) -> list[Difference]:
        """A PDF with another drawing on one page: what is found."""
        pages = [sheet.page for sheet in self.spoilt(page, drawing)]
        pdf.write(self.folder / f"{self.packet.sheets[0].kind}.pdf", pages, "spoilt")
        return self.found()

    def spoil_svg(self, page: int, drawing: Drawing) -> list[Difference]:
        """The same in an SVG."""
        svg.write(self.folder / f"{self.packet.sheets[0].kind}-{page:03d}.svg", drawing, "spoilt")
        return self.found()

    def drawn_wrong(self, page: int, drawing: Drawing) -> list[Difference]:
        """The sheet's own code draws it so, and the files hold what it drew: what is found all the same."""
        wrong = replace(self.packet, sheets=self.spoilt(page, drawing))
        packet.save(wrong, self.folder)
        return self.found(wrong)

    def rewrite(self, name: str, old: bytes, new: bytes) -> list[Difference]:
        """Bytes of a file replaced, once: what is found."""
        path = self.folder / name
        data = path.read_bytes()
        assert old in data
        path.write_bytes(data.replace(old, new, 1))
        return self.found()


BUILDING = {
    "building.length": "24'",
    "building.bays": 3,
    "building.front_columns": ["16'"],
    "building.back_columns": ["16'"],
    "building.width": "32'",
}


def small(metric: bool = False) -> Building:
    """Ten columns, all of them read but one."""
    base = jobs.METRIC if metric else jobs.BASE
    changes = {} if metric else BUILDING
    made = jobs.job(changes, base=base)
    names = list(jobs.every(made).values)
    rows = {name: 1111 + i * 19 % 48 if metric else 44 + i * 5 % 17 / 16 for i, name in enumerate(names) if i != 3}
    return jobs.build(changes, rows, base=base)


def bench(folder: Path, kind: str | None) -> Bench:
    """The packet of the small building, of one *kind* or whole, in *folder*."""
    built, files = _printed(kind)
    folder.mkdir()
    for name, data in files.items():
        (folder / name).write_bytes(data)
    return Bench(_small(), built, folder)


@cache
def _small() -> Building:
    return small()


@cache
def _printed(kind: str | None) -> tuple[Packet, dict[str, bytes]]:
    """The packet and its files, drawn and written once."""
    built = packet.build(_small(), PAPERS["letter"], kind)
    with TemporaryDirectory() as place:
        return built, {path.name: path.read_bytes() for path in packet.save(built, Path(place) / "out")}


def told(found: list[Difference], *words: str) -> Difference:
    """The difference whose line holds all *words*."""
    lines = "\n".join(map(str, found))
    fitting = [d for d in found if all(word in str(d) for word in words)]
    assert fitting, f"{words} in none of:\n{lines}"
    return fitting[0]


def a_mark(bench: Bench) -> tuple[int, str, float]:
    """A page with a board's mark, its group, and its station."""
    rod = bench.building.rods[0]
    mark = next(m for m in rod.marks if m.name == "Girt 2")
    for number, sheet in enumerate(bench.packet.sheets, 1):
        if "-mark-girt-2" in repr(sheet.page.drawing):
            return number, "-mark-girt-2", mark.station
    raise AssertionError("no such mark")
