"""A packet written earlier, held against what its job gives now: which sheets are stale, missing, changed on the disk
or not ours."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from layouts.languages import NAMES, catalogue
from sheets import audit_pdf, audit_svg
from sheets.audit import PLAIN, manifest, no_collector
from sheets.audit_compare import compare, landing
from sheets.audit_model import Difference, Plan, Read
from sheets.audit_svg import Unreadable
from sheets.language import speaking
from sheets.packet import MANIFEST, Packet, Sheet, drawings
from sheets.phone import FILE
from sheets.profile import Profile

_PAGE = re.compile(r"([a-z]+)-[0-9]{3}\.svg")

DATED = ("footer", "stamp")  # groups that no stamp is made from: date, name of the job, page number

Rows = tuple[tuple[str, str], ...]  # title and stamp


class _Old(Struct, frozen=True):
    """A page of the packet as it lists itself: the *kind* of sheet, the SVG file, the titles and stamps on it."""

    number: int
    kind: str
    file: str
    rows: Rows


@cache
def _stamp() -> re.Pattern[str]:
    """A stamp as any language prints it: what lies in the folder may be of another one than the job is now."""
    from sheets.speech import Speech

    words = ["stamp", *(Speech(catalogue(name)).turned("stamp") for name in NAMES)]
    return re.compile(f"(?:{'|'.join(map(re.escape, words))}) ([2-9A-Z]{{5}})\\b")


def alone(folder: Path) -> str | None:
    """The one kind of sheets that the packet in *folder* was printed of (``--only``), ``None`` for a whole one: what
    ``packet.build`` has to be told before ``stale``."""
    about = manifest(folder)
    if "only" in about:
        return str(about["only"]) if about["only"] else None
    listed = [str(name) for name in about.get("files", ())]
    found = [name.removesuffix(".pdf") for name in listed if name.endswith(".pdf")]
    return found[0] if len(found) == 1 and found != ["packet"] else None


def stale(folder: Path, packet: Packet, profile: Profile = PLAIN) -> list[str]:
    """What is no longer right about the packet in *folder*, one line each, against *packet*, which its job gives now;
    empty if it can be used as it lies there. *profile* is the printer's it would be printed with now.

    A sheet is stale if the job gives it another stamp or other lines and words, or gives it no more; a file is changed
    if its bytes are no longer those that were written. Raises ``OSError`` where a file that is there cannot be opened.
    """
    listed = manifest(folder)
    try:
        rows = [(str(row["title"]), int(row["page"]), str(row["stamp"])) for row in listed["sheets"]]
        files = [str(name) for name in listed["files"]]
    except (LookupError, TypeError, ValueError):
        return [f"{MANIFEST}: missing or not to be read: there is no packet of ours in {folder}"]
    with no_collector(), speaking(packet.speech):
        changed = list(_changed(folder, files, listed.get("sha256")))
        checked = _Check(folder, packet, profile, _pages(files, rows), changed)
        return [
            *_restamped(packet, rows),
            *changed,
            *(f"{name}: missing" for name in files if not (folder / name).is_file()),
            *checked.files(files),
            *_page(folder, packet, files, changed),
            *(f"{name}: not ours: {MANIFEST} does not list it" for name in _foreign(folder, files)),
        ]


def _rows(sheet: Sheet) -> Rows:
    return sheet.parts or ((sheet.title, sheet.stamp),)


def _restamped(packet: Packet, rows: Sequence[tuple[str, int, str]]) -> Iterator[str]:
    """Sheets whose stamps differ, or that only one side has."""
    had = {title: code for title, _, code in rows}
    now = dict(row for sheet in packet.sheets for row in _rows(sheet))
    for title, code in now.items():
        if title not in had:
            yield f"{title}: missing: the job gives it now, stamp {code}"
        elif had[title] != code:
            yield f"{title}: stale: stamp {had[title]}, the job now gives {code}"
    yield from (f"{title}: stale: the job no longer gives it" for title in had if title not in now)


def _changed(folder: Path, files: Sequence[str], digests: Any) -> Iterator[str]:
    """Files whose bytes are not those that were listed."""
    for name in files if isinstance(digests, dict) else ():
        path = folder / name
        if name in digests and path.is_file() and hashlib.sha256(path.read_bytes()).hexdigest() != digests[name]:
            yield f"{name}: changed on disk since it was printed"


def _page(folder: Path, packet: Packet, files: Sequence[str], changed: Sequence[str]) -> Iterator[str]:
    """The page for the phone: it is made from numbers and words alone, so it is the same to the last byte or stale."""
    if FILE not in files:
        yield f"{FILE}: missing: the job gives it now"
        return
    told = any(line.startswith(f"{FILE}:") for line in changed)
    if not told and (folder / FILE).is_file() and (folder / FILE).read_bytes() != packet.page():
        yield f"{FILE}: stale: the job now gives another"


def _foreign(folder: Path, files: Sequence[str]) -> Iterator[str]:
    for path in sorted(folder.iterdir()):
        if path.suffix.lower() in (".pdf", ".svg", ".html") and path.name not in files:
            yield path.name


def kinds(files: Sequence[str]) -> list[tuple[str, str]]:
    """Kind and SVG file of every page of the packet that lists *files*: they stand in printing order."""
    return [(found[1], name) for name in files if (found := _PAGE.fullmatch(name))]


def _pages(files: Sequence[str], rows: Sequence[tuple[str, int, str]]) -> list[_Old]:
    """The pages that the packet lists."""
    return [
        _Old(number, kind, name, tuple((title, code) for title, page, code in rows if page == number))
        for number, (kind, name) in enumerate(kinds(files), 1)
    ]


class _Check:
    """Reads the files of a packet and tells what they hold otherwise than their job gives it now. Stale sheets are not
    compared: only their stamps have to be those that are listed."""

    def __init__(
        self, folder: Path, packet: Packet, profile: Profile, pages: Sequence[_Old], changed: Sequence[str]
    ) -> None:
        self.folder = folder
        self.packet = packet
        self.profile = profile
        self.pages = pages
        self.changed = {line.partition(":")[0] for line in changed}
        self.now = {_rows(sheet): sheet for sheet in packet.sheets}
        self.plans: dict[int, Plan] = {}
        self.footers: list[tuple[str, Difference]] = []

    def files(self, files: Sequence[str]) -> Iterator[str]:
        """All PDFs, then all SVGs."""
        pdf = {"packet.pdf": self.pages}
        for kind in dict.fromkeys(page.kind for page in self.pages):
            pdf[f"{kind}.pdf"] = [page for page in self.pages if page.kind == kind]
        for name, pages in pdf.items():
            if name in files and (self.folder / name).is_file():
                yield from self._pdf(name, pages)
        for page in self.pages:
            if (self.folder / page.file).is_file():
                try:
                    yield from self._page(page.file, page, audit_svg.read(self.folder / page.file))
                except Unreadable as error:
                    yield f"{page.file}: {error}"
        yield from self._others(files)
        if self.footers:
            place, first = self.footers[0]
            yield (
                f"{place} and {len(self.footers) - 1} other pages: stale: only the date, the job's name or the page"
                f" number: the job gives {first.want}, it holds {first.found}"
            )

    def _pdf(self, name: str, pages: Sequence[_Old]) -> Iterator[str]:
        try:
            document = audit_pdf.read((self.folder / name).read_bytes())
        except Unreadable as error:
            yield f"{name}: {error}"
            return
        yield from (f"{name}: {place}: should be {want}, is {found}" for place, want, found in document.wrong)
        if len(document.pages) != len(pages):
            yield f"{name}: {len(document.pages)} pages, {MANIFEST} lists {len(pages)}"
            return
        for number, (page, read) in enumerate(zip(pages, document.pages, strict=True), 1):
            yield from self._page(f"{name} page {number}", page, read)

    def _page(self, place: str, page: _Old, read: Read) -> Iterator[str]:
        titles = ", ".join(title for title, _ in page.rows)
        printed = set(_stamp().findall(" ".join(" ".join(run.words.split()) for run in read.runs)))
        for title, code in page.rows:
            if code not in printed:
                yield f"{place} ({title}): carries stamp {' '.join(sorted(printed)) or 'none'}, {MANIFEST} lists {code}"
        sheet = self.now.get(page.rows)
        if sheet is not None:
            plan = self.plans.setdefault(id(sheet), Plan(sheet.page.drawing))
            _, told = compare(place, plan, read, landing(plan, self.profile))
            yield from self._first(place, titles, told)

    def _first(self, place: str, titles: str, told: Sequence[Difference]) -> Iterator[str]:
        """One line for a page or file that is otherwise than it should be."""
        if told and place.partition(" page ")[0] not in self.changed and all(d.place in DATED for d in told):
            self.footers.append((place, told[0]))
        elif told:
            more = f" (and {len(told) - 1} more)" if len(told) > 1 else ""
            state = "changed" if place.partition(" page ")[0] in self.changed else "stale"
            first = told[0]
            named = f"{place} ({titles})" if titles else place
            yield f"{named}: {state}: {first.place}: the job gives {first.want}, it holds {first.found}{more}"

    def _others(self, files: Sequence[str]) -> Iterator[str]:
        """Rods in one piece, lanes and tags alone."""
        pages = {id(sheet.page.drawing) for sheet in self.packet.sheets}
        listed = {name for name in files if name.endswith(".svg")} - {page.file for page in self.pages}
        parts = self.packet.parts() if any(not name.startswith("rod-") for name in listed) else ()
        for name, drawing, title in [*drawings(self.packet), *parts]:
            file = f"{name}.svg"
            if id(drawing) in pages or file not in listed:
                continue
            listed.discard(file)
            if (self.folder / file).is_file():
                try:
                    _, told = compare(file, Plan(drawing), audit_svg.read(self.folder / file))
                except Unreadable as error:
                    yield f"{file}: {error}"
                    continue
                yield from self._first(file, title.partition(": ")[2], told)
        yield from (f"{name}: stale: the job no longer gives it" for name in sorted(listed))
