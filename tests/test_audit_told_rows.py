"""A row of the list on the page for the phone against its column: everything it says, changed in one place."""

from __future__ import annotations

from html import escape

from msgspec.structs import replace
from pages_seen import small

from layouts.columns import Column
from layouts.lengths import Style, show
from sheets import audit_html, audit_phone

INCH = Style()
Faults = list[tuple[str, str, str]]
A2 = small().columns[1]

# --- a row of the list -----------------------------------------------------------------------------------------------


def row(of: Column, old: str = "", new: str = "") -> Faults:
    """What is told of a row that is right but for *old*, which is *new*."""
    way = "BELOW THE bottom end" if of.offset < 0 else ""
    cuts = "".join(
        f"<li><span>{c.name} <i>{c.where}</i></span> <b>{escape(show(of.up(c.station), INCH))}</b></li>"
        for c in of.cuts
    )
    doubt = "<span>SHOOT AGAIN</span>" if of.flagged else ""
    text = (
        f'<tr><th>{of.name}</th><td><span class="big">{escape(show(abs(of.offset), INCH))}</span>{way}{doubt}'
        f"<span>{escape(of.seat)}</span> <span>{escape(of.longer)}</span></td><td><ul>{cuts}</ul></td></tr>"
    )
    old, new = escape(old), escape(new)
    if old:
        assert old in text
        text = text.replace(old, new, 1)
    (node,) = audit_html.read(text.encode()).root.all("tr")
    return list(audit_phone._row(node, of, small()))


def words(of: Column, old: str = "", new: str = "") -> str:
    """All that such a row reads, worked from the column."""
    cuts = "".join(f"{c.name} {c.where} {show(of.up(c.station), INCH)}" for c in of.cuts)
    doubt = "SHOOT AGAIN" if of.flagged else ""
    way = "BELOW THE bottom end" if of.offset < 0 else ""
    said = f"{of.name}{show(abs(of.offset), INCH)}{way}{doubt}{of.seat} {of.longer}{cuts}"
    return " ".join((said.replace(old, new, 1) if old else said).split())


def test_a_row_that_is_right() -> None:
    for column in small().columns:
        assert row(column) == []
        for offset in (-2.5, -0.5, 0.0, 0.5):
            assert row(replace(column, offset=offset)) == []
        assert row(replace(column, flagged=True)) == []


def test_the_offset_of_a_row() -> None:
    assert row(A2, '1 5/16"', '2 5/16"') == [("column A2, offset", '1 5/16"', '2 5/16"')]
    assert row(A2, "") == []
    low = replace(A2, offset=-2.5)
    assert row(low, "BELOW THE", "up from the") == [
        ("column A2, offset", "below the bottom end", words(low, "BELOW THE", "up from the"))
    ]


def test_a_row_that_says_below_of_one_that_is_above() -> None:
    said = A2.seat
    assert row(A2, said, f"{said} BELOW THE") == [
        ("column A2, offset", "up from the bottom end", words(A2, said, f"{said} BELOW THE"))
    ]


def test_a_doubt_that_is_not_said_and_one_too_many() -> None:
    doubted = replace(A2, flagged=True)
    assert row(doubted, "SHOOT AGAIN", "FINE") == [("column A2", "SHOOT AGAIN", words(doubted, "SHOOT AGAIN", "FINE"))]
    assert row(A2, A2.seat, f"{A2.seat} SHOOT AGAIN") == [
        ("column A2", "no doubt", words(A2, A2.seat, f"{A2.seat} SHOOT AGAIN"))
    ]


def test_high_or_low_in_a_row() -> None:
    for said in (A2.seat, A2.longer):
        assert row(A2, said, "OTHER") == [("column A2", said, words(A2, said, "OTHER"))]


