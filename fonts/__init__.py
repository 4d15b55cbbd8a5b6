"""The typefaces everything is printed in: IBM Plex Sans Condensed, SIL Open Font License (OFL.txt)."""

from __future__ import annotations

from importlib.resources import files

REGULAR = "regular"
BOLD = "bold"  # the SemiBold cut: figures and headings
CUTS = {REGULAR: "IBMPlexSansCondensed-Regular.ttf", BOLD: "IBMPlexSansCondensed-SemiBold.ttf"}


def data(cut: str) -> bytes:
    """The bytes of one TrueType file; *cut* is ``REGULAR`` or ``BOLD``, anything else is a ``KeyError``."""
    return files(__name__).joinpath(CUTS[cut]).read_bytes()
