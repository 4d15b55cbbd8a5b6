"""Pages of two PDF files that are the same to the byte: the page of the second need not be looked at anew.

A page is all that a reader can come to from it: its own object, what it takes over from the tree of pages, and every
object that these name, fonts and operators among them (ISO 32000-1, 7.3 and 7.7.3). Only the numbers of objects may
differ. Whatever is not laid out as plainly as we write it is no page to this module: it is then read in full, so a
change anywhere in a file only costs time.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from hashlib import sha256

_TABLE = re.compile(
    rb"xref\n0 (\d+)\n((?:\d{10} \d{5} [nf] ?\r?\n)+)trailer\n<<([^<>]*(?:<\w*>[^<>]*)*)>>\nstartxref\n(\d+)\n%%EOF\s*"
)
_KEY = re.compile(rb"/(\w+)")
_KEYS = {b"ID", b"Info", b"Root", b"Size"}
_ENTRY = re.compile(rb"(\d{10}) (\d{5}) ([nf])")
_OBJECT = re.compile(rb"(\d+) 0 obj\b(.*)endobj\s*", re.S)
_STREAM = re.compile(rb">>\s*stream\r?\n")
_NAMED = re.compile(rb"(\d+) (\d+) R\b")
_PARENT = re.compile(rb"/Parent (\d+) 0 R\b")
_KIDS = re.compile(rb"/Kids \[([\d\sR]*)\]")
_OWN = re.compile(rb"/(?:Kids \[[\d\sR]*\]|Count \d+)")


class _Odd(ValueError):
    """Not as we write a file."""


def pages(data: bytes) -> tuple[bytes, ...]:
    """What stands for each page of a PDF file, in their order: the same bytes for pages that are the same. Empty where
    the file is not laid out as ours are."""
    try:
        return tuple(_File(data).pages())
    except (ValueError, RecursionError):  # among them a key that is there twice, a number of thousands of figures
        return ()


class _File:
    """The objects of one file. They fill it from the first to the table that tells where each begins, without a gap, so
    none can be there twice."""

    def __init__(self, data: bytes) -> None:
        start = data.rfind(b"xref\n0 ")
        table = _TABLE.fullmatch(data, max(start, 0))
        if table is None or int(table[4]) != start or set(_KEY.findall(table[3])) != _KEYS:
            raise _Odd
        self.trailer = table[3]
        places = [int(at) for at, age, state in _ENTRY.findall(table[2])[1:] if (age, state) == (b"00000", b"n")]
        if not places or len(places) + 1 != int(table[1]):
            raise _Odd
        if not all(line.startswith(b"%") for line in data[: places[0]].splitlines()):
            raise _Odd
        self.objects: dict[int, tuple[bytes, bytes]] = {}
        ends = [*places[1:], start]
        for number, (at, end) in enumerate(zip(places, ends, strict=True), 1):
            self.objects[number] = _parted(number, data[at:end])
        self.known: dict[int, bytes] = {}
        self.open: set[int] = set()

    def pages(self) -> Iterator[bytes]:
        """What stands for each page."""
        (root,) = re.findall(rb"/Root (\d+) 0 R\b", self.trailer)
        (tree,) = re.findall(rb"/Pages (\d+) 0 R\b", self._head(int(root)))
        (kids,) = _KIDS.findall(self._head(int(tree)))
        above = self._spelled(_OWN.sub(b"", self._head(int(tree))))
        for number, _ in _NAMED.findall(kids):
            head = self._head(int(number))
            if _PARENT.findall(head) != [tree] or b"/Type /Page\n" not in head:
                raise _Odd
            own = self._spelled(_PARENT.sub(b"", head))
            yield sha256(b"%d " % len(above) + above + own).digest()

    def _head(self, number: int) -> bytes:
        """What an object says of itself, without its stream."""
        if number not in self.objects:
            raise _Odd
        return self.objects[number][0]

    def _digest(self, number: int) -> bytes:
        """What stands for an object and all that it names."""
        if number not in self.known:
            if number in self.open:
                raise _Odd
            self.open.add(number)
            spelled = self._spelled(self._head(number))
            self.known[number] = sha256(b"%d " % len(spelled) + spelled + self.objects[number][1]).digest()
        return self.known[number]

    def _spelled(self, head: bytes) -> bytes:
        """*head* with what stands for each object in the place of its number."""
        return _NAMED.sub(self._named, head)

    def _named(self, named: re.Match[bytes]) -> bytes:
        if named[2] != b"0":
            raise _Odd
        return self._digest(int(named[1]))


def _parted(number: int, data: bytes) -> tuple[bytes, bytes]:
    """What an object says of itself, and its stream with the word for it."""
    found = _OBJECT.fullmatch(data)
    if found is None or int(found[1]) != number:
        raise _Odd
    stream = _STREAM.search(found[2])
    if stream is None:
        return found[2], b""
    rest = found[2][stream.start() :]
    if not rest.rstrip().endswith(b"endstream"):
        raise _Odd
    return found[2][: stream.start()], rest
