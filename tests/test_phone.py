"""The page for the phone as a file: valid HTML with nothing in it but our own, the same every time, every column and
every sheet there, names that look like markup only names."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser

import html5lib
import jobs
import pytest
from msgspec.structs import replace
from printed import Printed, metric_building

from layouts.building import Building
from layouts.costs import Cost, Warned
from layouts.lengths import show
from sheets import packet
from sheets.html import element, raw_style, text
from sheets.paper import PAPERS

# What a person or a program might try: markup, the ends of attributes and of sections, entities, a format.
HOSTILE = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror='alert(1)'>",
    "]]></svg></style><b>",
    "&lt;i&gt; &amp;#60; --><!--",
    "javascript:alert(1)//{0}%s${x}",
]


class Tags(HTMLParser):
    """Every element that opens, with its attributes, and all words."""

    def __init__(self, source: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.words: list[str] = []
        self.feed(source)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {key: value or "" for key, value in attrs}))

    handle_startendtag = handle_starttag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


@pytest.fixture
def source(printed: Printed) -> str:
    """The file of a packet."""
    return (printed.folder / "index.html").read_text(encoding="utf-8")


def named(name: str) -> Building:
    """A building that is called so by its job, place, crew, a warning, and a column with a name of markup."""
    built = jobs.build({"job.name": name, "job.place": name, "job.crew": name}, {"A1": 45, "A2": 45.5, "A3": 44})
    assert built.job.job.name == name
    first, *rest = built.columns
    return replace(built, columns=(replace(first, name='"<b>'), *rest), warned=(Warned(Cost.LOOK, name), *built.warned))


def page_of(building: Building, only: str | None = None) -> str:
    return packet.build(building, PAPERS["letter"], only).page().decode()


# --- the file ---------------------------------------------------------------------------------------------------------


def test_it_is_html_without_a_parse_error(printed: Printed, source: str) -> None:
    """By the parsing rules of the HTML standard, as html5lib has them."""
    if printed.metric or printed.paper != (8.5, 11.0):
        source = page_of(printed.building, "tags")  # html5lib takes a second for a whole one
    parser = html5lib.HTMLParser()
    parser.parse(source)
    assert parser.errors == []


def test_a_parse_error_would_be_told() -> None:
    parser = html5lib.HTMLParser()
    parser.parse("<!DOCTYPE html><html lang=en><title>a</title><p><b>a</p></b>")
    assert parser.errors


def test_ids_are_unique_and_links_lead_to_them(source: str) -> None:
    found = Tags(source).found
    names = Counter(attributes["id"] for _, attributes in found if "id" in attributes)
    assert set(names.values()) == {1}
    links = [attributes["href"] for _, attributes in found if "href" in attributes]
    assert len(links) > 50
    assert {link[:1] for link in links} == {"#"}
    assert {link[1:] for link in links} <= names.keys()


# fmt: off
READ_ONLY = {
    "a", "article", "b", "body", "details", "div", "footer", "h1", "h2", "h3", "head", "header", "html", "i",
    "input", "label", "li", "main", "meta", "nav", "ol", "p", "path", "section", "span", "style", "summary",
    "svg", "table", "tbody", "td", "text", "th", "thead", "title", "tr", "ul",
}
# fmt: on
"""Elements that neither run nor fetch anything by themselves (HTML standard); ``input`` is a checkbox here, without a
form."""


def test_nothing_runs_and_nothing_is_fetched(source: str) -> None:
    """No script, no event, no address outside the file: what is left of addresses is the typeface itself."""
    found = Tags(source).found
    assert {tag for tag, _ in found} <= READ_ONLY
    for _, attributes in found:
        assert not [
            key for key in attributes if key.startswith("on") or key in ("src", "srcset", "xlink:href", "action")
        ]
        assert "url(" not in attributes.get("style", "")
    urls = re.findall(r"url\(([^)]{0,21})", source)
    assert urls == ["data:font/ttf;base64,"] * 2
    assert "@import" not in source
    assert "://" not in re.sub(r"base64,[^)]*", "", source)
    assert "default-src 'none'; style-src 'unsafe-inline'; font-src data:" in [
        attributes.get("content", "") for tag, attributes in Tags(source).found if tag == "meta"
    ]


def test_on_paper_it_says_where_to_print_from_and_nothing_else(source: str) -> None:
    """In print every child of the body is hidden but that one line; its words are the file's own."""
    rules = re.search(r"@media print \{(.*?)\n\}", source, re.DOTALL)
    assert rules is not None
    assert [line.strip() for line in rules[1].strip().splitlines()] == [
        "body > * { display: none; }",
        "body > .paper { display: block; }",
    ]
    line = "Print packet.pdf at actual size instead; this page is not to scale."
    assert f'<p class="paper">{line}</p>' in source


def test_the_same_job_gives_the_same_bytes(printed: Printed) -> None:
    paper = PAPERS["letter" if printed.paper == (8.5, 11.0) else "a4"]
    again = packet.build(printed.building, paper).page()
    assert again == (printed.folder / "index.html").read_bytes()


def test_it_is_small_enough_to_send(printed: Printed) -> None:
    """Messengers refuse from 16 MB, mail from 20; a phone opens 2 MB at once (common practice, no source)."""
    assert (printed.folder / "index.html").stat().st_size < 2_000_000


