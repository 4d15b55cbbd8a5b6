"""Tags, wall diagrams, cut sheets and mark tables as they are in the files, held against the layout's numbers.

Words are taken as they show, fractions spelled from their figures, and paired by where they stand: the height beside
the name of its cut, the length beside the number of its piece.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from layouts.boards import Wall
from layouts.building import Building, ColumnMark, marks_of
from layouts.columns import Column
from layouts.lengths import Style
from layouts.pieces import pieces_of
from sheets import audit_openings
from sheets.audit_model import Difference, Seen, Span, Word, shown
from sheets.language import Said, turn
from sheets.marks import label_of

LINE = 0.01  # inches: words on one line stand within this
LABEL = 0.5  # the labels of a table take more than this
CENTRED = 0.08  # and words under one another
_SECTION = r'[0-9 ./]+" x [0-9 ./]+"|[^ ]+'  # 1 5/8" x 3 5/8", or in one word 2x4, 45x90
_ROW = re.compile(rf"([0-9]+) pc  ?((?:{_SECTION})[^0-9]*?)  ?([0-9].*)")
_PIECE = re.compile(r"#([0-9]+) +([0-9][^,;#]*)")
_NUMBER = re.compile(r"#[0-9]+")
_OVER = re.compile(r"(?<=[0-9]) +/")  # PDFium ends some figures over a bar with a space of its own


def _rows(words: Sequence[Word]) -> list[list[Word]]:
    """Level words line by line from the top, each line from left to right."""
    rows: list[list[Word]] = []
    for word in sorted((w for w in words if not w.turned), key=lambda w: -w.y):
        if rows and rows[-1][0].y - word.y <= LINE:
            rows[-1].append(word)
        else:
            rows.append([word])
    return [sorted(row, key=lambda w: w.x) for row in rows]


def _body(seen: Seen) -> list[Word]:
    """The words of a page without its footer."""
    last = next((s.runs[0] for s in seen.spans() if s.name == "footer"), len(seen.runs))
    return seen.words_in(Span("", "", (0, 0), (0, 0), (0, last)))


# --- tags ------------------------------------------------------------------------------------------------------------


def tags(pages: Sequence[Seen], building: Building, name: str) -> list[Difference]:
    """Differences between the tags on *pages* and the columns that were read; *name* is the file's."""
    found = [(seen, span) for seen in pages for span in seen.spans() if span.name.startswith("tag-")]
    if len(found) != len(building.columns):
        return [Difference(name, "tags", f"{len(building.columns)} tags", str(len(found)))]
    told: list[Difference] = []
    for (seen, span), column in zip(found, building.columns, strict=True):
        told += (
            Difference(seen.label, f"tag {column.name}, {place}", want, got)
            for place, want, got in _tag(seen.words_in(span), building, column)
        )
    return told


def _tag(words: Sequence[Word], building: Building, column: Column) -> Iterator[tuple[str, str, str]]:
    style = building.job.style
    texts = [word.text for word in words]
    if column.name not in texts:
        yield "name", column.name, "nowhere"
    for said in (column.seat, column.longer):
        want = " ".join(said.split())  # whatever keeps a unit with its number
        if not any(want in text for text in texts):
            yield "words", repr(want), "nowhere"
    yield from _offset(words, column, style)
    for cut in column.cuts:
        yield from _figure(words, cut.name, cut.where, shown(column.up(cut.station), style))
    yield from _own(words, building, column)
    if column.stock is not None:
        want = f"STOCK {shown(column.stock, style)}"
        if not any(text.startswith(want) for text in texts):
            yield "stock", want, next((t for t in texts if t.startswith("STOCK")), "nothing")


def _offset(words: Sequence[Word], column: Column, style: Style) -> Iterator[tuple[str, str, str]]:
    """The figure under the caption, and whether that says up or below."""
    caption = next((w for w in words if w.text.startswith("OFFSET")), None)
    if caption is None:
        yield "offset", "a caption", "nothing"
        return
    want = shown(abs(column.offset), style)
    under = [w for w in words if w.y < caption.y - LINE and w.x + w.wide > caption.x and not w.turned]
    figure = max(under, key=lambda w: w.y, default=caption)
    if figure.text != want:
        yield "offset", want, figure.text
    if ("BELOW" in caption.text) != (column.offset < 0):
        yield "offset", "below the bottom end" if column.offset < 0 else "up from the bottom end", caption.text


