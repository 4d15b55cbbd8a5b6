"""The reader of SVG files on small files written by hand: every number of what it reads, and the words for whatever is
none of ours."""

from __future__ import annotations

from pathlib import Path

import pytest

import fonts
from sheets import audit_svg
from sheets.audit_model import Read, edge
from sheets.audit_svg import Unreadable
from sheets.lettering import face

SIZE = 'width="2in" height="1in"'
VIEW = 'viewBox="100 50 2000 1000"'
LINE = 'stroke="#000" fill="none"'


def glyph(char: str, mark: str = "b") -> str:
    """The glyph of a character as a file defines it."""
    cut = {"b": fonts.BOLD, "r": fonts.REGULAR}[mark]
    return f'<path id="{mark}-{ord(char):02X}" d="{face(cut).outline(char)}"/>'


def page(body: str, folder: Path, size: str = SIZE, view: str = VIEW, defs: str = "") -> Read:
    """What is read of an SVG with this *body*."""
    path = folder / "one.svg"
    head = f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" {size} {view}>'
    path.write_text(f"{head}<defs>{defs}</defs>{body}</svg>", encoding="utf-8")
    return audit_svg.read(path)


def near(*numbers: float) -> object:
    """These numbers to the last digits."""
    return pytest.approx(numbers, abs=1e-9)


# --- the page --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("size", "view", "width", "height"),
    [
        (SIZE, VIEW, 2.0, 1.0),
        ('width="50.8mm" height="25.4mm"', 'viewBox="0 0 2000 1000"', 2.0, 1.0),
        ('width="0.5in" height="12.75in"', 'viewBox="0 0 500 12750"', 0.5, 12.75),
    ],
)
def test_the_sides_of_a_page(size: str, view: str, width: float, height: float, tmp_path: Path) -> None:
    read = page("", tmp_path, size, view)
    assert (read.width, read.height) == near(width, height)
    assert (read.strokes, read.outlines, read.runs, read.odd) == ([], [], [], [])


@pytest.mark.parametrize(
    ("size", "told"),
    [
        ('width="2" height="1in"', "a side of 2"),
        ('width="2in" height="1cm"', "a side of 1cm"),
        ('width="2in" height="in"', "a side of in"),
        ('width="2in"', "'height'"),
        ('height="2in"', "'width'"),
    ],
)
def test_a_side_that_is_none(size: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(Unreadable) as wrong:
        page("", tmp_path, size)
    assert str(wrong.value) == f"not to be read ({told})"


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "no element found: line 1, column 0"),
        (b"<svg", "unclosed token: line 1, column 0"),
        (b'<svg width="1in" height="1in"/>', "'viewBox'"),
        (b'<svg width="1in" height="1in" viewBox="0 0 1"/>', "not enough values to unpack (expected 4, got 3)"),
        (b'<svg width="1in" height="1in" viewBox="0 0 1 a"/>', "could not convert string to float: 'a'"),
    ],
)
def test_what_is_no_svg(data: bytes, told: str, tmp_path: Path) -> None:
    (tmp_path / "one.svg").write_bytes(data)
    with pytest.raises(Unreadable) as wrong:
        audit_svg.read(tmp_path / "one.svg")
    assert str(wrong.value) == f"not to be read ({told})"
    with pytest.raises(FileNotFoundError):
        audit_svg.read(tmp_path / "two.svg")


SHAPE = "a view box of another shape than the page"


@pytest.mark.parametrize(
    ("width", "height", "view", "told"),
    [
        # 0.006 of a unit in the smaller side: 6e-6 of 1000
        (2.0, 1.0, "0 0 2000 1000", []),
        (2.000011, 1.0, "0 0 2000 1000", []),
        (2.000013, 1.0, "0 0 2000 1000", [SHAPE]),
        (2.0, 1.0000055, "0 0 2000 1000", []),
        (2.0, 1.0000065, "0 0 2000 1000", [SHAPE]),
        # a millionth at the least
        (200.00018, 100.0, "0 0 200000 100000", []),
        (200.00022, 100.0, "0 0 200000 100000", [SHAPE]),
        (100.0, 200.00018, "0 0 100000 200000", []),
        (100.0, 200.00022, "0 0 100000 200000", [SHAPE]),
    ],
)
def test_the_shape_of_the_view_box(width: float, height: float, view: str, told: list[str], tmp_path: Path) -> None:
    read = page("", tmp_path, f'width="{width:.7f}in" height="{height:.7f}in"', f'viewBox="{view}"')
    assert read.odd == told


# --- strokes and outlines --------------------------------------------------------------------------------------------


def test_strokes(tmp_path: Path) -> None:
    """From the corner of the view, y down, to the corner of the page, y up."""
    read = page(
        f'<path d="M350 150L1100 300M2100 50L100 1050" {LINE} stroke-width="8"/>'
        + f'<g id="a"><path d="M100 50L600 50" {LINE} stroke-width="20" stroke-dasharray="5 5"/></g>'
        + f'<path d="M100 50L600 51" {LINE}/>',
        tmp_path,
    )
    assert read.strokes == [
        near(0.25, 0.9, 1.0, 0.75, 0.008, 0.0),
        near(2.0, 1.0, 0.0, 0.0, 0.008, 0.0),
        near(0.0, 1.0, 0.5, 1.0, 0.02, 1.0),
        near(0.0, 1.0, 0.5, 0.999, 0.001, 0.0),  # SVG 2, 13.5: 1 where no width is given
    ]
    assert (read.outlines, read.runs, read.odd) == ([], [], [])


