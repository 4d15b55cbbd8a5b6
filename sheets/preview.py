"""A picture (PNG) of a page. The only module that knows cairosvg and needs the Cairo library."""

from __future__ import annotations

import re
from pathlib import Path

WIDEST = 32767  # pixels; the limit of a Cairo image surface
_SIZE = re.compile(r'<svg\b[^>]*?\b(width|height)="([\d.]+)(in|mm)"[^>]*?\b(width|height)="([\d.]+)(in|mm)"')


class NoCairo(Exception):
    """The Cairo library is not on this machine; the message says what to install."""

    def __init__(self) -> None:
        super().__init__(
            "previews need the Cairo library: on Debian and Ubuntu install libcairo2, "
            "on macOS run 'brew install cairo', on Windows install the GTK runtime"
        )


def _pixels(svg: str, dpi: float) -> tuple[int, int]:
    """Width and height at *dpi* of one of our own SVG files; a ``ValueError`` if it is none, or gets too
    large."""
    found = _SIZE.search(svg[:2000])
    if found is None:
        raise ValueError("not an SVG file of ours: no size in in or mm")
    sides = {
        found[1]: float(found[2]) / (25.4 if found[3] == "mm" else 1.0),
        found[4]: float(found[5]) / (25.4 if found[6] == "mm" else 1.0),
    }
    width, height = (round(sides[side] * dpi) for side in ("width", "height"))
    if not (0 < width <= WIDEST and 0 < height <= WIDEST):
        raise ValueError(f"a picture of {width} x {height} pixels; at most {WIDEST} a side: use a lower dpi")
    return width, height


def write(svg_path: Path, png_path: Path, dpi: float) -> None:
    """Draw the SVG file at *svg_path*, one of our own, to *png_path* at *dpi* dots an inch, black on white.

    ``NoCairo`` if the Cairo library is missing, ``ValueError`` if the picture would be over 32,767 pixels a
    side.
    """
    source = svg_path.read_bytes()
    width, height = _pixels(source.decode(), dpi)
    try:
        import cairosvg
    except OSError:
        raise NoCairo from None
    # A size in pixels and nothing else: cairosvg given a dpi beside a scale enlarges twice.
    picture = cairosvg.svg2png(
        bytestring=source,
        output_width=width,
        output_height=height,
        background_color="white",
        unsafe=False,
    )
    png_path.write_bytes(picture)
