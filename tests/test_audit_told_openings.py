"""Tags and mark tables of a building with a door: headers and sills of a column, and those of no other."""

from __future__ import annotations

from functools import cache

import opened
import pytest
from opened import DOOR, WINDOW
from pages_seen import Told, plan_of, reworded, seen, titled, told, without_runs, word

from layouts.building import Building, marks_of
from layouts.lengths import Style, show
from sheets import audit_numbers
from sheets.audit_model import Seen, Word
from sheets.marks import label_of

INCH = Style()
RIGHT = "HEADER D9"


@cache
def door() -> Building:
    """A door in the second bay of wall A; every offset is 2."""
    return opened.read(DOOR)


def pages(kind: str) -> list[Seen]:
    return [seen(one, f"p{number}") for number, one in enumerate(plan_of(door(), kind), 1)]


def tags(*changed: Seen) -> list[Told]:
    """What is told of the tags with other pages in the place of those of the same label."""
    of = {page.label: page for page in changed}
    return told(audit_numbers.tags([of.get(p.label, p) for p in pages("tags")], door(), "tags.pdf"))


def header() -> tuple[Seen, str, str]:
    """The first tag's page with the door's header, the column, and what stands under the name."""
    page = next(p for p in pages("tags") if any(one and one.words == RIGHT for one in p.runs))
    spans = [s for s in page.spans() if s.name.startswith("tag-")]
    span = next(s for s in spans if RIGHT in [w.text for w in page.words_in(s)])
    (board,) = {b for wall in door().walls for o in wall.openings for b in o.levels if b.key == "header"}
    return page, span.name.removeprefix("tag-"), f"{board.section.name} bottom, rod {show(board.low, INCH)}"


def test_tags_of_a_building_with_a_door_are_right() -> None:
    assert door().job.girts.edge == "bottom"
    assert tags() == []


def test_the_header_of_a_tag() -> None:
    page, name, under = header()
    (board,) = {b for wall in door().walls for o in wall.openings for b in o.levels if b.key == "header"}
    want = show(board.low + 2.0, INCH)
    at = next(i for i, one in enumerate(page.runs) if one and one.words == RIGHT)
    place = f"tag {name}, cut {RIGHT} {under}"
    none = (page.label, place, f"{want} beside its name", "no such cut")
    assert tags(without_runs(page, [at])) == [none]
    assert tags(reworded(page, RIGHT, "HEADER D8")) == [
        none,
        (page.label, f"tag {name}, marks", "none of this name", "HEADER D8"),
    ]
    assert tags(reworded(page, RIGHT, "THE HEADER D8")) == [none]
    whole, _, _ = want.partition(" ")
    figure = whole.replace("'-", "'–")
    assert any(one and one.words == figure for one in page.runs)
    other = reworded(page, figure, f"{figure}9")
    assert tags(other) == [(page.label, place, want, want.replace(whole, f"{whole}9"))]


def own(edge_top: bool, *words: Word) -> list[tuple[str, str, str]]:
    """What is told of the words of a tag for its headers and sills, of a window between two columns."""
    building = opened.read(WINDOW, **({"girts__edge": "top"} if edge_top else {}))
    column = next(
        c
        for c in building.columns
        if any(c.name in b.columns for w in building.walls for o in w.openings for b in o.levels)
    )
    return list(audit_numbers._own(words, building, column))


@pytest.mark.parametrize("top", [False, True])
def test_a_window_has_a_header_and_a_sill(top: bool) -> None:
    """Each is measured to the edge that the job marks."""
    building = opened.read(WINDOW, **({"girts__edge": "top"} if top else {}))
    boards = {b.key: b for w in building.walls for o in w.openings for b in o.levels}
    edge = "top" if top else "bottom"
    words: list[Word] = []
    missing = []
    for i, (key, board) in enumerate(sorted(boards.items())):
        station = board.high if top else board.low
        name, under = f"{key.upper()} W9", f"{board.section.name} {edge}, rod {show(station, INCH)}"
        words += [word(name, 1.0, 5.0 - i), word(under, 1.0, 4.8 - i), word(show(station + 2, INCH), 4.0, 5.0 - i)]
        missing.append((f"cut {name} {under}", f"{show(station + 2, INCH)} beside its name", "no such cut"))
    assert sorted(boards) == ["header", "sill"]
    assert own(top, *words) == []
    assert sorted(own(top)) == sorted(missing)
    assert sorted(own(top, *words[:3])) == sorted(missing[1:])
    more = word("SILL W8", 1.0, 1.0), word("HEADER W9", 1.0, 0.5), word("HEADERS", 1.0, 0.2)
    assert own(top, *words, *more) == [("marks", "none of this name", "SILL W8")]


def test_the_mark_table_of_a_building_with_a_door() -> None:
    """A header is a mark of some columns: of the others a dash stands there."""
    sheets = pages("cuts")
    assert audit_numbers.cuts(sheets, door(), "cuts.pdf") == []
    page = next(p for p in sheets if any(one and one.words == "–" for one in p.runs))
    dash = next(i for i, one in enumerate(page.runs) if one and one.words == "–")
    found = told(
        audit_numbers.cuts([reworded(page, "–", '9"', after=dash) if p is page else p for p in sheets], door(), "c")
    )
    (whole,) = found
    assert (whole[0], whole[2], whole[3]) == ("c", "nothing more", '9"')
    named = {f"mark table, {c.name}" for c in door().columns if not any(m.mark.some for m in marks_of(door(), c))}
    assert whole[1] in named
    some = next(m for c in door().columns for m in marks_of(door(), c) if m.mark.some)
    assert audit_numbers._labelled(label_of(some), some)


def test_the_wall_of_a_door() -> None:
    """What its sheets say of the opening, with one edge of it elsewhere."""
    (wall,) = [wall for wall in door().walls if wall.openings]
    of = {title: one for title, one in titled(door(), "walls") if title.partition(",")[0] == f"Wall {wall.name}"}
    sheets = [seen(one, f"p{number}") for number, one in enumerate(of.values(), 1)]
    assert audit_numbers.wall(sheets, wall, door()) == []
    texts = [w.text for w in sheets[0].words_in() if w.text.startswith("D9 ") and len(w.text) < 20]
    (left, right) = sorted(texts, key=lambda text: text != f"D9 {show(wall.openings[0].left, INCH)}")
    whole = next(one.words for one in sheets[0].runs if one and spelled_so(one.words, left))
    other = reworded(sheets[0], whole, f"{whole}9")
    found = told(audit_numbers.wall([other, *sheets[1:]], wall, door()))
    (told_,) = found
    assert told_[:3] == ("p1", "opening D9, edge", left.removeprefix("D9 "))
    assert right in told_[3].split(" or ")


def spelled_so(words: str, text: str) -> bool:
    """Whether a run is the beginning of a text as it is printed."""
    return words.startswith("D9 ") and text.startswith(words.replace("'–", "'-"))
