"""The reader of the page for the phone on small pages written by hand: the tree, every number of its pictures, and the
words for whatever is none of ours."""

from __future__ import annotations

import pytest

import fonts
from sheets import audit_html
from sheets.audit_html import Node
from sheets.audit_model import Read, inked
from sheets.audit_svg import Unreadable
from sheets.lettering import face


def odd(source: str) -> list[str]:
    """What is named of a page."""
    return audit_html.read(source.encode()).odd


def near(*numbers: float) -> object:
    return pytest.approx(numbers, abs=1e-9)


# --- the tree --------------------------------------------------------------------------------------------------------

PAGE = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>T</title></head>
<body><h1> Tamarack  <b>hay</b>
 barn </h1><ul class="bar pick"><li><a href="#x">one</a></li><li class="bars">two</li></ul>
<p id="x">A&nbsp;&amp;&#x27; <svg viewBox="0 0 1000 1000"><path d="M0 0L1 1" fill="none"/></svg>after</p>
<svg viewBox="0 0 2000 500"></svg></body></html>
"""


def test_the_tree_of_a_page() -> None:
    page = audit_html.read(PAGE.encode())
    assert page.odd == []
    assert [node.tag for node in page.root.nodes()] == [
        *("html", "head", "meta", "title", "body", "h1", "b", "ul", "li", "a", "li", "p", "svg", "svg")
    ]
    (html,) = page.root.all("html")
    assert html.attributes == {"lang": "en"}
    assert [part.tag for part in html.inner if isinstance(part, Node)] == ["head", "body"]
    (head,) = page.root.all("h1")
    assert head.words() == "Tamarack hay barn"
    assert [part if isinstance(part, str) else part.tag for part in head.inner] == [" Tamarack  ", "b", "\n barn "]
    assert [node.words() for node in page.root.all("li")] == ["one", "two"]
    assert [node.words() for node in page.root.all("li", "bars")] == ["two"]
    assert page.root.all("li", "bar") == []
    for name in ("bar", "pick"):
        assert [node.words() for node in page.root.all("ul", name)] == ["onetwo"]
    assert page.root.all("ul", "bar pick") == []
    assert page.place("x").words() == "A &' after"
    assert page.place("y") == Node("")
    assert [(node.number, node.inner) for node in page.root.all("svg")] == [(0, []), (1, [])]
    assert {node.number for node in page.root.nodes() if node.tag != "svg"} == {-1}
    assert [(one.width, one.height) for one in page.pictures] == [near(1.0, 1.0), near(2.0, 0.5)]


@pytest.mark.parametrize("text", ["", " ", "a", " a ", " a  b "])
def test_blanks_around_words_are_kept(text: str) -> None:
    assert audit_html._english(text) == (text if "  " not in text.strip() else " a b ")


# --- what is none of ours --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("source", "told"),
    [
        ("<p>a</p>", []),
        ("<main><script>1</script></main>", ["an element script"]),
        ('<img src="a" alt="b">', ["an element img src alt", "no end of img"]),
        ('<p onclick="a">b</p>', ["an element p onclick"]),
        ('<p id="a" title="b" hidden>c</p>', ["an element p id title hidden"]),
        ('<p id="a" id="b">c</p>', ["an element p id"]),
        ('<p href="#a" id="a">c</p>', ["an element p href id"]),
        ('<th scope="col" colspan="2">a</th>', ["an element th scope colspan"]),
        ('<td colspan="2">a</td><th scope="row">b</th>', []),
        ('<p class="a" id="b" aria-label="c" role="d" tabindex="0">e</p>', []),
        ('<p class="a" id="b" aria-label="c" aria-labelledby="b" role="d" tabindex="0">e</p>', []),
        ('<input type="checkbox" id="a"><label for="a">b</label>', []),
        ('<meta http-equiv="a" content="b"><meta name="c"><meta charset="d">', []),
        (
            '<a href="https://example.com/">b</a>',
            ["an address https://example.com/", "a way to https://example.com/, which is nowhere"],
        ),
        (f'<a href="{"x" * 50}">b</a>', [f"an address {'x' * 40}", f"a way to {'x' * 50}, which is nowhere"]),
        ('<a href="#a" id="a">b</a>', []),
        ("<a>b</a>", []),
        ("<p>a<br/>b</p>", ["an element br that closes itself"]),
        ("<p>a", ["no end of p"]),
        ("<div><p>a", ["no end of div", "no end of p"]),
        ("</p>", ["an end of p where nothing is open"]),
        ("<p>a</div></p>", ["an end of div where p is open"]),
        ("<p>a</p></p>", ["an end of p where nothing is open"]),
        ("<!-- a -->", ["a comment"]),
        ("<?a b>", ["an instruction"]),
        ("<![CDATA[a]]>", ["a declaration"]),
        ('<p id="a">b</p><p id="a">c</p><p id="a">d</p>', ["more than one a"]),
        ('<p id="a">b</p><label for="c">d</label>', ["a way to c, which is nowhere"]),
        ('<p aria-labelledby="c">d</p>', ["a way to c, which is nowhere"]),
        ('<a href="#">b</a>', ["a way to #, which is nowhere"]),
        ('<svg viewBox="0 0 1 1" style="--in:4.9"></svg>', []),
        ('<svg viewBox="0 0 1 1" style="--in:4.9;a:b"></svg>', ["a style --in:4.9;a:b"]),
        (f'<svg viewBox="0 0 1 1" style="{"y" * 50}"></svg>', [f"a style {'y' * 40}"]),
        ('<svg viewBox="0 0 1 1" width="4"></svg>', ["an element svg viewbox width"]),
        ('<p style="--in:1">a</p>', ["an element p style"]),
    ],
)
def test_what_has_no_business_in_it(source: str, told: list[str]) -> None:
    assert odd(source) == told


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"\xff", "'utf-8' codec can't decode byte 0xff in position 0: invalid start byte"),
        (b'<svg viewBox="0 0 1"></svg>', "not enough values to unpack (expected 4, got 3)"),
        (b'<svg class="a"></svg>', "'viewBox'"),
        (b'<svg viewBox="0 0 1 1"><path></svg>', "mismatched tag: line 1, column 31"),
        (b'<svg viewBox="0 0 1 1"><path fill="none"/></svg>', "'d'"),
        (b'<svg viewBox="0 0 1 1"><path d="M0 0L1 1L2 2Z" fill="red"/></svg>', "a fill of red"),
        (b'<svg viewBox="0 0 1 1"><path d="M0 0L1 1L2 2Z" fill="#010203"/></svg>', "a fill of #010203"),
        (b'<svg viewBox="0 0 1 1"><text class="c" x="1" y="2">a</text></svg>', "'c'"),
        (b'<svg viewBox="0 0 1 1"><text y="2">a</text></svg>', "'x'"),
    ],
)
def test_what_is_no_page(data: bytes, told: str) -> None:
    with pytest.raises(Unreadable) as wrong:
        audit_html.read(data)
    assert str(wrong.value) == f"not to be read ({told})"


# --- pictures --------------------------------------------------------------------------------------------------------


def picture(inner: str, view: str = "0 0 2000 1000") -> Read:
    """What is read of a picture of 2 in by 1 in."""
    (found,) = audit_html.read(f'<p>a\n<svg viewBox="{view}">{inner}</svg></p>'.encode()).pictures
    return found


def test_a_view_of_a_part() -> None:
    assert picture("").odd == []
    for view in ("1 0 2000 1000", "0 1 2000 1000", "-1 0 2000 1000"):
        read = picture("", view)
        assert (read.width, read.height, read.odd) == (2.0, 1.0, ["a view of a part"])


def test_strokes_of_a_picture() -> None:
    read = picture(
        '<path d="M250 100L1000 250M2000 0L0 1000" fill="none" stroke="#000" stroke-width="8"/>'
        '<path d="M0 0L500 0" fill="none" stroke="#000" stroke-width="20" stroke-dasharray="5 5"/>'
        '<path d="M0 0L500 0" fill="none"/>'
    )
    assert read.strokes == [
        near(0.25, 0.9, 1.0, 0.75, 0.008, 0.0),
        near(2.0, 1.0, 0.0, 0.0, 0.008, 0.0),
        near(0.0, 1.0, 0.5, 1.0, 0.02, 1.0),
        near(0.0, 1.0, 0.5, 1.0, 0.0, 0.0),
    ]
    assert (read.outlines, read.runs, read.odd) == ([], [], [])


@pytest.mark.parametrize(
    ("style", "grey", "width"),
    [
        ('fill="#000000"', 0.0, 0.0),
        ('fill="#999999"', 153 / 255, 0.0),
        ('fill="#ffffff" stroke="#000" stroke-width="14"', 1.0, 0.014),
        ('fill="none" stroke="#000" stroke-width="14"', -1.0, 0.014),
    ],
)
def test_an_outline_of_a_picture(style: str, grey: float, width: float) -> None:
    read = picture(f'<path d="M0 1000L500 1000L500 500Z" {style}/>')
    assert read.outlines == [near(0.0, 0.0, 0.5, 0.0, 0.5, 0.5, grey, width)]
    assert (read.strokes, read.odd) == ([], [])


NEITHER = "a path that is neither strokes nor an outline: "


@pytest.mark.parametrize(
    ("inner", "told"),
    [
        ('<path d="M0 0L1 1L2 2" fill="none"/>', f"{NEITHER}M0 0L1 1L2 2"),
        ('<path d="M0 0L1 1" fill="#000000"/>', f"{NEITHER}M0 0L1 1"),
        ('<path d="M0 0L1 1ZM2 2L3 3Z" fill="none"/>', None),
        ('<path d="M0 0L1 1M2 2L3 3Z" fill="none"/>', f"{NEITHER}M0 0L1 1M2 2L3 3Z"),
        ('<path d="M0 0 1 1" fill="none"/>', f"{NEITHER}M0 0 1 1"),
        (f'<path d="M{"1" * 50} 0" fill="none"/>', f"{NEITHER}M{'1' * 39}"),
        ('<path d="M0 0L1 1" fill="none" stroke="#fff" stroke-width="1"/>', "a line of colour #fff"),
        ('<path d="M0 0L1 1" fill="none" id="a"/>', "an element path d fill id"),
        ('<path d="M0 0L1 1" fill="none"><title>a</title></path>', "an element path d fill"),
        ('<image href="a"/>', "an element image href"),
        ("<g/>", "an element g"),
        ('<text x="1" y="2" onload="a">b</text>', "an element text x y onload"),
        ('<text transform="rotate(9)">b</text>', "words moved by rotate(9)"),
        (f'<text transform="{"r" * 50}">b</text>', f"words moved by {'r' * 40}"),
        ('<text x="1" y="2" transform="translate(1 2)rotate(90)">b</text>', "words moved by translate(1 2)rotate(90)"),
    ],
)
def test_what_is_none_of_ours_in_a_picture(inner: str, told: str | None) -> None:
    if told is None:
        with pytest.raises(Unreadable):
            picture(inner)
    else:
        assert picture(inner).odd == [told]


def words(shown: str, own: str = 'x="500" y="750"', long: float = 200.0) -> Read:
    return picture(f'<text {own} font-size="200" textLength="{long}">{shown}</text>')


@pytest.mark.parametrize(("own", "cut"), [("", fonts.REGULAR), ('class="b"', fonts.BOLD)])
def test_a_run_of_a_picture(own: str, cut: str) -> None:
    read = words("AB", f'x="500" y="750" {own}')
    (found,) = read.runs
    assert found[:5] == near(0.5, 0.25, 0.2, 0.0, 0.0)
    assert (found.words, found.typed) == ("AB", None)
    # the letters are set as long as they are told to be: their ink ends in proportion
    assert found.wide == pytest.approx(inked(cut, "AB") * 0.2 / face(cut).width("AB"))
    assert (read.strokes, read.outlines, read.odd) == ([], [], [])


def test_a_run_up_the_picture() -> None:
    (found,) = words("AB", 'transform="translate(500 750)rotate(-90)"').runs
    assert found[:5] == near(0.5, 0.25, 0.2, 1.0, 0.0)


def test_the_grey_and_the_blanks_of_a_run() -> None:
    (found,) = words("A\u00a0 B ", 'x="0" y="0" fill="#999999"', 300.0).runs
    assert found.grey == pytest.approx(153 / 255)
    assert found.words == "A B"
    assert found.wide == pytest.approx(inked(fonts.REGULAR, "A  B") * 0.3 / face(fonts.REGULAR).width("A  B "))
    (found,) = words("A\u00a0", 'x="0" y="0"', 100.0).runs
    assert found.words == "A"
    assert found.wide == pytest.approx(inked(fonts.REGULAR, "A") * 0.1 / face(fonts.REGULAR).width("A "))
