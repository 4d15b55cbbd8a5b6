"""The page for the phone against the layout: the links, the headings and the pictures with one thing changed, and all
that is told of it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from pages_seen import Told, small, told

import fonts
from layouts.lengths import Style
from sheets import audit_html, audit_phone
from sheets.audit_model import Plan
from sheets.audit_phone import _Page
from sheets.packet import Packet, build
from sheets.paper import PAPERS

INCH = Style()
FILE = "index.html"
Faults = list[tuple[str, str, str]]
A1, A2 = small().columns[:2]

# --- the page --------------------------------------------------------------------------------------------------------


@cache
def packet() -> Packet:
    """Tags alone."""
    return build(small(), PAPERS["letter"], "tags")


@cache
def source() -> str:
    return packet().page().decode()


@cache
def plans() -> dict[int, Plan]:
    return {id(sheet.page.drawing): Plan(sheet.page.drawing) for sheet in packet().sheets}


def held(text: str, of: Packet | None = None) -> _Page:
    """The page against what it should say."""
    page = audit_html.read(text.encode())
    return _Page(of or packet(), small(), small(), page, lambda drawing: plans()[id(drawing)])


def changed(old: str, new: str, after: str = "") -> str:
    """The page with one thing in the place of another, the first time it stands there."""
    text = source()
    at = text.index(old, text.index(after) if after else 0)
    return text[:at] + new + text[at + len(old) :]


def faults(old: str, new: str, after: str = "") -> Faults:
    return list(held(changed(old, new, after)).faults())


def test_a_page_that_is_right() -> None:
    assert list(held(source()).faults()) == []


CODES = [part for sheet in packet().sheets for part in sheet.parts]
TAGS = [f"{title} · stamp {code}" for title, code in CODES]
POLICY = audit_phone.POLICY
TOUCH = [("names to touch", want, found) for want, found in (("A2", "A3"), ("A3", "A4"), ("A4", "A9"))]


@pytest.mark.parametrize(
    ("old", "new", "after", "want"),
    [
        ("<h1>Tamarack hay barn", "<h1>Barn", "", [("name", "Tamarack hay barn", "Barn")]),
        ("<h1>Tamarack hay barn</h1>", "", "", [("name", "1 in number", "0: ")]),
        ("<li>No reading, no tag: A4.", "<li>All well.", "", [("warnings", "No reading, no tag: A4.", "All well.")]),
        ("default-src &#x27;none", "default-src &#x27;self", "", [("policy", POLICY, POLICY.replace("none", "self"))]),
        ("base64,AA", "base64,BB", "", [("style", "the typeface and nothing else in it", "another file")]),
        ("url(data:font", "url(data:fant", "", [("style", "the typeface and nothing else in it", "another file")]),
        (">NOT READ: NO TAG<", ">READ<", "", [("column A4", "NOT READ: NO TAG", "READ")]),
        ('href="#tag-A2" class', 'href="#tag-A3" class', "", [("link A2", "a way to A2", TAGS[2])]),
        ('<a href="#tag-A2">', '<a href="#row-A3">', "<tbody>", [("link A2", "a way to A2", "A3")]),
        ('href="#no-tag-1"', 'href="#columns-head"', "", [("link A4", "a way to A4", "nowhere")]),
        ('class="solid">A2<', 'class="solid">A9<', "", [*TOUCH, ("link A9", "a way to A9", TAGS[1])]),
        (CODES[0][1], "22222", "<h3>", [("tags", TAGS[0], "Tag A1 · stamp 22222")]),
        ("<main>", "<main><p><!-- a --></p><!-- b -->", "", [("page", "elements of ours alone", "a comment")]),
    ],
)
def test_one_thing_changed(old: str, new: str, after: str, want: Faults) -> None:
    assert faults(old, new, after) == want


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        ("* { box-", ".b { display: none } * { box-", "or-scheme: light; } .b { display: none } * { box-sizing: bor"),
        ("* { box-", ". { box-", "or-scheme: light; } . { box-sizing: border-box; } html { fon"),
    ],
)
def test_a_style_sheet_that_is_another(old: str, new: str, found: str) -> None:
    """One rule more hides what is bold."""
    assert faults(old, new) == [("style", "or-scheme: light; } * { box-sizing: border-box; } html { fon", found)]


def test_a_style_sheet_that_ends_too_early_or_too_late() -> None:
    last = "body > .paper { display: block; }\n}"
    end = "body > * { display: none; }"
    assert faults(last, "") == [("style", f"{end[-20:]} body > .paper {{ display: block; }} }}", end[-20:])]
    assert faults(last, f"{last} b {{}}") == [("style", " display: block; } }", " display: block; } } b {}")]


def test_what_is_fetched_by_the_style_sheet() -> None:
    (typeface, rules) = faults("<style>", "<style>@import a;")
    assert typeface == ("style", "the typeface and nothing else in it", "another file")
    assert rules[2].startswith(" a; /* The page for the phone")


@pytest.mark.parametrize("number", [1, 5])
def test_a_stamp_of_a_sheet(number: int) -> None:
    sheet = packet().sheets[number - 1]
    want = f"{sheet.title} · page {number} · stamp {sheet.stamp}"
    assert faults(sheet.stamp, "22222", f'id="page-{number}"') == [("sheets", want, want.replace(sheet.stamp, "22222"))]


def test_what_is_read_aloud_on_the_page() -> None:
    label = source()[source().index('aria-label="Tag A2') :]
    label = label[: label.index('"', 12)].removeprefix('aria-label="')
    low = label.replace("SEAT LOW", "SEAT HIGH")
    assert faults(label, low) == [("tag A2, read aloud", A2.seat, low.replace("&quot;", '"').replace("&#x27;", "'"))]


def test_a_row_too_few_and_a_heading_too_few() -> None:
    text = source()
    start = text.index('<tr id="row-A2">')
    end = text.index("</tr>", start) + 5
    names = [c.name for c in small().columns if c.name != "A2"] + ["A4"]
    found = list(held(text[:start] + text[end:]).faults())
    assert found[0] == ("page", "elements of ours alone", "a way to #row-A2, which is nowhere")
    assert found[1] == ("columns", "10 in number", f"9: {', '.join(names)}")
    found = faults(f"<h3>Tag A1  ·  stamp {CODES[0][1]}</h3>", "")
    assert ("tags", TAGS[0], "") in found


def test_a_packet_without_tags_lists_no_columns() -> None:
    """The rows and names of one are told of the other."""
    cuts = build(small(), PAPERS["letter"], "cuts")
    text = cuts.page().decode()
    assert list(held(text, cuts).faults()) == []
    page = text.replace("<main>", "<main><table><tr><td>A1</td></tr></table>", 1)
    assert list(held(page, cuts).faults()) == [("columns", "0 in number", "1: A1")]
    assert held(text, cuts).columns == ()
    assert held(text).columns == small().columns


def test_the_typeface_is_both_cuts() -> None:
    assert source().count("data:font/ttf;base64,") == len((fonts.REGULAR, fonts.BOLD))


# --- pictures --------------------------------------------------------------------------------------------------------


def pictures(text: str) -> Iterator[Told]:
    yield from told(held(text).pictures())


def test_pictures_that_are_right() -> None:
    assert list(pictures(source())) == []


def test_a_picture_that_is_missing_and_one_twice() -> None:
    text = source()
    start = text.index("<svg", text.index('id="page-1"'))
    end = text.index("</svg>", start) + 6
    label = f"{FILE} page 1 ({packet().sheets[0].title})"
    assert list(pictures(text[:start] + text[end:])) == [(label, "picture", "one", "0")]
    assert list(pictures(text[:end] + text[start:])) == [(label, "picture", "one", "2")]
    start = text.index("<svg", text.index('id="tag-A2"'))
    end = text.index("</svg>", start) + 6
    assert list(pictures(text[:start] + text[end:])) == [
        (f"{FILE} tag A2", "picture", "one", "0"),
        (f"{FILE} tags", "tags", "9 tags", "8"),
    ]


def test_a_figure_of_a_tag_and_a_word_of_a_page() -> None:
    found = list(pictures(changed(">SEAT LOW\u00a0</text>", ">SEAT LOT\u00a0</text>", 'id="tag-A2"')))
    assert [one[:2] for one in found] == [(f"{FILE} tag A2", "tag-A2"), (f"{FILE} tag A2", "tag A2, words")]
    assert found[1][2:] == (repr(A2.seat), "nowhere")
    found = list(pictures(changed(">TOP</text>", ">TIP</text>", 'id="page-2"')))
    assert [one[:2] for one in found] == [(f"{FILE} page 2 ({packet().sheets[1].title})", "tag-A3")]
    assert (found[0][2][:9], found[0][3][:9]) == ("'TOP' at ", "'TIP' at ")


# --- the file --------------------------------------------------------------------------------------------------------


def test_a_file_that_is_missing_or_none(tmp_path: Path) -> None:
    def check() -> list[Told]:
        return told(audit_phone.check(packet(), small(), tmp_path, Plan))

    assert check() == [(FILE, "file", "there", "missing")]
    (tmp_path / FILE).write_bytes(b"\xff")
    said = "not to be read ('utf-8' codec can't decode byte 0xff in position 0: invalid start byte)"
    assert check() == [(FILE, "file", "a page of ours", said)]
    (tmp_path / FILE).write_text(changed("<h1>Tamarack", "<h1>Tamarac"), encoding="utf-8")
    assert check() == [(FILE, "name", "Tamarack hay barn", "Tamarac hay barn")]
    (tmp_path / FILE).write_text(changed(">TOP</text>", ">TIP</text>", 'id="page-2"'), encoding="utf-8")
    assert [one[0] for one in check()] == [f"{FILE} page 2 ({packet().sheets[1].title})"]
