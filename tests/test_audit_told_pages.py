"""A page held against its drawing: how much is told of a page, things at the edge of their cell, runs in parts, what a
printer moves."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import as_read, group, ink, line, plan, run, text, told

from sheets.audit_compare import FAINT, compare, landing
from sheets.audit_model import Difference, Run, Seen
from sheets.profile import Profile
from sheets.shapes import Line, Polygon

# --- how much is told ------------------------------------------------------------------------------------------------


def short(at: float, by: float = 0.0) -> Line:
    """One of many strokes."""
    return line(at, 1.0 + by, at, 2.0 + by)


def said(at: float, by: float = 0.0) -> str:
    return f"a line ({at:.4f}, {1 + by:.4f}) to ({at:.4f}, {2 + by:.4f}), 0.0100 wide"


@pytest.mark.parametrize("count", [5, 6, 7, 9])
def test_six_differences_of_a_page_are_told_and_the_others_counted(count: int) -> None:
    drawn = plan(*(short(i * 0.7) for i in range(9)))
    moved = plan(*(short(i * 0.7, 0.1 if i < count else 0.0) for i in range(9)))
    want = [("one", "page", said(i * 0.7), said(i * 0.7, 0.1)) for i in range(min(count, 6))]
    if count > 6:
        want.append(("one", "elsewhere too", "as drawn", f"otherwise in {count - 6} more places"))
    assert told(compare("one", drawn, as_read(moved))[1]) == want


def test_a_corner_more_is_told_wherever_it_lies() -> None:
    """Here where the grey and the line's width of an outline without it would stand among its numbers."""
    drawn = plan(Polygon(((1.0, 2.0), (2.0, 2.0), (2.0, 3.0)), 0.6))
    read = as_read(drawn)
    ((*corners, grey, wide),) = read.outlines
    more = (*corners, grey * FAINT, wide, grey, wide)
    (difference,) = compare("one", drawn, replace(read, outlines=[more]))[1]
    assert difference.want.count("(") == 3
    assert difference.found.count("(") == 4


@pytest.mark.parametrize("dx", [-1, 0, 1])
@pytest.mark.parametrize("dy", [-1, 0, 1])
def test_a_thing_over_the_edge_of_its_cell_is_the_same(dx: int, dy: int) -> None:
    """Cells are a hundredth wide, their edges halfway: 1.0049 and 1.0051 are in two of them."""
    x, y = 1.005 - dx * 0.0004, 2.005 - dy * 0.0004
    drawn = plan(line(x, y, 3.0, 3.0), line(5.0, 5.0, 6.0, 6.0))
    read = as_read(plan(line(5.0, 5.0, 6.0, 6.0), line(x + dx * 0.0008, y + dy * 0.0008, 3.0, 3.0)))
    page, differences = compare("one", drawn, read)
    assert differences == []
    assert page.strokes == read.strokes[::-1]


def test_like_things_in_one_place_are_each_found() -> None:
    drawn = plan(line(1.0, 1.0, 2.0, 2.0), line(1.0, 1.0, 2.0, 2.0), line(1.0, 1.0, 3.0, 2.0))
    read = as_read(drawn)
    read.strokes.reverse()
    assert compare("one", drawn, read)[1] == []
    read.strokes[0] = read.strokes[1]
    assert told(compare("one", drawn, read)[1]) == [
        ("one", "page", "a line (1.0000, 1.0000) to (3.0000, 2.0000), 0.0100 wide", f"{said_twice()}")
    ]


def said_twice() -> str:
    return "a line (1.0000, 1.0000) to (2.0000, 2.0000), 0.0100 wide"


def test_the_innermost_group_is_named() -> None:
    drawn = plan(short(1), group("outer", short(2), group("inner", short(3)), short(4), group("empty")), short(5))
    want = {1: "page", 2: "outer", 3: "inner", 4: "outer", 5: "page"}
    for at, place in want.items():
        read = as_read(drawn)
        del read.strokes[at - 1]
        assert told(compare("one", drawn, read)[1]) == [("one", place, said(at), "nothing")]


# --- runs in parts ---------------------------------------------------------------------------------------------------

WHOLE = plan(text(1.0, 1.0, "ABC DEF"), text(1.0, 2.0, "ABC"), text(3.0, 1.0, "TOP", turn=90))


def parted(*parts: Run) -> tuple[list[Difference], Seen]:
    """The page with its first run in parts."""
    read = as_read(WHOLE)
    read.runs[:1] = parts
    page, differences = compare("one", WHOLE, read)
    return differences, page


def part(words: str, x: float, end: float, y: float = 1.0, turned: float = 0.0) -> Run:
    return run(words, x, y, wide=end - x, turned=turned)


END = 1.0 + ink("ABC DEF")


@pytest.mark.parametrize(
    "parts",
    [
        (part("ABC", 1.0, 1.4), part("DEF", 1.6, END)),
        (part("A", 1.0, 1.1), part("BC ", 1.1, 1.4), part("D", 1.6, 1.7), part("EF", 1.7, END)),
        (part("ABC", 1.0, END), part("DEF", 1.6, 1.7)),
        (part("ABC", 1.0, 1.4), part("DEF", 1.0, END)),
    ],
)
def test_runs_in_parts_are_put_together(parts: tuple[Run, ...]) -> None:
    differences, page = parted(*parts)
    assert differences == []
    (first, *others) = page.runs
    assert first is not None
    assert first.words == "".join(one.words for one in parts)
    assert (first.x, first.y, first.wide) == pytest.approx((1.0, 1.0, END - 1.0))
    assert others == WHOLE.runs[1:]