def test_the_cuts_of_a_row() -> None:
    place = "column A2, BEARING centre ply"
    want = show(A2.up(A2.cuts[0].station), INCH)
    assert A2.cuts[0].name == "BEARING"
    assert row(A2, want, '9"') == [(place, want, '9"')]
    missing = ("column A2, BEARING centre ply", "1 in number", "0: ")
    besides = ("column A2, besides its cuts", "0 in number", f"1: {want}")
    li = f"<li><span>BEARING <i>centre ply</i></span> <b>{escape(want)}</b></li>"
    text = f"<tr><td>{li}</td></tr>"
    (node,) = audit_html.read(text.encode()).root.all("tr")
    found = [f for f in audit_phone._row(node, A2, small()) if "BEARING" in f[0] or "besides" in f[0]]
    assert found == []
    for other, told_ in (
        (text.replace("BEARING", "BEARINGS"), [missing, besides]),
        (text.replace(li, ""), [missing]),
        (text.replace(li, li * 2), [(place, "1 in number", f"2: {want}, {want}")]),
        (text.replace("<b>", "<i>").replace("</b>", "</i>"), [missing]),
        (
            text.replace("<li>", "<li><b>").replace("</li>", "</b></li>").replace("<span>", "").replace("</span>", ""),
            [missing],
        ),
    ):
        (node,) = audit_html.read(other.encode()).root.all("tr")
        found = [f for f in audit_phone._row(node, A2, small()) if "BEARING" in f[0] or "besides" in f[0]]
        assert found == told_


def test_what_a_row_says_besides_its_cuts() -> None:
    """What is cut off, packed under, or stood on."""
    fit = replace(A2.fit, cut_off=1.5, made=True, packing=0.5, seat_block=2.5)
    own = replace(A2, fit=fit)
    more = ['1 1/2"', '1/2"', '2 1/2"']
    assert row(own) == [("column A2, besides its cuts", "3 in number", "0: ")]
    cuts = "".join(f"<li><span>MORE</span> <b>{escape(one)}</b></li>" for one in more)
    (node,) = audit_html.read(f"<tr><td>{cuts}</td></tr>".encode()).root.all("tr")
    assert [f for f in audit_phone._row(node, own, small()) if "besides" in f[0]] == []
    (node,) = audit_html.read(f"<tr><td>{cuts.replace('2 1/2', '3 1/2')}</td></tr>".encode()).root.all("tr")
    assert [f for f in audit_phone._row(node, own, small()) if "besides" in f[0]] == [
        ("column A2, besides its cuts", '2 1/2"', '3 1/2"')
    ]
    unmade = replace(own, fit=replace(fit, made=False))
    (node,) = audit_html.read(f"<tr><td>{cuts}</td></tr>".encode()).root.all("tr")
    assert [f for f in audit_phone._row(node, unmade, small()) if "besides" in f[0]] == [
        ("column A2, besides its cuts", "2 in number", f"3: {', '.join(sorted(more))}")
    ]


def test_where_two_lists_differ() -> None:
    same = audit_phone._same
    assert list(same("p", ["a", "b"], ["a", "b"])) == []
    assert list(same("p", [], [])) == []
    assert list(same("p", ["a", "b", "c"], ["a", "x", "y"])) == [("p", "b", "x"), ("p", "c", "y")]
    assert list(same("p", ["a"], ["a", "b"])) == [("p", "1 in number", "2: a, b")]
    assert list(same("p", ["a"], [])) == [("p", "1 in number", "0: ")]
    assert list(same("p", [], ["x" * 150, "y" * 150])) == [("p", "0 in number", f"2: {'x' * 150}, {'y' * 48}")]


def test_what_is_read_aloud_for_a_tag() -> None:
    heights = [f"{c.name}: {c.where}: {show(A2.up(c.station), INCH)}" for c in A2.cuts]
    assert audit_phone._figures(A2, small()) == ["Tag A2,", 'offset 1 5/16", up from the', A2.seat, *heights]
    for inches, said in ((0.0, 'offset 0", up from the'), (0.5, 'offset 1/2", up from the')):
        assert audit_phone._figures(replace(A2, offset=inches), small())[1] == said
    low = audit_phone._figures(replace(A2, offset=-2.5), small())
    assert low[:2] == ["Tag A2,", 'offset 2 1/2", BELOW THE']
