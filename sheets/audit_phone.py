"""The page for the phone held against the layout and against the drawings: every warning, every column with its offset
and its cuts, every tag, every sheet with its stamp, and nothing else in the file."""

from __future__ import annotations

import re
from base64 import b64decode
from collections.abc import Callable, Iterator
from copy import copy
from functools import cache
from importlib.resources import files
from itertools import zip_longest
from pathlib import Path

from msgspec import Struct

import fonts
from layouts.building import Building
from layouts.columns import Column
from sheets import audit_html, audit_numbers
from sheets.audit_compare import compare
from sheets.audit_html import Node, Page
from sheets.audit_model import Difference, Plan, Seen, shown
from sheets.audit_svg import Unreadable
from sheets.language import source
from sheets.packet import Packet
from sheets.shapes import Drawing
from sheets.tag import standard, tag

FILE = "index.html"
POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:"
_URL = re.compile(r"url\(([^)]*)\)|@import")
_FONT = "data:font/ttf;base64,"

Fault = tuple[str, str, str]  # place, what was to be there, what is


def check(packet: Packet, building: Building, folder: Path, plan: Callable[[Drawing], Plan]) -> Iterator[Difference]:
    """Differences between the file in *folder* and *packet* of *building*; *plan* lays a drawing out for comparison."""
    try:
        page = audit_html.read((folder / FILE).read_bytes())
    except FileNotFoundError:
        yield Difference(FILE, "file", "there", "missing")
        return
    except Unreadable as error:
        yield Difference(FILE, "file", "a page of ours", str(error))
        return
    held = _Page(packet, building, packet.part(building), page, plan)
    yield from (Difference(FILE, *fault) for fault in held.faults())
    yield from held.pictures()


@cache
def _rules() -> str:
    """The style sheet as it lies beside the program, the typeface not in it."""
    return " ".join(files("sheets").joinpath("phone.css").read_text(encoding="utf-8").split())


class _Page(Struct, frozen=True):
    """The page that was read, and all that it should say."""

    packet: Packet
    building: Building
    part: Building
    page: Page
    plan: Callable[[Drawing], Plan]

    @property
    def columns(self) -> tuple[Column, ...]:
        """Those whose tags are in the packet."""
        return self.part.columns if any(sheet.kind == "tags" for sheet in self.packet.sheets) else ()

    def faults(self) -> Iterator[Fault]:
        """What the words say otherwise."""
        yield from (("page", "elements of ours alone", odd) for odd in dict.fromkeys(self.page.odd))
        yield from self._file()
        root = self.page.root
        name = self.building.job.job.name
        yield from _same("name", [name], [" ".join(node.words().split()) for node in root.all("h1")])
        warnings = [" ".join(words.split()) for words in self.building.warnings]
        yield from _same("warnings", warnings, [n.words() for n in self.page.place("warnings").all("li")])
        yield from self._list()
        yield from self._tags()
        want = [f"{s.title} · page {n} · stamp {s.stamp}" for n, s in enumerate(self.packet.sheets, 1)]
        want = [" ".join(words.split()) for words in want]
        yield from _same("sheets", want, [n.all("summary")[0].words() for n in root.all("details", "sheet")])

    def _file(self) -> Iterator[Fault]:
        """Nothing is fetched, and the letters are those of the typeface."""
        root = self.page.root
        policy = [n.attributes.get("content", "") for n in root.all("meta") if "http-equiv" in n.attributes]
        yield from _same("policy", [POLICY], policy)
        rules = "".join(node.words() for node in root.all("style"))
        found = [match[1] or "" for match in _URL.finditer(rules)]
        typeface = [fonts.data(cut) for cut in (fonts.REGULAR, fonts.BOLD)]
        held = [b64decode(url.removeprefix(_FONT)) if url.startswith(_FONT) else b"" for url in found]
        if held != typeface:
            yield "style", "the typeface and nothing else in it", "another file"
        rules, ours = (_URL.sub("", text) for text in (rules, _rules()))
        at = next((n for n, (a, b) in enumerate(zip_longest(ours, rules)) if a != b), None)
        if at is not None:  # one that hides a column would do it
            here = slice(max(at - 20, 0), max(at - 20, 0) + 60)
            yield "style", ours[here], rules[here]

    def _list(self) -> Iterator[Fault]:
        """The list of columns, and the names to touch."""
        if not self.columns:
            yield from _same("columns", [], [row.words() for row in self.page.root.all("tr")])
            return
        rows = [row for body in self.page.root.all("tbody") for row in body.all("tr")]
        unread = self.building.grade.unread
        names = [c.name for c in self.columns] + list(unread)
        yield from _same("columns", names, [row.all("th")[0].words() for row in rows if row.all("th")])
        for row, column in zip(rows, self.columns, strict=False):
            yield from _row(row, column, self.part)
        for row, name in zip(rows[len(self.columns) :], unread, strict=False):
            yield from _same(f"column {name}", ["NOT READ: NO TAG"], [n.words() for n in row.all("td")])
        picked = [link for pick in self.page.root.all("ul", "pick") for link in pick.all("a")]
        yield from _same("names to touch", sorted(names), sorted(link.words() for link in picked))
        for link in (*picked, *(link for row in rows for link in row.all("a"))):
            yield from self._leads(link)

    def _leads(self, link: Node) -> Iterator[Fault]:
        """A name leads to what bears it: its tag, or its line in the list."""
        name, place = link.words(), self.page.place(link.attributes.get("href", "").removeprefix("#"))
        heads = [node.words() for node in place.nodes() if node.tag in ("h3", "th")]
        if not heads or heads[0].removeprefix("Tag ").partition(" · ")[0] != name:
            yield f"link {name}", f"a way to {name}", " ".join(heads) or "nowhere"

    def _tags(self) -> Iterator[Fault]:
        """Each tag's heading with its stamp, and what is read aloud for it."""
        codes = [part for sheet in self.packet.sheets if sheet.kind == "tags" for part in sheet.parts]
        found = self.page.root.all("article")
        want = [f"{title} · stamp {code}" for title, code in codes]
        yield from _same("tags", want, [n.all("h3")[0].words() if n.all("h3") else "" for n in found])
        for node, column in zip(found, self.columns, strict=False):
            said = " ".join(source(n.attributes.get("aria-label", "")) for n in node.all("svg"))
            for figure in _figures(column, self.building):
                if figure not in said:
                    yield f"tag {column.name}, read aloud", figure, said

    def pictures(self) -> Iterator[Difference]:
        """Every picture, line by line and run by run; tags against the layout's numbers too."""
        root = self.page.root
        tags: list[Seen] = []
        for node, column in zip(root.all("article"), self.columns, strict=False):
            seen, told = self._picture(
                f"{FILE} tag {column.name}", node, Plan(tag(self.part, column, standard(self.building.job))[0])
            )
            yield from told
            tags += seen
        if self.columns:
            yield from audit_numbers.tags(tags, self.part, f"{FILE} tags")
        for number, (node, sheet) in enumerate(zip(root.all("details", "sheet"), self.packet.sheets, strict=False), 1):
            label = f"{FILE} page {number} ({sheet.title})"
            yield from self._picture(label, node, self.plan(sheet.page.drawing))[1]

    def _picture(self, label: str, node: Node, plan: Plan) -> tuple[list[Seen], list[Difference]]:
        drawn = node.all("svg")
        if len(drawn) != 1:
            return [], [Difference(label, "picture", "one", str(len(drawn)))]
        silent = copy(plan)
        silent.runs = [run._replace(typed=None) for run in plan.runs]  # nothing is copied off a picture
        seen, told = compare(label, silent, self.page.pictures[drawn[0].number])
        return [seen], told