def _own(words: Sequence[Word], building: Building, column: Column) -> Iterator[tuple[str, str, str]]:
    """The headers and sills of a column, and those of no other column."""
    style, edge = building.job.style, building.job.girts.edge
    wanted: dict[tuple[str, float], tuple[list[str], str]] = {}
    for board in (b for wall in building.walls for o in wall.openings for b in o.levels):
        if column.name in board.columns:
            station = round(board.low if edge == "bottom" else board.high, 9)
            under = f"{board.section.name} {edge}, rod {shown(station, style)}"
            wanted.setdefault((board.key, station), ([], under))[0].append(board.name.split(" ", 1)[1])
    told = [(f"{key} {', '.join(names)}".upper(), under, at) for (key, at), (names, under) in wanted.items()]
    for name, under, at in told:
        yield from _figure(words, name, under, shown(column.up(at), style))
    known = {name for name, _, _ in told}
    for text in (w.text for w in words):
        if text.startswith(("HEADER ", "SILL ")) and text not in known:
            yield "marks", "none of this name", text


def _figure(words: Sequence[Word], called: str, where: str, want: str) -> Iterator[tuple[str, str, str]]:
    """The figure on the line of a cut or a mark: its name with the face under it, or behind it on small tags."""
    place = f"cut {called} {where}"
    names = [w for w in words if w.text == called]
    faces = [w for w in words if w.text == where]
    pairs = [(n.y - f.y, n, n.x + n.wide) for n in names for f in faces if f.y < n.y and abs(f.x - n.x) < LINE]
    pairs += [(0.0, n, f.x + f.wide) for n in names for f in faces if abs(f.y - n.y) < LINE and f.x > n.x + n.wide]
    if not pairs:
        yield place, f"{want} beside its name", "no such cut"
        return
    _, name, end = min(pairs, key=lambda pair: pair[0])
    right = [w for w in words if w.x > end and not w.turned]
    figure = min(right, key=lambda w: abs(w.y - name.y), default=name)
    if figure.text != want:
        yield place, want, figure.text


# --- walls -----------------------------------------------------------------------------------------------------------


def wall(pages: Sequence[Seen], drawn: Wall, building: Building) -> list[Difference]:
    """Differences between the diagram of a wall on *pages* and the layout."""
    style = building.job.style
    told: list[Difference] = []
    counts = Counter(board.mark for board, _ in pieces_of(drawn))
    known: set[str] = set()
    texts: list[str] = []
    for seen in pages:
        words = [word._replace(text=_OVER.sub("/", word.text)) for word in _body(seen)]
        rows = _rows(words)
        told += (Difference(seen.label, *what) for what in _lengths(rows, building, counts, known))
        told += (Difference(seen.label, *what) for what in _offsets(words, drawn, style))
        texts += (word.text for word in words)
    told += (Difference(pages[0].label, *what) for what in audit_openings.openings(texts, drawn, building))
    told += (Difference(pages[0].label, *what) for what in audit_openings.lift(texts, drawn, building))
    for mark in counts.keys() - known:
        want = " or ".join(_of(building)[mark])
        told.append(Difference(pages[0].label, f"piece {mark}", f"{want} on this wall", "nowhere"))
    return told


def _of(building: Building) -> dict[str, list[str]]:
    """What each piece number may be called: its length as printed."""
    style = building.job.style
    found: dict[str, list[str]] = {}
    for piece in (board for w in building.walls for board, _ in pieces_of(w)):
        text = shown(piece.length, style)
        if text not in found.setdefault(piece.mark, []):
            found[piece.mark].append(text)
    return found


def _lengths(
    rows: Sequence[Sequence[Word]], building: Building, counts: Counter[str], known: set[str]
) -> Iterator[tuple[str, str, str]]:
    """Every length that stands with a piece's number, and how many of it; numbers met with one go to *known*."""
    lengths = _of(building)
    for row in rows:
        for i, word in enumerate(row):
            if "#" not in word.text:
                continue
            for number, text in _PIECE.findall(word.text):
                known.add(f"#{number}")
                if text.strip() not in lengths.get(f"#{number}", []):
                    yield f"piece #{number}", " or ".join(lengths.get(f"#{number}", ["no piece"])), text.strip()
            if _NUMBER.fullmatch(word.text) and i + 1 < len(row):
                yield from _entry(word.text, [w.text for w in row[i + 1 :]], lengths, counts, known)


