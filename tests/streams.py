"""Streams to speak into: a terminal of any width and code page, in memory."""

from __future__ import annotations

import io
import re

ESCAPES = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")


class Screen(io.TextIOWrapper):
    """A terminal as far as Python can tell; ``COLUMNS`` says how wide it is."""

    def __init__(self, encoding: str = "utf-8") -> None:
        self.kept = io.BytesIO()
        super().__init__(self.kept, encoding=encoding, errors="strict", newline="\n", write_through=True)

    def isatty(self) -> bool:
        """A terminal."""
        return True

    @property
    def raw_text(self) -> str:
        """All that was written, with its escapes."""
        return self.kept.getvalue().decode(self.encoding)

    @property
    def lines(self) -> list[str]:
        """The same without colours, line by line."""
        return ESCAPES.sub("", self.raw_text).split("\n")
