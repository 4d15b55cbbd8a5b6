"""The read-back audit: finished files are read by parsers that share no code with the writers, and held against what
they should hold.

Three ways: against the drawings (every stroke, outline and run of words within a thousandth of an inch, nothing more,
nothing less, on pages of the right size that no viewer may scale); against the layout's own numbers (marks on the
tape, tape numbers, cut heights, piece lengths); and against what every page keeps (check bars, words clear of one
another). What a printer profile has moved is held where it lands on paper.
"""

from __future__ import annotations

import gc
import json
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from functools import partial
from itertools import chain
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from layouts.building import Building
from sheets import (
    audit_numbers,
    audit_page,
    audit_pdf,
    audit_phone,
    audit_rods,
    audit_same,
    audit_svg,
    tasks,
)
from sheets.audit_compare import compare, landing
from sheets.audit_kinds import numbers
from sheets.audit_model import Difference, Plan, Read, Seen
from sheets.audit_svg import Unreadable
from sheets.held import PARTED, ROLLED, unit
from sheets.language import speaking
from sheets.packet import MANIFEST, NUMBERS, Packet, Sheet, drawings
from sheets.packet_files import page_drawings
from sheets.profile import Profile
from sheets.shapes import Drawing
from sheets.steps import Count, Step, untold

__all__ = ["Difference", "differences"]

PLAIN = Profile()


def differences(
    packet: Packet, building: Building, folder: Path, profile: Profile = PLAIN, step: Step = untold
) -> list[Difference]:
    """Everything that the files of *packet* in *folder* hold otherwise than they should; empty if they are right.

    The drawings of *packet* are nominal: its pages were written as *profile* corrects them. Drawings that stand on no
    page, rods in one piece, are for plotters and never corrected. *step* is told how many pages are read. Raises
    ``OSError`` only where a file that is there cannot be opened.
    """
    with no_collector(), speaking(packet.speech):
        count = Count(step, "Reading them back", len(packet.sheets) + sum(len(sheets) for _, sheets in pdfs(packet)))
        audit = _Audit(packet, building, folder, profile, count)
        told = tasks.done(*audit.tasks())
        count.reach(count.of)
        return [*chain.from_iterable(told), *held(packet, building), *kept_numbers(packet, folder)]


@contextmanager
def no_collector() -> Iterator[None]:
    """Reading without the garbage collector. A packet's SVG files make a hundred thousand objects, none in a circle:
    looking for circles takes a third of the time."""
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()


def manifest(folder: Path) -> dict[str, Any]:
    """What the packet in *folder* lists of itself; empty where it lists nothing that can be read."""
    try:
        found = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def held(packet: Packet, building: Building) -> Iterator[Difference]:
    """Every tag, rod and wall that *packet* says it holds of *building* stands on its sheets, and no other does: what
    is on the sheets is held against the layout for these alone."""
    if packet.held is None:
        return
    rows = [(s.kind, title) for s in packet.sheets for title, _ in s.parts or ((s.title, ""),)]
    found = {(kind, unit(kind, title)) for kind, title in rows}
    kinds = {kind for kind, _ in found}
    part = packet.held
    want = {("tags", f"Tag {name}") for name in part.columns} | {("walls", f"Wall {name}") for name in part.walls}
    if ("rods", ROLLED) not in found:
        want |= {("rods", name) for name in part.rods}
    for kind, name in sorted(want - found):
        yield Difference("packet", name, f"on a sheet of {kind}", "on none")
    for kind, name in sorted(f for f in found - want if f[0] in PARTED and f != ("rods", ROLLED)):
        yield Difference("packet", name, f"not among the {kind} of this packet", "on a sheet")
    for kind in sorted(part.kinds - kinds):
        yield Difference("packet", kind, "in this packet", "no sheet of them")
    missing = (part.columns - {c.name for c in building.columns}) | (part.walls - {w.name for w in building.walls})
    yield from (Difference("packet", name, "in the job", "not there") for name in sorted(missing))


