"""Reads the page for the phone back, with the standard library's parsers and nothing of the code that wrote it.

What stands round the pictures becomes a tree of plain nodes; each picture becomes a ``Read`` like a page of an SVG
file. Elements, attributes and addresses that are none of ours are named in ``Page.odd``: a script, an event, anything
that is fetched.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterator
from functools import cached_property, lru_cache
from html.parser import HTMLParser

from msgspec import Struct, field

import fonts
from sheets.audit_model import Read, Run, inked
from sheets.audit_svg import Unreadable
from sheets.language import source
from sheets.lettering import face

UNITS = 1000.0  # of a picture, to an inch
_PICTURE = re.compile("(<svg [^>]*>)(.*?)</svg>", re.DOTALL)
_TURNED = re.compile(r"translate\(([^ ]+) ([^ ]+)\)rotate\(-90\)")
_GREY = re.compile("#([0-9a-f]{2})\\1\\1")
_WIDTH = re.compile(r"--in:[0-9.]+")
_VOID = {"meta", "input"}
_GLOBAL = {"class", "id", "aria-label", "aria-labelledby", "role", "tabindex"}
_PLAIN = {
    *("head", "title", "style", "body", "header", "nav", "main", "section", "article", "footer", "div", "span", "p"),
    *("h1", "h2", "h3", "ul", "ol", "li", "b", "i", "table", "thead", "tbody", "tr", "details", "summary"),
}
_OWN: dict[str, set[str]] = {
    "html": {"lang"},
    "meta": {"charset", "http-equiv", "content", "name"},
    "a": {"href"},
    "th": {"scope"},
    "td": {"colspan"},
    "input": {"type"},
    "label": {"for"},
    "svg": {"viewbox", "style"},
}
_PATH = {"d", "fill", "stroke", "stroke-width", "stroke-dasharray"}
_TEXT = {"x", "y", "transform", "font-size", "textLength", "lengthAdjust", "class", "fill"}


def _english(text: str) -> str:
    """What a text was turned from, with its own blanks around it."""
    core = text.strip()
    return text.replace(core, source(" ".join(core.split()))) if core else text


class Node(Struct):
    """An element, or the page itself: what it holds, and of a picture its *number*."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    inner: list[Node | str] = field(default_factory=list)
    number: int = -1

    def words(self) -> str:
        """All that it reads, spaces as one; of a text in another language the English it was turned from."""
        return " ".join("".join(map(_english, self._texts())).split())

    def _texts(self) -> Iterator[str]:
        for part in self.inner:
            yield from part._texts() if isinstance(part, Node) else [part]

    def all(self, tag: str, name: str = "") -> list[Node]:
        """Every *tag* in it of the class *name*, in order."""
        return [n for n in self.nodes() if n.tag == tag and (not name or name in n.attributes.get("class", "").split())]

    def nodes(self) -> Iterator[Node]:
        """Every element in it, in order."""
        left = [part for part in reversed(self.inner) if isinstance(part, Node)]
        while left:
            node = left.pop()
            yield node
            left += [part for part in reversed(node.inner) if isinstance(part, Node)]


class Page(Struct, dict=True):
    """The file as it was read."""

    root: Node
    pictures: list[Read]
    odd: list[str]

    @cached_property
    def _places(self) -> dict[str, Node]:
        return {n.attributes["id"]: n for n in self.root.nodes() if "id" in n.attributes}

    def place(self, name: str) -> Node:
        """What bears the id *name*; an empty node if nothing does."""
        return self._places.get(name, Node(""))


def read(source: bytes) -> Page:
    """The page. ``Unreadable`` if it is none, or a picture in it is no picture."""
    try:
        text = source.decode()
        parser = _Parser()
        parser.feed(_PICTURE.sub(r"\1</svg>", text))
        parser.close()
        pictures = [_picture(found[0]) for found in _PICTURE.finditer(text)]
    except (ET.ParseError, ValueError, LookupError) as error:
        raise Unreadable(f"not to be read ({error})") from None
    parser.end()
    return Page(parser.root, pictures, parser.odd)


