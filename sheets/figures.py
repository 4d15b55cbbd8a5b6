"""Numbers in large figures of plain characters, five lines high: to be read in a terminal from two steps away."""

from __future__ import annotations

HIGH = 5
_GLYPHS = {
    "0": (" ### ", "#   #", "#   #", "#   #", " ### "),
    "1": ("  #  ", " ##  ", "  #  ", "  #  ", " ### "),
    "2": ("#### ", "    #", " ### ", "#    ", "#####"),
    "3": ("#### ", "    #", " ### ", "    #", "#### "),
    "4": ("#  # ", "#  # ", "#####", "   # ", "   # "),
    "5": ("#####", "#    ", "#### ", "    #", "#### "),
    "6": (" ### ", "#    ", "#### ", "#   #", " ### "),
    "7": ("#####", "   # ", "  #  ", " #   ", " #   "),
    "8": (" ### ", "#   #", " ### ", "#   #", " ### "),
    "9": (" ### ", "#   #", " ####", "    #", " ### "),
    " ": ("   ", "   ", "   ", "   ", "   "),
    "/": ("    #", "   # ", "  #  ", " #   ", "#    "),
    ".": ("  ", "  ", "  ", "##", "##"),
    "'": ("#", "#", " ", " ", " "),
    '"': ("# #", "# #", "   ", "   ", "   "),
    "-": ("    ", "    ", "####", "    ", "    "),
    "+": ("     ", "  #  ", "#####", "  #  ", "     "),
    "f": (" ##", "#  ", "###", "#  ", "#  "),
    "t": ("#  ", "###", "#  ", "#  ", " ##"),
    "i": ("#", " ", "#", "#", "#"),
    "n": ("    ", "    ", "### ", "#  #", "#  #"),
    "m": ("     ", "     ", "#### ", "# # #", "# # #"),
    "c": ("   ", "   ", " ##", "#  ", " ##"),
}
_SIGNS = str.maketrans("′’″”−–", "''\"\"--")


def large(text: str, width: int) -> tuple[str, ...]:
    """*text* in large figures; nothing where it has a sign that we have no figure for, or is wider than *width*."""
    plain = " ".join(text.lower().translate(_SIGNS).split())
    if not plain or any(c not in _GLYPHS for c in plain):
        return ()
    lines = tuple(" ".join(_GLYPHS[c][row] for c in plain).rstrip() for row in range(HIGH))
    return lines if max(map(len, lines)) <= width else ()