def kept_numbers(packet: Packet, folder: Path) -> Iterator[Difference]:
    """The numbers that the packet keeps of itself are those it was printed from."""
    try:
        found = (folder / NUMBERS).read_bytes()
    except FileNotFoundError:
        yield Difference(NUMBERS, "file", "there", "missing")
        return
    if found != packet.numbers.encode():
        yield Difference(NUMBERS, "file", "the numbers that were printed", "something else")


def _kinds(packet: Packet) -> list[str]:
    return list(dict.fromkeys(s.kind for s in packet.sheets))


def pdfs(packet: Packet) -> list[tuple[str, list[Sheet]]]:
    """The name and the sheets of every PDF of *packet*."""
    kinds = _kinds(packet)
    found = [(f"{kind}.pdf", [s for s in packet.sheets if s.kind == kind]) for kind in kinds]
    return ([("packet.pdf", list(packet.sheets))] if len(kinds) > 1 else []) + found


def _standing(data: bytes, sheets: Sequence[Sheet]) -> dict[int, bytes]:
    """What stands for the page of each drawing in a PDF file; nothing where it has other pages than these *sheets*."""
    pages = audit_same.pages(data)
    drawings = [id(sheet.page.drawing) for sheet in sheets]
    return dict(zip(drawings, pages, strict=True)) if len(drawings) == len(pages) else {}


