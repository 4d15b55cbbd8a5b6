"""Where the commands speak: a terminal, or a file or pipe that takes plain lines.

rich is not imported here: ``sheets.screen`` and ``sheets.progress`` do that, and only in a terminal.
"""

from __future__ import annotations

import codecs
import os
import re
import sys
import unicodedata
from textwrap import wrap
from typing import TextIO

from sheets import tongue

STAND_IN = "plain"
USUAL = 80  # letters across, where a terminal does not tell
LEAST = 20
SIGNS = {
    **dict.fromkeys("\N{HYPHEN}\N{NON-BREAKING HYPHEN}\N{FIGURE DASH}\N{EN DASH}\N{EM DASH}\N{MINUS SIGN}", "-"),
    **dict.fromkeys("\N{PRIME}\N{LEFT SINGLE QUOTATION MARK}\N{RIGHT SINGLE QUOTATION MARK}", "'"),
    **dict.fromkeys("\N{DOUBLE PRIME}\N{LEFT DOUBLE QUOTATION MARK}\N{RIGHT DOUBLE QUOTATION MARK}", '"'),
    "\N{HORIZONTAL ELLIPSIS}": "...",
    "\N{RIGHTWARDS ARROW}": "->",
    "\N{LEFTWARDS ARROW}": "<-",
    "\N{UPWARDS ARROW}": "^",
    "\N{DOWNWARDS ARROW}": "v",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{MIDDLE DOT}": "-",
    "\N{BULLET}": "*",
    "\N{DEGREE SIGN}": " deg",
    "\N{PLUS-MINUS SIGN}": "+/-",
    "\N{LESS-THAN OR EQUAL TO}": "<=",
    "\N{GREATER-THAN OR EQUAL TO}": ">=",
    "\N{SUPERSCRIPT TWO}": "2",
    "\N{SUPERSCRIPT THREE}": "3",
    "\N{NO-BREAK SPACE}": " ",
}
"""What stands for a sign that a code page lacks. A letter has no stand-in but ``?``: a name is not to be changed."""
_JOINED = re.compile(r"(?<=[\d])[ ](?=\d+/\d|(?:mm|ft|in|m|lb|kg|psf)\b)")
_KEPT = "\N{NO-BREAK SPACE}"  # textwrap breaks at blanks alone


def prepare() -> None:
    """Make standard output and error safe: what a console cannot show gets a stand-in, never a traceback."""
    codecs.register_error(STAND_IN, _stand_in)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors=STAND_IN)


def _stand_in(error: UnicodeError) -> tuple[str, int]:
    """For ``codecs``: signs by ``SIGNS``, fractions by their figures, letters by a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = []
    for i in range(error.start, error.end):
        sign = error.object[i]
        spelt = unicodedata.normalize("NFKC", sign).replace("\N{FRACTION SLASH}", "/")
        if "/" in spelt and spelt != sign and error.object[i - 1 : i].isdigit():
            spelt = f" {spelt}"
        found.append(SIGNS.get(sign) or (spelt if spelt.isascii() and "/" in spelt else "?"))
    return "".join(found), error.end


def shown(text: str, stream: TextIO) -> str:
    """*text* as *stream* will show it: what stands under its letters can be counted on."""
    code = getattr(stream, "encoding", None) or "utf-8"
    codecs.register_error(STAND_IN, _stand_in)
    return text.encode(code, STAND_IN).decode(code, "replace")


def width(stream: TextIO) -> int:
    """Letters across that a terminal has for a line; 0 where *stream* is none. On Windows one less than it says: in its
    old consoles a line that fills the last place too is followed by an empty one."""
    if not stream.isatty():
        return 0
    told = os.environ.get("COLUMNS", "")
    columns = int(told) if told.isdecimal() else 0
    if not columns:
        try:
            columns = os.get_terminal_size(stream.fileno()).columns
        except (OSError, ValueError):
            columns = 0
    return max(columns or USUAL, LEAST) - (os.name == "nt")


def coloured(stream: TextIO) -> bool:
    """Whether *stream* takes colour: a terminal, unless NO_COLOR is set (no-color.org) or it says that it is dumb."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def wrapped(text: str, across: int, indent: str = "") -> list[str]:
    """*text* in lines of no more than *across*, if that is not 0, never parted within a number and its fraction. The
    lines that follow stand in by the line's own blanks and *indent*."""
    if not across or len(text) <= across:
        return [text]
    own = text[: len(text) - len(text.lstrip(" "))]
    joined = _JOINED.sub(_KEPT, text)
    follow = own + indent
    lines = wrap(joined, across, subsequent_indent=follow, break_on_hyphens=False, break_long_words=False)
    return [line.replace(_KEPT, " ") for line in lines] or [""]


def say(text: str = "", *, err: bool = False, indent: str = "  ") -> None:
    """A line on standard output or error, in the language that is spoken; in a terminal it is wrapped to its width."""
    stream = sys.stderr if err else sys.stdout
    for line in wrapped(tongue.turned(text), width(stream), indent):
        print(line, file=stream)


def styled(text: str, style: str, stream: TextIO) -> None:
    """A line in a *style* of rich, like ``bold``, where *stream* takes colour; else as it is."""
    if style and coloured(stream):
        from sheets import screen

        screen.line(text, style, stream)
    else:
        print(text, file=stream)
