"""The packet: its sheets in their order, and how they reach the disk whole or not at all."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from msgspec import Struct

from layouts.building import Building
from layouts.problems import JobRefused, Problem
from sheets import changes, disk, index, own_words, packet_files, parts, phone, report, rod, tasks
from sheets.disk import MANIFEST as MANIFEST
from sheets.disk import CannotWrite as CannotWrite
from sheets.frame import Body, Footer, finish
from sheets.held import Held
from sheets.kinds import KINDS, NOTHING, bodies_of, drawing, stamps_of, usual_sheet
from sheets.language import speaking
from sheets.packet_files import NUMBERS as NUMBERS
from sheets.packet_files import PREVIEW_DPI as PREVIEW_DPI
from sheets.packet_files import drawings as drawings
from sheets.pages import Page
from sheets.paper import Paper
from sheets.profile import UNMEASURED, Profile
from sheets.shapes import Drawing
from sheets.steps import Step, untold

if TYPE_CHECKING:
    from sheets.speech import Speech


class Sheet(Struct, frozen=True):
    """A finished page and where it is filed: *kind*, *title* and *stamp*; *parts* have stamps of their own; a
    *bare* one has neither footer nor check bar."""

    kind: str
    title: str
    stamp: str
    page: Page
    parts: tuple[tuple[str, str], ...]
    bare: bool = False


class Packet(Struct, frozen=True):
    """All *sheets* in printing order, each rod *whole* at full scale by its title, and every lane and tag alone, drawn
    when it is asked for: file name, drawing, title. *numbers* is what was printed, as JSON; *paper* what it was drawn
    for; *showing* makes the page for the phone of sheets; *only* is the one kind of sheets asked for; *held* says what
    it holds if that is not all of its job; *speech* is the language of its words, ``None`` English."""

    title: str
    sheets: tuple[Sheet, ...]
    whole: tuple[tuple[str, Drawing], ...]
    metric: bool
    parts: Callable[[], Iterator[tuple[str, Drawing, str]]]
    profile: Profile
    numbers: str
    paper: Paper
    showing: Callable[[Sequence[Sheet]], bytes]
    only: str | None = None
    held: Held | None = None
    speech: Speech | None = None

    def page(self) -> bytes:
        """The page for the phone."""
        return self.showing(self.sheets)

    def part(self, building: Building) -> Building:
        """*building* with the columns, rods and walls alone whose sheets are in this packet."""
        return self.held.part(building) if self.held else building


def build(
    building: Building,
    paper: Paper,
    only: str | None = None,
    profile: Profile = UNMEASURED,
    held: Held | None = None,
    step: Step = untold,
) -> Packet:
    """Draw the packet of *building*, or only one kind of its sheets (a key of ``KINDS``), or only what is *held*: then
    a sheet that tells what has changed stands in the place of the index.

    On a roll only the rods are drawn; the other sheets go on the usual sheet of the job's units. *profile* is the
    printer's: its edge is the margin; the pages stay as they should land, ``save`` corrects what it writes. *step* is
    told how many kinds of sheets are drawn. Raises ``JobRefused`` where there is no sheet of the kind: without readings
    there are no tags.
    """
    speech = own_words.speech(building, *([held.changes.old, *held.changes.own] if held else []))
    with speaking(speech):
        return _drawn(building, paper, only, profile, held, speech, step)


def _drawn(
    building: Building,
    paper: Paper,
    only: str | None,
    profile: Profile,
    held: Held | None,
    speech: Speech | None,
    step: Step,
) -> Packet:
    job = building.job.job
    metric = job.units == "metric"
    footer = Footer(job.name, job.date, metric, profile.brief(metric))
    kinds = [only] if only else list(KINDS)
    paper = paper.within(profile.margin(paper.width, paper.height)) if profile.date else paper
    part = held.part(building) if held else building
    bodies, whole, numbers = _shared(building, part, drawing(building, paper, kinds, held, step), kinds)
    if only in NOTHING and not bodies:
        bodies = NOTHING[only](usual_sheet(building, paper))
    if held:
        first = changes.pages(held.printed(stamps_of(bodies)), job.name, usual_sheet(building, paper))
        sheets = _finished([*first, *bodies], footer, 0, len(first) + len(bodies))
    elif only:
        sheets = _finished(bodies or _nothing_of(only), footer, 0, len(bodies))
    else:
        sheets = _indexed(building, paper, profile, footer, bodies)
    return Packet(
        job.name,
        tuple(sheets),
        whole,
        metric,
        lambda: _spoken(speech, parts.drawings(part, paper, kinds)),
        profile,
        numbers,
        paper,
        lambda shown: phone.page(part, shown, held.changes.old if held else None),
        only,
        held,
        speech,
    )


def _shared(
    building: Building, part: Building, draw: Mapping[str, Callable[[], list[Body]]], kinds: Sequence[str]
) -> tuple[list[Body], tuple[tuple[str, Drawing], ...], str]:
    """The sheets of these *kinds* in their order, the rods of *part* in one piece, and the numbers of *building*."""
    work: list[Callable[[], Any]] = [
        *draw.values(),
        lambda: tuple(rod.whole(part) if "rods" in kinds else ()),
        lambda: json.dumps(report.as_json(building), indent=1, ensure_ascii=False) + "\n",
    ]
    *drawn, whole, numbers = tasks.done(*work)
    of = dict(zip(draw, drawn, strict=True))
    return [body for kind in kinds for body in of[kind]], whole, numbers


def _nothing_of(only: str) -> NoReturn:
    """There is no sheet of this kind."""
    right = "Fill in the readings, or print the packet without --only."
    raise JobRefused([Problem("--only", "", only, "has no sheet: no column is read yet.", right)])


def _spoken(speech: Speech | None, drawn: Iterator[tuple[str, Drawing, str]]) -> Iterator[tuple[str, Drawing, str]]:
    """Each drawing drawn in this language, when it is asked for."""
    while True:
        with speaking(speech):
            found = next(drawn, None)
        if found is None:
            return
        yield found


def stamps(building: Building, paper: Paper, kinds: Iterable[str]) -> list[tuple[str, str, str]]:
    """Kind, title and stamp of every tag and sheet of these *kinds*, without the index, as ``build`` gives them."""
    with speaking(own_words.speech(building)):
        return stamps_of(bodies_of(building, paper, kinds))


def _indexed(building: Building, paper: Paper, profile: Profile, footer: Footer, bodies: Sequence[Body]) -> list[Sheet]:
    """All sheets with the index before them. It tells page numbers that its own length moves: it is drawn once to learn
    how long it is."""
    sheet = usual_sheet(building, paper)
    guess = len(index.pages(building, sheet, _listed(_finished(bodies, footer, 0, len(bodies)), 0), profile, paper))
    count = guess + len(bodies)
    sheets = _finished(bodies, footer, guess, count)
    first = index.pages(building, sheet, _listed(sheets, guess), profile, paper)
    return _finished(first, footer, 0, count) + sheets


def _finished(bodies: Sequence[Body], footer: Footer, before: int, count: int) -> list[Sheet]:
    sheets = []
    for number, body in enumerate(bodies, before + 1):
        page, code = finish(body, footer, number, count)
        sheets.append(Sheet(body.kind, body.title, code, page, body.parts, body.bare))
    return sheets


def _listed(sheets: Iterable[Sheet], before: int) -> list[tuple[str, str, str]]:
    """The index's rows: a page of tags is listed tag by tag."""
    rows = []
    for number, sheet in enumerate(sheets, before + 1):
        rows += [(title, str(number), code) for title, code in sheet.parts or ((sheet.title, sheet.stamp),)]
    return rows