def _row(row: Node, column: Column, building: Building) -> Iterator[Fault]:
    """A line of the list against its column: offset, which way, high or low, every cut."""
    style, place = building.job.style, f"column {column.name}"
    yield from _same(
        f"{place}, offset", [shown(abs(column.offset), style)], [n.words() for n in row.all("span", "big")]
    )
    words = row.words()
    if ("BELOW THE" in words) != (column.offset < 0):
        yield f"{place}, offset", "below the bottom end" if column.offset < 0 else "up from the bottom end", words
    if ("SHOOT AGAIN" in words) != column.flagged:
        yield place, "SHOOT AGAIN" if column.flagged else "no doubt", words
    for said in (column.seat, column.longer):
        if " ".join(said.split()) not in words:
            yield place, said, words
    cuts = [(f"{cut.name} {cut.where}", shown(column.up(cut.station), style)) for cut in column.cuts]
    found = [(n.all("span")[0].words(), n.all("b")[0].words()) for n in row.all("li") if n.all("span") and n.all("b")]
    for name, height in cuts:
        told = [text for called, text in found if called == " ".join(name.split())]
        yield from _same(f"{place}, {name}", [height], told)
    fit = [n for n in (column.fit.cut_off * column.fit.made, column.fit.packing, column.fit.seat_block) if n]
    more = [text for called, text in found if called not in [" ".join(name.split()) for name, _ in cuts]]
    yield from _same(f"{place}, besides its cuts", sorted(shown(n, style) for n in fit), sorted(more))


def _figures(column: Column, building: Building) -> list[str]:
    style = building.job.style
    heights = [f"{cut.name}: {cut.where}: {shown(column.up(cut.station), style)}" for cut in column.cuts]
    way = "BELOW THE" if column.offset < 0 else "up from the"
    return [f"Tag {column.name},", f"offset {shown(abs(column.offset), style)}, {way}", column.seat, *heights]


def _same(place: str, want: list[str], found: list[str]) -> Iterator[Fault]:
    """One fault where two lists differ: the first difference."""
    if len(want) != len(found):
        yield place, f"{len(want)} in number", f"{len(found)}: {', '.join(found)[:200]}"
        return
    yield from ((place, a, b) for a, b in zip(want, found, strict=True) if a != b)
