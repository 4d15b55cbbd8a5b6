"""Templates and the roof sheet against the layout: lines a little off, missing, twice, pages that do not join; and the
sums they are held by."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from pages_seen import Told, drawn, group, line, plan, reworded, seen, sheets, small, told

from layouts import purlins, templates
from layouts.lengths import Style, show
from layouts.template import Path
from sheets import audit_templates
from sheets.audit_model import NEAR, Seen, Span
from sheets.audit_templates import _Laid

INCH = Style()
WITHIN, BEYOND = NEAR * 0.99, NEAR * 1.01
TITLES = [title for title, _ in drawn("templates")]
PAGES = sheets("templates")
LAID = {one.key: one for one in templates.lay(small().job, small().plan, small().roof, small().rows)}
EARS, RIDGE, SLOT, GIRT = (LAID[key] for key in ("1-top", "2-top", "3-gauge", "4-girt"))


def check(*changed: Seen) -> list[Told]:
    """What is told with other pages in the place of those of the same label."""
    of = {page.label: page for page in changed}
    pages = [(title, of.get(page.label, page)) for title, page in zip(TITLES, PAGES, strict=True)]
    return told(audit_templates.check(pages, small(), "templates.pdf"))


def moved(page: Seen, name: str, dx: float = 0.0, dy: float = 0.0, end: bool = False, first: int = 0) -> Seen:
    """A page with the first stroke of a group elsewhere, or its far *end* alone."""
    span = next(span for span in page.spans() if span.name == name)
    strokes = list(page.strokes)
    stroke = strokes[span.strokes[0] + first]
    assert stroke is not None
    x0, y0, x1, y1, *style = stroke
    start = (x0, y0) if end else (x0 + dx, y0 + dy)
    strokes[span.strokes[0] + first] = (*start, x1 + dx, y1 + dy, *style)
    return replace(page, strokes=strokes)


def without(page: Seen, *names: str) -> Seen:
    """A page that lacks the strokes of some groups."""
    strokes = list(page.strokes)
    for span in page.spans():
        if span.name in names:
            for i in range(*span.strokes):
                strokes[i] = None
    return replace(page, strokes=strokes)


def test_patterns_that_are_right() -> None:
    assert check() == []
    assert [title.partition(":")[0] for title in TITLES] == [f"Template {n}" for n in (1, 2, 3, 4, 4)]


def test_a_pattern_that_is_missing_and_one_too_many() -> None:
    pages = list(zip(TITLES, PAGES, strict=True))
    found = audit_templates.check(pages[1:], small(), "templates.pdf")
    assert told(found) == [("templates.pdf", EARS.title, "a page", "none")]
    more = [*pages, ("Template 9: OTHER", PAGES[0]), ("Other", PAGES[1])]
    assert told(audit_templates.check(more, small(), "templates.pdf")) == [
        ("p1", "Template 9: OTHER", "no such pattern", "a page"),
        ("p2", "Other", "no such pattern", "a page"),
    ]


def test_the_words_of_a_pattern() -> None:
    figure = EARS.figures[0].text(INCH)
    wrong = reworded(PAGES[0], "13", "15", count=2)
    assert check(wrong) == [("p1", EARS.title, figure, "not so on the page")]
    assert check(reworded(PAGES[0], "13", "15")) == [], "it is said twice"
    whom = f"FOR: Columns {', '.join(EARS.whom)}."
    assert check(reworded(PAGES[0], whom, whom[:-1])) == [("p1", EARS.title, whom, "not so on the page")]
    turn = "face: turn the cut-out over."
    assert check(reworded(PAGES[0], turn, "face: stop.")) == [("p1", EARS.title, EARS.laid, "not so on the page")]
    low = EARS.hold
    assert check(reworded(PAGES[0], low, low[1:])) == [("p1", EARS.title, low, "not so on the page")]


def test_the_words_of_a_pattern_on_two_pages() -> None:
    """How it is laid stands on the first alone, its numbers on both."""
    figure = GIRT.figures[0].text(INCH)
    for page in PAGES[3:]:
        halves = sum(1 for one in page.runs if one is not None and one.words == "2")
        found = check(reworded(page, "2", "4", count=halves))
        assert [one for one in found if one[2] == figure] == [(page.label, GIRT.title, figure, "not so on the page")]
    (first, second) = (" ".join(w.text for w in page.words_in()) for page in PAGES[3:])
    assert GIRT.hold in first
    assert GIRT.hold not in second


# --- lines -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [WITHIN, -WITHIN, BEYOND, -BEYOND])
def test_an_edge_beside_its_line(by: float) -> None:
    """The edge that does not set where the pattern begins: x at 5.5."""
    want = ("p1", EARS.title, "edge 2 along its line", f"a stroke that leaves it by {abs(by):.4f} in")
    assert check(moved(PAGES[0], "template-edge-2", by)) == ([want] if abs(by) > NEAR else [])


@pytest.mark.parametrize("by", [WITHIN, BEYOND, 0.5])
def test_an_edge_that_is_too_short(by: float) -> None:
    want = ("p1", EARS.title, "edge 2 from end to end", f"{by:.4f} in of it missing")
    assert check(moved(PAGES[0], "template-edge-2", dy=-by, end=True)) == ([want] if by > NEAR else [])


def test_a_line_that_is_missing() -> None:
    long = 1.7 + 2.233333333
    assert check(without(PAGES[0], "template-edge-2")) == [
        ("p1", EARS.title, "edge 2 from end to end", f"{long:.4f} in of it missing")
    ]
    cut = (5.5**2 + 1.833333333**2) ** 0.5
    assert check(without(PAGES[0], "template-cut-1")) == [
        ("p1", EARS.title, "cut 1 from end to end", f"{cut:.4f} in of it missing"),
        ("p1", EARS.title, f"cut 1 {cut:.4f} in long", "0.0000 in"),
    ]
    every = [f"template-{name}" for name in ("edge-1", "edge-2", "cut-1")]
    assert check(without(PAGES[0], *every)) == [("p1", EARS.title, "an outline", "none")]


def test_a_cut_is_drawn_once_and_an_edge_may_be_twice() -> None:
    def twice(name: str) -> list[Told]:
        of = drawn("templates")[0][1].drawing
        more = group("more", group(name, *(line(s[0], s[1], s[2], s[3]) for s in PAGES[0].strokes_in(span(name)))))
        return told(
            audit_templates.check(
                [(TITLES[0], seen(plan(*of.shapes, more, width=of.width, height=of.height), "p1")), *rest], small(), "x"
            )
        )

    def span(name: str) -> Span:
        return next(one for one in PAGES[0].spans() if one.name == name)

    rest = list(zip(TITLES, PAGES, strict=True))[1:]
    cut = (5.5**2 + 1.833333333**2) ** 0.5
    assert twice("template-edge-2") == []
    assert twice("template-cut-1") == [("p1", EARS.title, f"cut 1 {cut:.4f} in long", f"{2 * cut:.4f} in")]


def test_a_cut_of_the_gauge() -> None:
    """Its second cut: the place says which."""
    assert check(moved(PAGES[2], "template-cut-2", 0.01)) == [
        ("p3", SLOT.title, "cut 2 along its line", "a stroke that leaves it by 0.0100 in")
    ]
    assert check(moved(PAGES[2], "template-cut-2", dy=-0.01, end=True)) == [
        ("p3", SLOT.title, "cut 2 from end to end", "0.0100 in of it missing"),
        ("p3", SLOT.title, "cut 2 5.5000 in long", "5.4900 in"),
    ]


# --- pages laid together ---------------------------------------------------------------------------------------------


def test_pages_that_do_not_join() -> None:
    told_ = [("p4", GIRT.title, "pages that match lines join", "one that none does")]
    assert check(without(PAGES[4], "template-match-1")) == told_
    assert check(without(PAGES[3], "template-match-1")) == told_


@pytest.mark.parametrize("by", [0.0019, 0.0021])
def test_a_match_line_elsewhere_moves_all_of_its_page(by: float) -> None:
    """A thousandth for each of the two pages; the level edge is what tells."""
    found = check(moved(PAGES[4], "template-match-1", dy=by))
    want = ("p4", GIRT.title, "edge 1 along its line", f"a stroke that leaves it by {by:.4f} in")
    assert found == ([want] if by > 2 * NEAR else [])


@pytest.mark.parametrize("by", [0.0019, 0.0021])
def test_a_cut_drawn_again_lies_on_its_line(by: float) -> None:
    found = check(moved(PAGES[3], "template-again-1", by * 10**0.5 / 1.0))
    want = ("p4", GIRT.title, "cut 1, drawn again, along its line", "a stroke that leaves it")
    assert found == ([want] if by > 2 * NEAR else [])


def laid(kind: str, number: int, *stroke: float) -> _Laid:
    return _Laid(kind, number, (stroke[0], stroke[1], stroke[2], stroke[3]))


def test_pages_are_laid_match_line_on_match_line() -> None:
    one = [laid("edge", 1, 0, 0, 1, 0), laid("match", 1, 2, 0, 2, 4)]
    two = [laid("match", 1, 0, 1, 0, 5), laid("match", 2, 5, 1, 5, 3), laid("cut", 1, 1, 1, 2, 2)]
    three = [laid("match", 2, 0, 0, 0, 2), laid("edge", 2, 1, 1, 1, 2)]
    assert audit_templates._together([one]) == one
    want = [*one, laid("match", 1, 2, 0, 2, 4), laid("match", 2, 7, 0, 7, 2), laid("cut", 1, 3, 0, 4, 1)]
    assert audit_templates._together([one, two]) == want
    whole = [*want, laid("match", 2, 7, 0, 7, 2), laid("edge", 2, 8, 1, 8, 2)]
    assert audit_templates._together([one, two, three]) == whole
    assert audit_templates._together([one, three, two]) == whole
    assert audit_templates._together([one, three]) is None
    assert audit_templates._together([one, [laid("edge", 1, 0, 0, 1, 0)]]) is None


@pytest.mark.parametrize(
    ("p", "far"),
    [((5, 0), 0.0), ((5, 3), 3.0), ((-3, 4), 5.0), ((13, -4), 5.0), ((0, 0), 0.0), ((10, 2), 2.0)],
)
def test_how_far_a_place_is_from_a_straight_way(p: tuple[float, float], far: float) -> None:
    assert audit_templates._away((0, 0), (10, 0), p) == pytest.approx(far)
    x, y = p
    assert audit_templates._away(
        (1, 2), (1 + 6, 2 + 8), (1 + x * 0.6 - y * 0.8, 2 + x * 0.8 + y * 0.6)
    ) == pytest.approx(far)


CORNER: Path = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0))


def test_how_far_a_stroke_strays_from_a_path() -> None:
    assert audit_templates._off(CORNER, (1, 0, 3, 0)) == 0.0
    assert audit_templates._off(CORNER, (4, 1, 4, 2)) == 0.0
    assert audit_templates._off(CORNER, (1, 0.5, 3, 0.25)) == 0.5
    assert audit_templates._off(CORNER, (3, 0, 4, 1)) == 1.0  # over the corner: its best part is either


@pytest.mark.parametrize(
    ("strokes", "bare"),
    [
        ([], 4.0),
        ([(0, 0, 4, 0)], 0.0),
        ([(4, 0, 0, 0)], 0.0),
        ([(0, 0, 1, 0), (3, 0, 4, 0)], 2.0),
        ([(3, 0, 4, 0), (1, 0, 0, 0)], 2.0),
        ([(1, 0, 2, 0)], 3.0),
        ([(0, 0, 3, 0), (1, 0, 2, 0)], 1.0),
        ([(0, 0, 2, 0), (1, 0, 4, 0)], 0.0),
        ([(0, 0.0099, 4, 0)], 0.0),
        ([(0, 0.0101, 4, 0)], 4.0),
        ([(0, 0, 4, -0.0101)], 4.0),
        ([(0, 1, 0, 2)], 4.0),
    ],
)
def test_how_much_of_a_way_is_bare(strokes: list[tuple[float, float, float, float]], bare: float) -> None:
    assert audit_templates._bare((0.0, 0.0), (4.0, 0.0), strokes, 0.01) == pytest.approx(bare, abs=0.0001)
    turned = [(5 - y0, 1 + x0, 5 - y1, 1 + x1) for x0, y0, x1, y1 in strokes]
    assert audit_templates._bare((5.0, 1.0), (5.0, 5.0), turned, 0.01) == pytest.approx(bare, abs=0.0001)


def test_a_path_of_more_parts() -> None:
    def path(*strokes: tuple[float, float, float, float], once: bool = True) -> list[tuple[str, str]]:
        return list(audit_templates._path("cut 1", CORNER, list(strokes), 0.01, once))

    whole = (0.0, 0.0, 4.0, 0.0), (4.0, 0.0, 4.0, 3.0)
    assert path(*whole) == []
    assert path(whole[0]) == [
        ("cut 1 from end to end", "3.0000 in of it missing"),
        ("cut 1 7.0000 in long", "4.0000 in"),
    ]
    assert path(whole[0], once=False) == [("cut 1 from end to end", "3.0000 in of it missing")]
    assert path(*whole, (0.0, 0.0, 0.0099, 0.0)) == []
    assert path(*whole, (0.0, 0.0, 0.0101, 0.0)) == [("cut 1 7.0000 in long", "7.0101 in")]
    assert path(*whole, (0.0, 0.0, 1.0, 0.0), once=False) == []
    assert path(*whole, (0.0, 0.02, 1.0, 0.0)) == [("cut 1 along its line", "a stroke that leaves it by 0.0200 in")]


# --- the roof sheet --------------------------------------------------------------------------------------------------

ROOF = sheets("roof")


def test_the_roof_sheet() -> None:
    assert audit_templates.roof(ROOF, small()) == []
    slope = purlins.slopes(small().job, small().roof)[0]
    two = show(slope.purlins[1], INCH)
    assert two.startswith("21 ")
    words = [one.words if one else "" for one in ROOF[0].runs]
    p2 = words.index("P2")
    found = told(audit_templates.roof([reworded(ROOF[0], "21", "22", after=p2)], small()))
    assert found == [("p1", "P2", two, "not so on the sheet")] * (len(found) or 1)
    assert found
    long = show(slope.length, INCH)
    found = told(audit_templates.roof([reworded(ROOF[0], "16'–8", "16'–9")], small()))
    assert set(found) == {("p1", "LENGTH ALONG THE CHORD", long, "not so on the sheet")}
    trusses = [show(at, INCH) for at in purlins.trusses(small().job, small().plan)]
    found = told(audit_templates.roof([reworded(ROOF[0], "T2", "T7")], small()))
    assert found == [("p1", "T2", trusses[1], "not so on the sheet")]


def test_trusses_are_counted_from_where_the_roof_ends() -> None:
    """With an overhang the purlins begin before the building."""
    from jobs import build
    from pages_seen import plan_of

    made = build({"roof.overhang": "18", "roof.end_overhang": "12"})
    pages = [seen(one, "p1") for one in plan_of(made, "roof")]
    assert audit_templates.roof(pages, made) == []
    first = purlins.trusses(made.job, made.plan)[0] + made.plan.inset + 12.0
    spoilt = reworded(pages[1], "T1", "T9")
    assert told(audit_templates.roof([pages[0], spoilt], made)) == [
        ("p1", "T1", show(first, INCH), "not so on the sheet")
    ]