# --- to disk --------------------------------------------------------------------------------------------------------


def save(
    packet: Packet,
    folder: Path,
    png: bool = False,
    beside: Mapping[str, bytes] | None = None,
    svg_parts: bool = False,
    check: Callable[[Path], None] | None = None,
    step: Step = untold,
) -> list[Path]:
    """Write *packet* to *folder*, with further files *beside* it (name and content), and return all files, in order.

    *svg_parts* writes every lane and every tag as an SVG of its own too. All of it reaches the folder or nothing does,
    and the user's own files in it are kept: ``sheets.disk.save`` tells how, what *check* is for, and when it raises
    ``CannotWrite``. ``sheets.preview.NoCairo`` where previews are wanted and Cairo is missing. *step* is told how many
    files are written.
    """
    sheets = [{"title": title, "page": int(page), "stamp": code} for title, page, code in _listed(packet.sheets, 0)]
    return disk.save(
        folder,
        lambda new: packet_files.write(packet, new, png, svg_parts, step),
        {"packet": packet.title, **_about(packet), "sheets": sheets},
        beside,
        check,
    )


def _about(packet: Packet) -> dict[str, object]:
    """How the packet was drawn: what has to be known to hold another one against it."""
    held = packet.held.as_json() if packet.held else {}
    return {"paper": packet.paper.name, "margin": packet.paper.margin, "only": packet.only, **held}