class _Parser(HTMLParser):
    """Builds the tree, and names what has no business in it."""

    def __init__(self) -> None:
        super().__init__()
        self.root = Node("")
        self.odd: list[str] = []
        self._open = [self.root]
        self._pictures = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = Node(tag, {key: value or "" for key, value in attrs})
        if tag == "svg":
            node.number = self._pictures
            self._pictures += 1
        self._judge(node, len(attrs))
        self._open[-1].inner.append(node)
        if tag not in _VOID:
            self._open.append(node)

    def _judge(self, node: Node, count: int) -> None:
        attributes = node.attributes
        known = _GLOBAL | _OWN.get(node.tag, set())
        if node.tag not in _PLAIN | _OWN.keys() or not attributes.keys() <= known or count != len(attributes):
            self.odd.append(f"an element {node.tag} {' '.join(attributes)}".strip())
        if not attributes.get("href", "#").startswith("#"):
            self.odd.append(f"an address {attributes['href'][:40]}")
        if "style" in attributes and not _WIDTH.fullmatch(attributes["style"]):
            self.odd.append(f"a style {attributes['style'][:40]}")

    def handle_endtag(self, tag: str) -> None:
        if len(self._open) > 1 and self._open[-1].tag == tag:
            self._open.pop()
        else:
            self.odd.append(f"an end of {tag} where {self._open[-1].tag or 'nothing'} is open")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.odd.append(f"an element {tag} that closes itself")

    def handle_data(self, data: str) -> None:
        self._open[-1].inner.append(data)

    def handle_comment(self, data: str) -> None:
        self.odd.append("a comment")

    def handle_pi(self, data: str) -> None:
        self.odd.append("an instruction")

    def unknown_decl(self, data: str) -> None:
        self.odd.append("a declaration")

    def end(self) -> None:
        """All has been fed: names whatever is open still, and links that lead nowhere."""
        self.odd += (f"no end of {node.tag}" for node in self._open[1:])
        names = Counter(n.attributes["id"] for n in self.root.nodes() if "id" in n.attributes)
        self.odd += (f"more than one {name}" for name, count in names.items() if count > 1)
        for node in self.root.nodes():
            for key in ("href", "for", "aria-labelledby"):
                place = node.attributes.get(key)
                if place is not None and place.removeprefix("#") not in names:
                    self.odd.append(f"a way to {place}, which is nowhere")


# --- pictures -------------------------------------------------------------------------------------------------------


def _picture(source: str) -> Read:
    root = ET.fromstring(source)
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    page = Read(wide / UNITS, high / UNITS)
    if left or top:
        page.odd.append("a view of a part")
    for element in root:
        known = {"path": _PATH, "text": _TEXT}.get(element.tag)
        if known is None or not element.attrib.keys() <= known or len(element):
            page.odd.append(f"an element {element.tag} {' '.join(element.attrib)}".strip())
        elif element.tag == "path":
            _path(page, element.attrib)
        else:
            _run(page, element)
    return page


def _path(page: Read, attributes: dict[str, str]) -> None:
    outline, fill = attributes["d"], attributes["fill"]
    width = float(attributes["stroke-width"]) / UNITS if "stroke" in attributes else 0.0
    numbers = [float(n) / UNITS for n in outline.removesuffix("Z").replace("M", " ").replace("L", " ").split()]
    numbers[1::2] = [page.height - y for y in numbers[1::2]]
    starts = outline.count("M")
    if attributes.get("stroke", "#000") != "#000":
        page.odd.append(f"a line of colour {attributes['stroke']}")
    closed = outline.endswith("Z")
    if closed and starts == 1:
        page.outlines.append((*numbers, -1.0 if fill == "none" else _grey(fill), width))
        page.under.append((len(page.strokes), len(page.runs)))
    elif not closed and fill == "none" and len(numbers) == 4 * starts and outline.count("L") == starts:
        style = (width, 1.0 if "stroke-dasharray" in attributes else 0.0)
        page.strokes += [(*numbers[i : i + 4], *style) for i in range(0, len(numbers), 4)]
    else:
        page.odd.append(f"a path that is neither strokes nor an outline: {outline[:40]}")


def _run(page: Read, element: ET.Element) -> None:
    attributes = element.attrib
    turned = _TURNED.fullmatch(attributes.get("transform", ""))
    if turned is None and "transform" in attributes:
        page.odd.append(f"words moved by {attributes['transform'][:40]}")
        return
    x, y = turned.groups() if turned else (attributes["x"], attributes["y"])
    cut = {"": fonts.REGULAR, "b": fonts.BOLD}[attributes.get("class", "")]
    words = element.text or ""
    size, long = float(attributes["font-size"]) / UNITS, float(attributes["textLength"]) / UNITS
    plain, ems, ink = _measured(cut, words)
    grey = _grey(attributes["fill"]) if "fill" in attributes else 0.0
    wide = ink * long / ems  # the letters are set as long as they are told to be
    place = float(x) / UNITS, page.height - float(y) / UNITS
    page.runs.append(Run(*place, size, float(turned is not None), grey, plain, wide, None))


@lru_cache(maxsize=20000)
def _measured(cut: str, words: str) -> tuple[str, float, float]:
    """A run with plain spaces, how many em it is long, and how far its ink reaches."""
    spaced = words.replace("\u00a0", " ")
    return " ".join(words.split()), face(cut).width(spaced), inked(cut, spaced.rstrip())


def _grey(fill: str) -> float:
    found = _GREY.fullmatch(fill)
    if not found:
        raise ValueError(f"a fill of {fill}")
    return int(found[1], 16) / 255