def _entry(
    mark: str, after: Sequence[str], lengths: dict[str, list[str]], counts: Counter[str], known: set[str]
) -> Iterator[tuple[str, str, str]]:
    """A line of a piece table: number, how many, board, length, in one text or in cells."""
    one = _ROW.fullmatch(after[0])
    if one:
        count, length = one[1], one[3]
    elif after[0].isdigit() and len(after) >= 3:
        count, length = after[0], after[2]
    else:
        return
    known.add(mark)
    if length not in lengths.get(mark, []):
        yield f"piece {mark}", " or ".join(lengths.get(mark, ["no piece"])), length
    if count != str(counts[mark]):
        yield f"piece {mark}, how many", str(counts[mark]), count


def _offsets(words: Sequence[Word], drawn: Wall, style: Style) -> Iterator[tuple[str, str, str]]:
    """Under the name of every column its offset."""
    of = {s.name: shown(s.column.offset, style) if s.column else "NO TAG" for s in drawn.stands}
    for name in (w for w in words if w.text in of):
        middle = name.x + name.wide / 2
        under = [w for w in words if w.y < name.y - LINE and abs(w.x + w.wide / 2 - middle) < CENTRED]
        figure = max(under, key=lambda w: w.y, default=None)
        if figure is not None and figure.text != of[name.text]:
            yield f"offset under {name.text}", of[name.text], figure.text


# --- cut sheets and mark tables --------------------------------------------------------------------------------------


def cuts(pages: Sequence[Seen], building: Building, name: str) -> list[Difference]:
    """Differences between the cut sheets and mark tables on *pages* and the layout; *name* is the file's."""
    style = building.job.style
    counts = Counter({line.mark: line.count for line in building.pieces})
    known: set[str] = set()
    columns = {c.name: c for c in building.columns}
    marks = {c.name: [(m, shown(m.up, style)) for m in marks_of(building, c)] for c in building.columns}
    heights: dict[str, Counter[str]] = {}
    told: list[Difference] = []
    for seen in pages:
        rows = _rows(_body(seen))
        told += (Difference(seen.label, *what) for what in _lengths(rows, building, counts, known))
        told += (Difference(seen.label, *what) for what in _columns(rows, columns, style))
        told += (Difference(seen.label, *what) for what in _marks(rows, marks, columns, heights))
    told += (Difference(name, f"piece {mark}", "on the cut sheet", "nowhere") for mark in counts.keys() - known)
    for column in building.columns:
        want = Counter(text for _, text in marks[column.name])
        found = heights.get(column.name, Counter())
        if want != found:
            missing, extra = " ".join((want - found).elements()), " ".join((found - want).elements())
            told.append(Difference(name, f"mark table, {column.name}", missing or "nothing more", extra or "missing"))
    return told


def _columns(
    rows: Sequence[Sequence[Word]], columns: dict[str, Column], style: Style
) -> Iterator[tuple[str, str, str]]:
    """The table of columns: name, offset, length."""
    for row in rows:
        column = columns.get(row[0].text)
        if column is None or len(row) < 4 or row[1].text in columns:
            continue
        for what, want, word in (("offset", column.offset, row[1]), ("length", column.length, row[2])):
            if word.text != shown(want, style):
                yield f"column {column.name}, {what}", shown(want, style), word.text


def _marks(
    rows: Sequence[Sequence[Word]],
    marks: dict[str, list[tuple[ColumnMark, str]]],
    columns: dict[str, Column],
    heights: dict[str, Counter[str]],
) -> Iterator[tuple[str, str, str]]:
    """Mark tables: under a line of column names the height of every mark on each, held against *marks* (each and its
    height by column). All figures go to *heights*."""
    head: list[Column] = []
    left = min((row[0].x for row in rows), default=0.0)
    for row in rows:
        # a lone name at the left is the end of a label that was wrapped
        if all(word.text in columns for word in row) and row[0].x > left + LABEL:
            head = [columns[word.text] for word in row]
            continue
        if not head or len(row) != len(head) + 1:
            continue
        label, *figures = (word.text for word in row)
        for column, figure in zip(head, figures, strict=True):
            if figure == "–":
                continue  # a mark that is none of this column
            heights.setdefault(column.name, Counter())[figure] += 1
            wanted = [text for mark, text in marks[column.name] if _labelled(label, mark)]
            if wanted and figure not in wanted:
                yield f"mark table, {label}, {column.name}", " or ".join(wanted), figure


def _labelled(label: str, mark: ColumnMark) -> bool:
    """Whether the first line of a row's label is of this mark: it begins with its name; of a long one in another
    language only the whole was turned, and this is how it begins."""
    said = turn(label_of(mark))
    return label.startswith(mark.mark.name) or (isinstance(said, Said) and said.startswith(label))
