"""PDF files in which something is painted otherwise than its numbers tell: the reader names it."""

from __future__ import annotations

import pytest
from pdf_by_hand import file

from sheets import audit_pdf

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
