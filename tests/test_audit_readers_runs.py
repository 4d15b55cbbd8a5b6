"""The reader of SVG files on runs of glyphs written by hand: their words, their places and how far their ink goes."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_audit_readers import glyph, near, page

import fonts
from sheets import audit_svg
from sheets.audit_model import Read, edge
from sheets.audit_svg import LOST
from sheets.lettering import face

EM = face(fonts.BOLD).units_per_em
SCALE = 0.2  # units of the view for one of the font's
SPACE = face(fonts.BOLD).advances[" "]
A, B = (face(fonts.BOLD).advances[char] for char in "AB")
LEVEL = f"matrix({SCALE},0,0,-{SCALE},500,750)"  # 0.4 in from the left, 0.3 in up
AB = (("A", 0), ("B", A))
INK = (A + edge(fonts.BOLD, "B")) * SCALE / 1000


def uses(*placed: tuple[str, int], mark: str = "b") -> str:
    """Glyphs where they stand on their line."""
    return "".join(
        f'<use xlink:href="#{mark}-{ord(char):02X}"' + (f' x="{at}"/>' if at else "/>") for char, at in placed
    )


def run(folder: Path, inner: str, transform: str = LEVEL, style: str = "", around: str = "{}") -> Read:
    """What is read of a page with one run."""
    body = around.format(f'<g transform="{transform}" {style}>{inner}</g>')
    return page(body, folder, defs=glyph("A") + glyph("B") + glyph(" ") + glyph("A", "r"))


def test_a_run(tmp_path: Path) -> None:
    read = run(tmp_path, uses(*AB))
    (found,) = read.runs
    assert found[:5] == near(0.4, 0.3, EM * SCALE / 1000, 0.0, 0.0)
    assert (found.words, found.typed) == ("AB", None)
    assert found.wide == pytest.approx(INK, abs=1e-9)
    assert (read.strokes, read.outlines, read.odd) == ([], [], [])


def test_a_run_that_reads_up_the_page(tmp_path: Path) -> None:
    read = run(tmp_path, uses(*AB), f"matrix(0,-{SCALE},-{SCALE},0,500,750)")
    (found,) = read.runs
    assert found[:5] == near(0.4, 0.3, EM * SCALE / 1000, 1.0, 0.0)
    assert found.wide == pytest.approx(INK, abs=1e-9)
    assert read.odd == []


@pytest.mark.parametrize(
    ("style", "grey"), [("", 0.0), ('fill="#000"', 0.0), ('fill="rgb(102,102,102)"', 0.4), ('id="x"', 0.0)]
)
def test_the_grey_of_a_run(style: str, grey: float, tmp_path: Path) -> None:
    read = run(tmp_path, uses(*AB), style=style)
    assert ([found.grey for found in read.runs], read.odd) == ([grey], [])


@pytest.mark.parametrize(
    ("inner", "around", "typed"),
    [
        ("<title>Own</title>", "{}", "Own"),
        ("<title></title>", "{}", None),
        ("", "<g><title>Whole</title>{}</g>", "Whole"),
        ("<title>Own</title>", "<g><title>Whole</title>{}</g>", "Own"),
        ("", "<g><title>Whole</title><g>{}</g></g>", "Whole"),
        ("", "<g><title>Whole</title><g><title>Part</title>{}</g></g>", "Part"),
        ("", "<g><title>Whole</title><g><title></title>{}</g></g>", None),
        ("", "<title>Page</title>{}", None),
        ("", "<g><title>Other</title></g>{}", None),
    ],
)
def test_what_a_reader_is_given_for_a_run(inner: str, around: str, typed: str | None, tmp_path: Path) -> None:
    read = run(tmp_path, inner + uses(*AB), around=around)
    assert ([(found.words, found.typed) for found in read.runs], read.odd) == ([("AB", typed)], [])


@pytest.mark.parametrize(
    ("placed", "words", "ends"),
    [
        ((("A", 0), ("A", A)), "AA", A + edge(fonts.BOLD, "A")),
        ((("A", 0), ("B", A + SPACE)), "A B", A + SPACE + edge(fonts.BOLD, "B")),
        ((("A", 0), ("B", A + 3 * SPACE)), "A   B", A + 3 * SPACE + edge(fonts.BOLD, "B")),
        ((("A", 0), ("B", A + SPACE + 1)), f"A{LOST}B", A + SPACE + 1 + edge(fonts.BOLD, "B")),
        ((("A", 0), ("B", A - SPACE)), f"A{LOST}B", max(edge(fonts.BOLD, "A"), A - SPACE + edge(fonts.BOLD, "B"))),
        ((("A", 0), ("B", A - 1)), f"A{LOST}B", A - 1 + edge(fonts.BOLD, "B")),
        # one that goes back does not reach further
        ((("A", 9 * SPACE), ("B", SPACE)), f"{' ' * 9}A{LOST}B", 9 * SPACE + edge(fonts.BOLD, "A")),
        ((("A", SPACE),), " A", SPACE + edge(fonts.BOLD, "A")),
        ((("A", 0), (" ", A), ("B", A + SPACE)), "A B", A + SPACE + edge(fonts.BOLD, "B")),
    ],
)
def test_where_glyphs_stand(placed: tuple[tuple[str, int], ...], words: str, ends: float, tmp_path: Path) -> None:
    (found,) = run(tmp_path, uses(*placed)).runs
    assert found.words == words
    assert found.wide == pytest.approx(ends * SCALE / 1000, abs=1e-9)


def test_a_glyph_of_another_cut_is_lost(tmp_path: Path) -> None:
    bold, regular = face(fonts.BOLD).advances["A"], face(fonts.REGULAR).advances["A"]
    (found,) = run(tmp_path, uses(("A", 0)) + uses(("A", bold), mark="r")).runs
    assert found.words == f"A{LOST}"
    (found,) = run(tmp_path, uses(("A", 0), mark="r") + uses(("B", regular))).runs
    assert found.words == f"A{LOST}"
    assert found.size == pytest.approx(face(fonts.REGULAR).units_per_em * SCALE / 1000)


MORE = "a run of more than glyphs: "
TWISTED = "a run that is turned or twisted, or lacks glyphs: "


@pytest.mark.parametrize(
    ("inner", "told", "words"),
    [
        (uses(*AB), [], ["AB"]),
        (uses(("A", 0)) + f'<use xlink:href="#b-42" x="{A}" y="1"/>', [f"{MORE}AB"], ["AB"]),
        ('<use xlink:href="#b-41" y="1"/>', [f"{MORE}A"], ["A"]),
        (uses(*AB).replace("<use", '<use class="a"', 1), [f"{MORE}AB"], ["AB"]),
        ("<rect/>", [f"{MORE}{LOST}", f"{TWISTED}T"], []),
        (uses(("A", 0)) + "<rect/>", [f"{MORE}A{LOST}{LOST}", f"{TWISTED}T"], []),
        (uses(("A", 0)) + '<use xlink:href="#c-41"/>', [f"{TWISTED}T"], []),
        (uses(("C", 0)), [f"{TWISTED}T"], []),
        ("<title>Own</title>" + uses(("C", 0)), [f"{TWISTED}Own"], []),
        ("", [], [""]),
    ],
)
def test_what_is_no_glyph_of_a_run(inner: str, told: list[str], words: list[str], tmp_path: Path) -> None:
    read = run(tmp_path, inner, around="<g><title>T</title>{}</g>")
    assert read.odd == told
    assert [found.words for found in read.runs] == words


@pytest.mark.parametrize(
    "head",
    [
        *("0.2,0,0,0.2", "-0.2,0,0,0.2", "0.2,0.1,0,-0.2", "0.2,0,0.1,-0.2", "0.2,0.1,0.1,-0.2", "0.2,0,0,-0.3"),
        *("0,0.2,0.2,0", "0,-0.2,-0.3,0", "0,-0.2,0.2,0", "0.1,-0.2,-0.2,0", "0,-0.2,-0.2,0.1", "0.1,-0.2,-0.2,0.1"),
        *("0,0,0,0", "0.2,0,0", "0.2,0,0,-0.2,0"),
    ],
)
def test_a_run_that_is_twisted(head: str, tmp_path: Path) -> None:
    read = run(tmp_path, uses(*AB), f"matrix({head},500,750)", around="<g><title>T</title>{}</g>")
    assert (read.runs, read.odd) == ([], [f"{TWISTED}T"])


@pytest.mark.parametrize(
    ("transform", "told"),
    [
        ("rotate(90)", "not enough values to unpack (expected at least 2, got 1)"),
        ("matrix(0.2,0,0,-0.2,a,1)", "could not convert string to float: 'a'"),
    ],
)
def test_a_run_that_cannot_be_placed(transform: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(audit_svg.Unreadable) as wrong:
        run(tmp_path, uses(*AB), transform)
    assert str(wrong.value) == f"not to be read ({told})"


def test_a_run_of_a_colour(tmp_path: Path) -> None:
    with pytest.raises(audit_svg.Unreadable) as wrong:
        run(tmp_path, uses(*AB), style='fill="red"')
    assert str(wrong.value) == "not to be read (a fill of red)"


def test_runs_on_a_page_of_another_scale(tmp_path: Path) -> None:
    body = f'<g transform="matrix(0.001,0,0,-0.001,2,1)">{uses(*AB)}</g>'
    (found,) = page(body, tmp_path, view='viewBox="0 0 8 4"', defs=glyph("A") + glyph("B")).runs
    assert found[:4] == near(0.5, 0.75, EM * 0.001 * 0.25, 0.0)
    assert found.wide == pytest.approx((A + edge(fonts.BOLD, "B")) * 0.001 * 0.25, abs=1e-9)
