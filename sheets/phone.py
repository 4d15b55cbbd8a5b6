"""The page for the phone: what the packet says, in one file that opens without a network and runs nothing.

Warnings first, then every column with its offset and its cuts, its tag as large as the phone is wide, one swipe each,
then every sheet. It is read, never measured: a screen has no scale, and on paper the page says where to print from.
Pictures are drawn from the shapes that are printed (``sheets.picture``), and the file is read back like all others
(``sheets.audit_phone``).
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Sequence
from functools import cache
from importlib.resources import files
from itertools import groupby
from typing import TYPE_CHECKING

import fonts
from layouts.building import Building
from layouts.languages import ENGLISH_CODE
from sheets import cautions, phone_columns
from sheets.frame import SECTIONS
from sheets.html import Html, document, element, raw_style, text
from sheets.language import spoken
from sheets.picture import picture

if TYPE_CHECKING:
    from sheets.packet import Sheet

FILE = "index.html"
POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:"
ONLY_TO_READ = "Not to scale. Read it here, print {pdf} at actual size to mark from."
ON_PAPER = "Print {pdf} at actual size instead; this page is not to scale."


def page(building: Building, sheets: Sequence[Sheet], since: str | None = None) -> bytes:
    """The file: *sheets* in printing order, and the columns of *building* whose tags are among them. *since* is the
    packet that they are printed anew after, where they are only some."""
    job = building.job.job
    kinds = list(dict.fromkeys(sheet.kind for sheet in sheets))
    pdf = "packet.pdf" if len(kinds) > 1 else f"{kinds[0]}.pdf"
    columns = phone_columns.sections(building, sheets)
    body = [
        element("a", text("Skip to the warnings"), class_="skip", href="#warnings"),
        element("p", text(ON_PAPER.format(pdf=pdf)), class_="paper"),
        _head(building, pdf, since),
        _bar(building, bool(columns)),
        element("main", _warnings(building), *columns, _sheets(sheets)),
        _caution(building),
    ]
    return document(_code(), _meta(f"{job.name}  ·  packet"), Html("\n".join(body))).encode()


def _code() -> str:
    """The language of most of the words (BCP 47)."""
    speech = spoken()
    return speech.code if speech else ENGLISH_CODE


def _meta(title: str) -> Html:
    return Html(
        "\n".join(
            [
                element("meta", charset="utf-8"),
                element("meta", http_equiv="Content-Security-Policy", content=POLICY),
                element("meta", name="viewport", content="width=device-width, initial-scale=1"),
                element("title", text(title)),
                raw_style(style()),
            ]
        )
    )


@cache
def style() -> str:
    """The style sheet with the typeface in it: 290 kB, as the font files stand."""
    rules = files(__package__ or "sheets").joinpath("phone.css").read_text(encoding="utf-8")
    for place, cut in (("REGULAR", fonts.REGULAR), ("BOLD", fonts.BOLD)):
        rules = rules.replace(f"url({place})", f"url(data:font/ttf;base64,{b64encode(fonts.data(cut)).decode()})")
    return rules


# --- head -----------------------------------------------------------------------------------------------------------


def _head(building: Building, pdf: str, since: str | None) -> Html:
    job = building.job.job
    lines = [element("h1", text(job.name))]
    about = "  ·  ".join(w for w in (job.place, job.crew, job.date) if w)
    if about:
        lines.append(element("p", text(about)))
    if since is not None:
        lines.append(element("p", text(f"Only what is new since the packet in the folder {since}.")))
    lines.append(element("p", text(ONLY_TO_READ.format(pdf=pdf)), class_="scale"))
    return element("header", *lines)


def _bar(building: Building, columns: bool) -> Html:
    """The way to each part, always in sight."""
    warnings = len(building.warnings)
    wanted = [("warnings", f"Warnings {warnings}" if warnings else "Warnings")]
    if columns:
        wanted += [("columns", "Columns"), ("tags", "Tags")]
    wanted.append(("sheets", "Pages"))
    links = [element("li", element("a", text(words), href=f"#{name}")) for name, words in wanted]
    return element("nav", element("ul", *links, class_="bar"), aria_label="Parts of this page")


def _warnings(building: Building) -> Html:
    head = element("h2", text("Warnings"), id="warnings-head")
    told = [element("li", text(words)) for words in building.warnings]
    inner = element("ol", *told) if told else element("p", text("None."))
    box = element("div", head, inner, class_="warnings")
    return element("section", box, id="warnings", aria_labelledby="warnings-head")


def _caution(building: Building) -> Html:
    told = [element("li", text(words)) for words in cautions.of_job(building.job.style)]
    return element("footer", element("h2", text("Caution")), element("ul", *told, class_="caution"))


# --- sheets ---------------------------------------------------------------------------------------------------------


def _sheets(sheets: Sequence[Sheet]) -> Html:
    """Every sheet under its kind: two touches to any of them."""
    kinds = [_kind(kind, list(some)) for kind, some in groupby(enumerate(sheets, 1), lambda pair: pair[1].kind)]
    return element(
        "section",
        element("h2", text("Pages"), id="sheets-head"),
        element("p", text("Touch a kind, then a sheet.")),
        Html("\n".join(kinds)),
        id="sheets",
        aria_labelledby="sheets-head",
    )


def _kind(kind: str, sheets: Sequence[tuple[int, Sheet]]) -> Html:
    count = f"{len(sheets)} page{'s' * (len(sheets) > 1)}"
    head = element("summary", element("h3", text(f"{SECTIONS[kind]}  ·  {count}")))
    return element("details", head, Html("\n".join(_sheet(*pair) for pair in sheets)), class_="kind")


def _sheet(number: int, sheet: Sheet) -> Html:
    called = f"{sheet.title}  ·  page {number}  ·  stamp {sheet.stamp}"
    zoom = f"large-{number}"
    return element(
        "details",
        element("summary", text(called)),
        element("input", type="checkbox", class_="zoom", id=zoom),
        element("label", text("Large"), class_="large", for_=zoom),
        element(
            "div",
            picture(sheet.page.drawing, called),
            class_="scroll",
            tabindex="0",
            role="region",
            aria_label=f"Picture  ·  {sheet.title}  ·  page {number}",
        ),
        class_="sheet",
        id=f"page-{number}",
    )
