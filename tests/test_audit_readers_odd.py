"""PDF and SVG files in which something is painted otherwise than its numbers tell: the reader names it."""

from __future__ import annotations

from pathlib import Path

import pytest
from pdf_by_hand import file
from test_audit_readers import glyph, page

from sheets import audit_pdf, audit_svg

BOX = "36 18 m 108 18 l 108 54 l 36 54 l"
NEITHER = "a path that is neither strokes nor an outline"
COLOUR = "a line of colour"


def odd(content: str) -> list[str]:
    """What is named of a page with this content."""
    (read,) = audit_pdf.read(file(content)).pages
    return read.odd


@pytest.mark.parametrize(
    ("path", "told"),
    [
        (f"{BOX} h f", []),
        (f"{BOX} h S", []),
        ("36 18 72 36 re B", []),
        ("0 0 m 72 0 l 72 36 l h f", []),
        (f"{BOX} S", [NEITHER]),
        (f"{BOX} f", [NEITHER]),
        ("36 18 m 108 18 108 54 36 54 c h f", [NEITHER]),
        ("36 18 m 108 18 l 108 54 108 54 36 54 c h S", [NEITHER]),
        ("0 0 m 9 9 l 18 9 m 9 0 l h f", [NEITHER]),
        ("0 0 m 72 0 l 36 18 m 72 36 l S", [NEITHER]),
        ("0 0 m 72 0 l f", [NEITHER]),
        ("0 0 m 72 36 l S", []),
    ],
)
def test_an_outline_is_straight_and_closed(path: str, told: list[str]) -> None:
    assert odd(path) == told


@pytest.mark.parametrize(
    ("state", "told"),
    [
        ("", []),
        ("0 G", []),
        ("0 0 0 RG", []),
        ("1 G", [COLOUR]),
        ("0.01 G", [COLOUR]),
        ("1 0 0 RG", [COLOUR]),
        ("0 0 1 RG", [COLOUR]),
        ("/Faint gs", [COLOUR]),
    ],
)
def test_lines_are_black(state: str, told: list[str]) -> None:
    assert odd(f"{state} 0 0 m 72 36 l S") == told
    assert odd(f"{state} {BOX} h S") == told
    assert odd(f"{state} 0.5 g {BOX} h B") == told
    assert odd(f"{state} {BOX} h f") == [], "no line is drawn"


@pytest.mark.parametrize("mode", range(8))
def test_words_are_filled(mode: int) -> None:
    """ISO 32000-1, 9.3.6: 0 fills; 3 shows nothing, the others draw or clip."""
    told = odd(f"BT /H 14.4 Tf {mode} Tr 1 0 0 1 36 18 Tm (TOP) Tj ET")
    assert told == ([] if mode == 0 else ["a run that is not filled: TOP"])


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ("q 36 18 9 9 re W n 0 0 m 72 36 l S Q", ["something that is clipped"]),
        ("q 36 18 9 9 re W n 0 0 m 72 36 l S 0 0 m 72 36 l S Q 0 0 m 72 36 l S", ["something that is clipped"] * 2),
        ("q 36 18 9 9 re W n BT /H 14.4 Tf 1 0 0 1 36 18 Tm (TOP) Tj ET Q", ["something that is clipped"]),
        ("q 36 18 9 9 re n 0 0 m 72 36 l S Q", []),
    ],
)
def test_nothing_is_clipped(content: str, told: list[str]) -> None:
    assert odd(content) == told


# --- SVG files that are styled from elsewhere ------------------------------------------------------------------------

HIDE = "<style>path{display:none}</style>"


@pytest.mark.parametrize(
    ("body", "defs", "told"),
    [
        ("", HIDE, ["an element style"]),
        ("", f"<g>{HIDE}</g>", ["an element g"]),
        ("", '<clipPath id="a"/>', ["an element clipPath id=a"]),
        ("", f'<path id="a" d="">{HIDE}</path>', ["an element path id=a d="]),
        ("", glyph("A").replace("<path ", '<path class="a" '), ["an element path class=a id=b-41 d=M"]),
        ("", glyph("A"), []),
        (f"<g><defs>{HIDE}</defs></g>", "", ["an element defs"]),
        (f"<desc>{HIDE}</desc>", "", ["an element desc"]),
        (f"<g><title>{HIDE}</title></g>", "", ["an element title"]),
        ("<title>One</title><desc>Two</desc><metadata>3</metadata>", "", []),
        ("<?xml-stylesheet href='a.css'?>", "", ["an instruction"]),
        ("<!-- a word -->", "", []),
    ],
)
def test_nothing_changes_how_an_svg_looks(body: str, defs: str, told: list[str], tmp_path: Path) -> None:
    found = page(body, tmp_path, defs=defs).odd
    assert [one[: len(want)] for one, want in zip(found, told, strict=True)] == told


def test_the_head_of_a_file_says_what_it_is(tmp_path: Path) -> None:
    """One instruction, at its beginning."""
    own = b'<svg xmlns="http://www.w3.org/2000/svg" width="1in" height="1in" viewBox="0 0 1 1"/>'
    path = tmp_path / "one.svg"
    for head, told in (
        (b"", []),
        (b'<?xml version="1.0"?>', []),
        (b'<?xml version="1.0"?><?xml-stylesheet href="a.css"?>', ["an instruction"]),
    ):
        path.write_bytes(head + own)
        assert audit_svg.read(path).odd == told