@pytest.mark.parametrize(
    "behind",
    [
        part("DEF", 1.6, END, y=1.0001),
        part("DEF", 1.6, END)._replace(size=0.21),
        part("DEF", 1.6, END, turned=1.0),
        part("DEF", 1.6, END)._replace(grey=0.5),
        part("DEF", 0.9, END),
        part("DEG", 1.6, END),
    ],
)
def test_runs_that_do_not_go_on_stay_apart(behind: Run) -> None:
    differences, page = parted(part("ABC", 1.0, 1.4), behind)
    assert len(differences) == 2
    assert page.runs[0] != part("ABC", 1.0, 1.4)._replace(words="ABC" + behind.words)
    assert differences[0].want == f"'ABC DEF' at (1.0000, 1.0000), 14.40 pt, {END - 1:.3f} long"


def test_a_run_up_the_page_goes_on_upwards() -> None:
    read = as_read(WHOLE)
    wide = WHOLE.runs[2].wide
    read.runs[2:] = [
        run("T", 3.0, 1.0, wide=0.1, turned=1.0),
        run("OP", 3.0, 1.1, wide=wide - 0.1, turned=1.0),
    ]
    page, differences = compare("one", WHOLE, read)
    assert differences == []
    assert page.runs[2] == run("TOP", 3.0, 1.0, wide=1.1 + (wide - 0.1) - 1.0, turned=1.0)
    read.runs[3] = read.runs[3]._replace(x=3.0004)
    assert compare("one", WHOLE, read)[1] != []


def test_fewer_runs_than_drawn_are_not_put_together() -> None:
    read = as_read(WHOLE)
    read.runs[:] = [part("ABC", 1.0, 1.4), part("DEF", 1.6, END), WHOLE.runs[1]]
    assert len(compare("one", WHOLE, read)[1]) == 3


def test_a_run_too_many_at_the_end_is_told() -> None:
    read = as_read(WHOLE)
    read.runs.append(run("MORE", 7.0, 5.0))
    assert told(compare("one", WHOLE, read)[1]) == [
        ("one", "page", "nothing", "'MORE' at (7.0000, 5.0000), 14.40 pt, 0.500 long")
    ]


# --- what a printer moves --------------------------------------------------------------------------------------------


def test_where_things_land() -> None:
    """A page that stands: its long side is up. From the middle (2, 3) to the right 1 %, up 2 %, leaning by 0.5 %."""
    drawn = plan(
        line(1.0, 1.0, 2.0, 3.0), Polygon(((4.0, 6.0), (0.0, 0.0), (4.0, 0.0)), 0.6), text(3.0, 5.0, "A"), width=4.0
    )
    profile = Profile("office", "letter", along=1.02, across=1.01, skew=0.005)

    def lands(x: float, y: float) -> tuple[float, float]:
        return 2 + (x - 2) * 1.01 + (y - 3) * 0.005, 3 + (y - 3) * 1.02

    affine = landing(drawn, profile)
    assert affine is not None
    a, b, c, d, e, f = affine
    for x, y in ((0.0, 0.0), (4.0, 0.0), (1.0, 5.0)):
        assert (a * x + c * y + e, b * x + d * y + f) == pytest.approx(lands(x, y))
    page, _ = compare("one", drawn, as_read(drawn), affine)
    assert list(page.strokes[0] or ()) == pytest.approx([*lands(1, 1), *lands(2, 3), 0.01, 0.0])
    corners = [*lands(4, 6), *lands(0, 0), *lands(4, 0)]
    assert list(page.outlines[0] or ()) == pytest.approx([*corners, 153 / 255, 0.008])
    assert [one[:2] for one in page.runs if one] == [pytest.approx(lands(3, 5))]
    (run,) = [one for one in page.runs if one]
    assert (run.size, run.wide) == pytest.approx((drawn.runs[0].size * 1.01, drawn.runs[0].wide * 1.01))
    assert (run.turned, run.grey, run.words, run.typed) == (0.0, 0.0, "A", None)
    assert landing(drawn, Profile("office", "letter")) is None


@pytest.mark.parametrize("out", [-0.01, 4.01])
def test_what_lies_beside_the_paper_is_told(out: float) -> None:
    """The page is 4 in wide and 6 high; a printer that prints 1 % short has an edge of it drawn at -0.01 and 4.01."""
    drawn = plan(line(0.01, 1.0, 3.99, 3.0), width=4.0)
    assert compare("one", drawn, as_read(drawn))[1] == []
    off = plan(line(2.0, 1.0, out, 3.0), width=4.0)
    low, high = sorted((2.0, out))
    want = Difference("one", "page", "all of it on the paper, 0 to 4.0000", f"{low:.4f} to {high:.4f} in across")
    assert compare("one", off, as_read(off))[1] == [want]