def test_strokes_on_a_page_of_another_scale(tmp_path: Path) -> None:
    body = f'<path d="M2 1L4 1" {LINE} stroke-width="1"/><path d="M2 1L4 1L4 2Z" fill="#000"/>'
    read = page(body, tmp_path, view='viewBox="0 0 8 4"')
    assert read.strokes == [near(0.5, 0.75, 1.0, 0.75, 0.25, 0.0)]
    assert read.outlines == [near(0.5, 0.75, 1.0, 0.75, 1.0, 0.5, 0.0, 0.0)]
    assert read.odd == []


@pytest.mark.parametrize(
    ("style", "grey", "width"),
    [
        ("", 0.0, 0.0),
        ('fill="#000"', 0.0, 0.0),
        ('fill="rgb(51,51,51)"', 51 / 255, 0.0),
        ('fill="rgb(255,255,255)" stroke="#000" stroke-width="14"', 1.0, 0.014),
        ('fill="none" stroke="#000" stroke-width="28" stroke-miterlimit="4" id="x"', -1.0, 0.028),
        (LINE, -1.0, 0.001),
    ],
)
def test_an_outline(style: str, grey: float, width: float, tmp_path: Path) -> None:
    read = page(f'<path d="M100 1050L600 1050L600 550Z" {style}/>', tmp_path)
    assert read.outlines == [near(0.0, 0.0, 0.5, 0.0, 0.5, 0.5, grey, width)]
    assert (read.strokes, read.odd) == ([], [])


NEITHER = "a path that is neither strokes nor an outline: "


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ('d="M100 50L600 50L600 90" stroke="#000" fill="none"', f"{NEITHER}M100 50L600 50L600 90"),
        ('d="M100 50L600 50"', f"{NEITHER}M100 50L600 50"),
        ('d="M100 50L600 50M1 1L2 2Z" fill="none"', f"{NEITHER}M100 50L600 50M1 1L2 2Z"),
        ('d="M100 50 600 50" fill="none"', f"{NEITHER}M100 50 600 50"),
        ('d="M100 50L600 50M1 1L2" fill="none"', f"{NEITHER}M100 50L600 50M1 1L2"),
        (f'd="M{"1" * 50} 50" fill="none"', f"{NEITHER}M{'1' * 39}"),
        ('d="M1 1L2 2L3 3Z" stroke="red"', "a line of colour red"),
        ('d="M1 1L2 2" stroke="#00f" fill="none"', "a line of colour #00f"),
    ],
)
def test_a_path_that_is_none_of_ours(path: str, told: str, tmp_path: Path) -> None:
    assert page(f"<path {path}/>", tmp_path).odd == [told]


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ('d="M100 50Q1 1 2 2" fill="none"', "could not convert string to float: '50Q1'"),
        ('d="M1 1L2 2L3 3Z" fill="red"', "a fill of red"),
        ('d="M1 1L2 2L3 3Z" fill="rgb(1,1,2)"', "a fill of rgb(1,1,2)"),
        ('d="M1 1L2 2" fill="none" stroke="#000" stroke-width="2pt"', "could not convert string to float: '2pt'"),
        ("", "'d'"),
    ],
)
def test_a_path_that_cannot_be_read(path: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(Unreadable) as wrong:
        page(f"<path {path}/>", tmp_path)
    assert str(wrong.value) == f"not to be read ({told})"


# --- what is none of ours --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("<script>1</script>", ["an element script"]),
        ('<circle cx="1" r="2"/>', ["an element circle cx=1 r=2"]),
        (f'<image href="{"a" * 30}"/>', [f"an element image href={'a' * 20}"]),
        ('<path d="M1 1L2 2" fill="none" class="a"/>', ["an element path d=M1 1L2 2 fill=none class=a"]),
        ('<g class="a"><path d=""/></g>', ["an element g class=a"]),
        ('<g id="a"><g id="b"><use/></g></g><rect/>', ["an element use", "an element rect"]),
        ("<title>T</title><desc>D</desc><metadata>M</metadata>", []),
    ],
)
def test_an_element_that_is_none_of_ours(body: str, told: list[str], tmp_path: Path) -> None:
    assert page(body, tmp_path).odd == told


def test_the_root_holds_what_ours_do(tmp_path: Path) -> None:
    assert page("", tmp_path, f'{SIZE} version="1.1" baseProfile="full"').odd == []
    told = page("", tmp_path, 'onload="a()" width="2in" height="1in"').odd
    assert told == ["an element svg onload=a() width=2in height=1in viewBox=100 50 2000 1000"]


# --- glyphs ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("defs", "told"),
    [
        (glyph("A") + glyph("A", "r"), []),
        ('<path id="b-41" d="M0 0"/>', ["a glyph b-41 of another shape than in the typeface"]),
        ('<path id="b-20"/>', []),
        ('<path id="b-41"/>', ["a glyph b-41 of another shape than in the typeface"]),
        ('<path d="M0 0"/>', ["a glyph  of another shape than in the typeface"]),
        (glyph("A").replace("b-41", "c-41"), ["a glyph c-41 of another shape than in the typeface"]),
        (glyph("A").replace("b-41", "r-41"), ["a glyph r-41 of another shape than in the typeface"]),
    ],
)
def test_glyphs_are_those_of_the_typeface(defs: str, told: list[str], tmp_path: Path) -> None:
    assert page("", tmp_path, defs=defs).odd == told


def test_a_space_reaches_nowhere() -> None:
    assert edge(fonts.BOLD, "A") <= face(fonts.BOLD).advance("A")
    assert edge(fonts.BOLD, "A") > face(fonts.BOLD).advance("A") / 2
    assert edge(fonts.BOLD, " ") == float("-inf")