# --- what it says -----------------------------------------------------------------------------------------------------


def test_warnings_come_first(printed: Printed, source: str) -> None:
    places = [source.index(f'<section id="{name}"') for name in ("warnings", "columns", "tags", "sheets")]
    assert places == sorted(places)
    section = source[places[0] : places[1]]
    words = " ".join("".join(Tags(section).words).split())
    assert printed.building.warnings
    assert all(" ".join(warning.split()) in words for warning in printed.building.warnings)


def rows(source: str) -> Iterator[str]:
    """The words of each line of the list of columns."""
    body = source[source.index("<tbody>") : source.index("</tbody>")]
    for row in body.split("</tr>")[:-1]:
        yield " ".join(" ".join(Tags(row).words).split())


def test_every_column_has_its_offset_its_side_and_its_cuts(printed: Printed, source: str) -> None:
    style = printed.building.job.style
    found = list(rows(source))
    columns = printed.building.columns
    assert len(found) == len(columns) + len(printed.building.grade.unread)
    for words, column in zip(found, columns, strict=False):
        assert words.startswith(f"{column.name} {' '.join(show(abs(column.offset), style).split())} ")
        assert " ".join(column.seat.split()) in words
        for cut in column.cuts:
            assert f"{cut.name} {cut.where} {show(column.up(cut.station), style)}" in words.replace("\u00a0", " ")
    for words, name in zip(found[len(columns) :], printed.building.grade.unread, strict=True):
        assert words == f"{name} NOT READ: NO TAG"


def test_no_length_is_torn_over_two_lines_of_the_phone() -> None:
    """The space in 13'-9 1/16" is one that ends no line, and the one before a unit; others do."""
    assert text("up 13'-9 1/16\" and 12 ft").replace("&#x27;", "'") == "up 13'-9\u00a01/16&quot; and 12\u00a0ft"


def test_every_name_leads_to_its_tag(printed: Printed, source: str) -> None:
    for column in printed.building.columns:
        assert source.count(f'<a href="#tag-{column.name}"') >= 2
        start = source.index(f'<article id="tag-{column.name}"')
        assert f"<h3>Tag {column.name}  ·  stamp " in source[start : start + 200]


def test_every_sheet_is_there_with_its_stamp(printed: Printed, source: str) -> None:
    built = packet.build(printed.building, PAPERS["letter" if printed.paper == (8.5, 11.0) else "a4"])
    summaries = re.findall(r'<details class="sheet" id="page-(\d+)"><summary>([^<]*)</summary>', source)
    want = [
        (str(n), text(f"{sheet.title}  ·  page {n}  ·  stamp {sheet.stamp}")) for n, sheet in enumerate(built.sheets, 1)
    ]
    assert summaries == want
    assert source.count("<svg ") == len(want) + len(printed.building.columns)


def test_names_to_touch_are_in_the_order_they_are_looked_for() -> None:
    building = metric_building()
    columns = [replace(c, name=n) for c, n in zip(building.columns, ("B10", "A2", "B9", "A10"), strict=False)]
    grade = replace(building.grade, unread=("A9",))
    found = page_of(replace(building, columns=tuple(columns), grade=grade), "tags")
    pick = found[found.index('<ul class="pick">') :].partition("</ul>")[0]
    assert Tags(pick).words == ["A2", "A9", "A10", "B9", "B10"]


def test_one_kind_alone_has_a_page_of_its_own() -> None:
    building = metric_building()
    walls = page_of(building, "walls")
    assert "Print walls.pdf at actual size instead" in walls
    assert "<table" not in walls, "numbers of tags stand where their tags are"
    assert "Wall diagrams" in walls
    tags = page_of(building, "tags")
    assert tags.count("<article") == len(building.columns)


def test_a_job_without_readings_has_no_columns_to_show() -> None:
    found = page_of(jobs.build())
    assert "<article" not in found
    assert 'href="#tags"' not in found


def test_what_is_below_the_bottom_end_or_to_be_shot_again_says_so() -> None:
    building = metric_building()
    first, second, *rest = building.columns
    columns = (replace(first, offset=-1.0), replace(second, flagged=not second.flagged), *rest)
    found = list(rows(page_of(replace(building, columns=columns), "tags")))
    assert found[0].startswith(f"{first.name} 25 mm BELOW THE BOTTOM END ")
    assert ["BELOW" in words for words in found] == [True, *[False] * len(found[1:])]
    flagged = [column.flagged for column in columns]
    assert ["SHOOT AGAIN BEFORE CUTTING" in words for words in found[: len(flagged)]] == flagged
    assert set(flagged) == {True, False}


# --- names ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_name_is_only_a_name(name: str) -> None:
    plain, found = Tags(page_of(named("Plain"), "tags")), Tags(page_of(named(name), "tags"))
    kinds = Counter(tag for tag, _ in found.found)
    assert kinds == Counter(tag for tag, _ in plain.found), "it adds no element"
    assert {tag: set(a) for tag, a in found.found} == {tag: set(a) for tag, a in plain.found}, "and no attribute"
    assert name in found.words


def test_a_control_character_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be written"):
        text("a\x07")
    with pytest.raises(ValueError, match="cannot be written"):
        element("p", id="a\x00")
    with pytest.raises(ValueError, match="markup"):
        raw_style("a</style>")
