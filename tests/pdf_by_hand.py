"""PDF files written by hand, operator by operator (ISO 32000-1), for tests of what reads them."""

from __future__ import annotations

STATES = "/ExtGState << /Half << /Type /ExtGState /ca 0.5 >> /Faint << /Type /ExtGState /CA 0.5 >> >>"
FONTS = "/Font << /H << /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >> >>"
WISHES = "/ViewerPreferences << /PrintScaling /None /Duplex /Simplex >>"


def file(*contents: str, page: str = "", box: str = "0 0 144 72", wishes: str = WISHES) -> bytes:
    """A file with a page of each of *contents*; *page* is more of what every page says of itself."""
    count = len(contents)
    kids = " ".join(f"{3 + 2 * i} 0 R" for i in range(count))
    own = [f"<< /Type /Catalog /Pages 2 0 R {wishes} >>", f"<< /Type /Pages /Kids [{kids}] /Count {count} >>"]
    for i, content in enumerate(contents):
        media = f"/MediaBox [{box}]" if box else ""
        held = f"/Contents {4 + 2 * i} 0 R /Resources << {FONTS} {STATES} >>"
        own.append(f"<< /Type /Page /Parent 2 0 R {media} {held} {page} >>")
        data = content.encode("latin-1")
        own.append(f"<< /Length {len(data)} >>\nstream\n{content}\nendstream")
    data, places = b"%PDF-1.7\n", []
    for number, one in enumerate(own, 1):
        places.append(len(data))
        data += f"{number} 0 obj\n{one}\nendobj\n".encode("latin-1")
    table = "".join(f"{at:010d} 00000 n \n" for at in places)
    size = len(own) + 1
    tail = f"trailer\n<< /Size {size} /Root 1 0 R >>\nstartxref\n{len(data)}\n%%EOF\n"
    return data + f"xref\n0 {size}\n0000000000 65535 f \n{table}{tail}".encode("latin-1")
