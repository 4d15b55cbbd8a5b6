"""Columns as they are ordered: spares, made tops, seat blocks, and what is left out, wherever the order is told."""

from __future__ import annotations

from jobs import build
from test_cuts import rows

from layouts.bundles import Bundle
from sheets import report

TWO = {"A1": "48", "A2": "49"}
SPARE = {"lumber.column_spares": 2}


def ordered(text: str) -> list[str]:
    """The lines of TO ORDER that tell of columns, blanks drawn together."""
    lines = text.partition("TO ORDER")[2].partition("\n\n")[0].splitlines()
    return [" ".join(line.split()) for line in lines if "column" in line]


def test_spare_columns_are_told_wherever_the_order_is() -> None:
    """The long points stand 1 and 2 in over 160.88 (144 + 9 1/4 + 5.7975, and 5 1/2 on 4/12), 1/2 is kept for trimming:
    14 ft each, and so are two spares."""
    one, long = build(SPARE, TWO), 168.0
    assert one.bundles == (Bundle(long, 2), Bundle(long, 2, spare=True))
    told = report.as_json(one)["order"]
    assert [(c["stock"]["value"], c["count"]) for c in told["columns"]] == [(long, 2)]
    assert [(c["stock"]["value"], c["count"]) for c in told["column_spares"]] == [(long, 2)]
    feet = "14'-0\""
    assert ordered(report.as_text(one)) == [f"2 columns {feet}", f"2 columns, spare {feet}"]
    assert [(r[0], *r[2:]) for r in rows(one, "TO ORDER") if len(r) > 1 and r[1].startswith("column")] == [
        ("2", feet),
        ("2", feet, "spare"),
    ]


def test_nothing_is_spare_where_no_column_is_ordered() -> None:
    assert build(SPARE).bundles == ()
    assert report.as_json(build(SPARE))["order"]["column_spares"] == []
