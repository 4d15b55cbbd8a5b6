"""The floor of the packet benchmark: a bare reportlab script that writes as many lines and strings, and nothing else.

Run as ``python tests/bench_floor.py LINES STRINGS PAGES OUT.pdf``.
"""

from __future__ import annotations

import sys
from io import BytesIO
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

import fonts


def main(lines: int, strings: int, pages: int, out: Path) -> None:
    """Spread *lines* and *strings* evenly over *pages*, in our own two cuts."""
    for cut in fonts.CUTS:
        pdfmetrics.registerFont(TTFont(cut, BytesIO(fonts.data(cut))))
    canvas = Canvas(str(out), pagesize=(612, 792), pageCompression=1, invariant=1)
    for page in range(pages):
        canvas.setFont(fonts.BOLD if page % 2 else fonts.REGULAR, 9)
        for i in range(lines // pages):
            y = 36 + i * 720 / max(lines // pages, 1)
            canvas.line(36, y, 576, y)
        for i in range(strings // pages):
            canvas.drawString(36 + i % 9 * 60, 36 + i // 9 * 8, f"13-9 {i % 16}/16")
        canvas.showPage()
    canvas.save()


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), Path(sys.argv[4]))