class _Audit(Struct):
    """One run; every drawing is laid out for comparison once in a process. A task gives what it has *told*."""

    packet: Packet
    building: Building
    folder: Path
    profile: Profile
    count: Count = field(default_factory=lambda: Count(untold, "", 0))
    told: list[Difference] = field(default_factory=list)
    plans: dict[int, Plan] = field(default_factory=dict)

    @property
    def part(self) -> Building:
        """What of the building is in the packet."""
        return self.packet.part(self.building)

    def tasks(self) -> list[Callable[[], list[Difference]]]:
        """All of it in parts that two processes share. Those of a kind stand together: its drawings are laid out once
        where one process has them all. Small kinds are in the middle, so that both end at about the same time."""
        found: list[Callable[[], list[Difference]]] = [
            lambda: list(audit_phone.check(self.packet, self.building, self.folder, self._plan))
        ]
        count = Counter(sheet.kind for sheet in self.packet.sheets)
        kinds = sorted(count, key=lambda kind: -count[kind])
        for kind in (*kinds[::2], *reversed(kinds[1::2])):
            found += [partial(self._anew().pdf, kind), partial(self._anew().svgs, kind), partial(self.words, kind)]
        return [*found, self._anew().others, *([self._anew().whole] if len(kinds) > 1 else [])]

    def _anew(self) -> _Audit:
        """The same, which has told nothing yet."""
        return replace(self, told=[])

    def words(self, kind: str) -> list[Difference]:
        """The pages of a *kind* themselves, in no file."""
        return [
            difference
            for sheet in self.packet.sheets
            if sheet.kind == kind
            for difference in audit_page.words(sheet.title, self._plan(sheet.page.drawing))
        ]

    def _plan(self, drawing: Drawing) -> Plan:
        plan = self.plans.get(id(drawing))
        if plan is None:
            plan = self.plans[id(drawing)] = Plan(drawing)
        return plan

    def _page(self, label: str, sheet: Sheet, read: Read) -> Seen:
        self.count.more()
        plan = self._plan(sheet.page.drawing)
        seen, told = compare(label, plan, read, landing(plan, self.profile))
        self.told += [*told, *(() if sheet.bare else audit_page.bars(seen))]
        return seen

    def pdf(self, kind: str) -> list[Difference]:
        """The PDF file of a *kind*."""
        self._pdf(f"{kind}.pdf", [s for s in self.packet.sheets if s.kind == kind], {})
        return self.told

    def whole(self) -> list[Difference]:
        """The PDF file of all sheets."""
        (name, sheets), *kinds = pdfs(self.packet)
        known: dict[int, bytes] = {}
        for own, some in kinds:
            with suppress(OSError):
                known |= _standing((self.folder / own).read_bytes(), some)
        self._pdf(name, sheets, known)
        return self.told

    def _pdf(self, name: str, sheets: Sequence[Sheet], known: Mapping[int, bytes]) -> None:
        """A PDF file of *sheets*; *known* is what stands for their pages in files that are read in full elsewhere."""
        try:
            data = (self.folder / name).read_bytes()
            own = _standing(data, sheets) if known else {}
            if own and own.items() <= known.items():
                self._again(name, audit_pdf.wrong(data), len(sheets))  # what is wrong with a page is told there
                return
            document = audit_pdf.read(data)
        except FileNotFoundError:
            self.told.append(Difference(name, "file", "there", "missing"))
            return
        except Unreadable as error:
            self.told.append(Difference(name, "file", "a PDF", str(error)))
            return
        self.told += (Difference(name, *what) for what in document.wrong)
        if len(document.pages) != len(sheets):
            self.told.append(Difference(name, "pages", str(len(sheets)), str(len(document.pages))))
            return
        seen = [
            self._page(f"{name} page {number} ({sheet.title})", sheet, read)
            for number, (sheet, read) in enumerate(zip(sheets, document.pages, strict=True), 1)
        ]
        self.told += numbers(name, sheets, seen, self.building, self.part)

    def _again(self, name: str, wrong: Iterable[tuple[str, str, str]], count: int) -> None:
        """A file of *count* pages that were all read in another one."""
        self.told += (Difference(name, *what) for what in wrong)
        self.count.more(count)

    def svgs(self, kind: str) -> list[Difference]:
        """The SVG files of pages of a *kind*."""
        found: list[Seen] = []
        drawn = {id(drawing): name for name, drawing, _ in page_drawings(self.packet)}
        sheets = [sheet for sheet in self.packet.sheets if sheet.kind == kind]
        for sheet in sheets:
            name = f"{drawn[id(sheet.page.drawing)]}.svg"
            read = self._svg(name)
            if read is not None:
                found.append(self._page(f"{name} ({sheet.title})", sheet, read))
        if len(found) == len(sheets):
            self.told += numbers("SVG pages", sheets, found, self.building, self.part)
        return self.told

    def others(self) -> list[Difference]:
        """What stands on no page: rods in one piece, and lanes and tags alone where the folder lists them."""
        pages = {id(sheet.page.drawing) for sheet in self.packet.sheets}
        shown = list(drawings(self.packet))
        rods = [(name, drawing) for name, drawing, _ in shown if id(drawing) not in pages]
        seen = [self._other(f"{name}.svg", drawing) for name, drawing in rods]
        for page, rod in zip(seen, self.part.rods, strict=False):
            if page is not None:
                self.told += audit_rods.whole(page, rod, self.building.job.style)
        listed = set(manifest(self.folder).get("files", ()))
        known = {name for name, _ in pdfs(self.packet)} | {f"{name}.svg" for name, _, _ in shown}
        unknown = {name for name in listed - known if name.endswith((".svg", ".pdf"))}
        if not unknown:
            return self.told
        of: dict[str, list[Seen | None]] = {}
        for name, drawing, _ in self.packet.parts():
            of.setdefault(name.partition("-")[0], []).append(self._other(f"{name}.svg", drawing))
            unknown.discard(f"{name}.svg")
        self.told += (Difference(name, "file", "of this packet", "not known to it") for name in sorted(unknown))
        lanes, tags = ([s for s in of.get(kind, []) if s] for kind in ("lane", "tag"))
        if lanes:
            self.told += audit_rods.check(lanes, self.part, "SVG lanes")
        if tags:
            self.told += audit_numbers.tags(tags, self.part, "SVG tags")
        return self.told

    def _other(self, name: str, drawing: Drawing) -> Seen | None:
        read = self._svg(name)
        if read is None:
            return None
        plan = Plan(drawing)
        seen, told = compare(name, plan, read)
        self.told += [*told, *audit_page.words(name, plan)]
        return seen

    def _svg(self, name: str) -> Read | None:
        try:
            return audit_svg.read(self.folder / name)
        except FileNotFoundError:
            self.told.append(Difference(name, "file", "there", "missing"))
        except Unreadable as error:
            self.told.append(Difference(name, "file", "an SVG", str(error)))
        return None
