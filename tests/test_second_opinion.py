"""Every number of 200 random buildings, worked twice: by the program and by `reference`, which knows only the words.

The program's own report for other programs is compared, its values to 1e-6 and its printed lengths letter for letter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
import reference_columns
from opinions import NEAR, WORKED, Found, Numbers, differences, walls_of, words_found, words_worked
from random_buildings import Drawn, drawn
from reference import laid_plan, laid_roof
from reported import no_cutting_plan, reported

from layouts.problems import JobRefused

__all__ = ["no_cutting_plan"]
BUILDINGS = range(200)


@pytest.fixture(scope="module")
def laid(no_cutting_plan: None) -> list[tuple[Drawn, dict[str, Any] | str]]:
    """All buildings with their reports, or why they are refused."""
    out: list[tuple[Drawn, dict[str, Any] | str]] = []
    for number in BUILDINGS:
        one = drawn(number)
        try:
            out.append((one, reported(one.toml, one.csv)))
        except JobRefused as refused:
            out.append((one, str(refused)))
    return out


def reports(laid: list[tuple[Drawn, dict[str, Any] | str]]) -> Iterator[tuple[Drawn, dict[str, Any]]]:
    """Those that are not refused."""
    for one, report in laid:
        if not isinstance(report, str):
            yield one, report


@pytest.mark.parametrize(("worked", "found"), WORKED, ids=["columns", "roof", "rows", "rods"])
def test_the_two_agree(
    laid: list[tuple[Drawn, dict[str, Any] | str]],
    worked: Callable[[Drawn], Numbers],
    found: Callable[[dict[str, Any]], Found],
) -> None:
    """Every number, before rounding to 1e-6 and after it letter for letter."""
    wrong, count = [], 0
    for one, report in reports(laid):
        ours = worked(one)
        count += len(ours)
        wrong += [f"building {one.number}: {line}" for line in differences(ours, found(report), one.steps)]
    print(f"{count} numbers")
    assert not wrong, "\n".join(wrong[:20])
    assert count > 20 * len(laid)


def test_the_words_agree(laid: list[tuple[Drawn, dict[str, Any] | str]]) -> None:
    """HIGH is shorter, LOW is longer, and by how much."""
    for one, report in reports(laid):
        if one.given["column.trims"] == "top":
            ours, theirs = words_worked(one), words_found(report)
            first = next(iter(ours))
            assert report["columns"][0]["seat"] == "REFERENCE SEAT"
            assert {**ours, first: theirs[first]} == theirs, one.number


def test_the_edges_agree(laid: list[tuple[Drawn, dict[str, Any] | str]]) -> None:
    """Short and long point, low and high edge are at the same face, toward the same column."""
    count = 0
    for one, report in reports(laid):
        plan = laid_plan(one.given)
        roof = laid_roof(one.given, plan)
        for column in report["columns"]:
            ours = reference_columns.where(one.given, plan, roof, column["name"])
            theirs = {key: cut["where"] for key, cut in column["cuts"].items() if key in ours}
            assert {key: ours[key] for key in theirs} == theirs, (one.number, column["name"])
            count += len(theirs)
    print(f"{count} edges")
    assert count > 10 * len(laid)


def centres(of: Drawn, wall: str) -> list[Fraction]:
    """Column centres from the left end of a wall, seen from outside (geometry page: which end is left)."""
    plan = laid_plan(of.given)
    if wall in ("front", "back"):
        row, whole = plan.ends[wall == "back"], plan.across
    else:
        row, whole = plan.side, plan.along
    return [whole - c if wall in ("left", "back") else c for c in row]


def test_boards_meet_on_columns(laid: list[tuple[Drawn, dict[str, Any] | str]]) -> None:
    """Boards of a row follow one another without a gap, and every joint is over the middle of a column."""
    count = 0
    for one, report in reports(laid):
        for wall, of in walls_of(report):
            posts = [float(c) for c in centres(one, wall)]
            rows: dict[tuple[str, str], list[dict[str, Any]]] = {}
            for piece in of["pieces"]:
                assert piece["length"]["value"] == pytest.approx(
                    piece["to"]["value"] - piece["from"]["value"], abs=2e-6
                )
                if piece["layer"] != "between":
                    rows.setdefault((piece["row"], piece["layer"]), []).append(piece)
            for pieces in rows.values():
                for a, b in pairwise(sorted(pieces, key=lambda piece: float(piece["from"]["value"]))):
                    assert a["to"]["value"] == pytest.approx(b["from"]["value"], abs=2e-6), one.number
                    assert min(abs(a["to"]["value"] - post) for post in posts) < 2e-6, (one.number, wall, a["row"])
                    count += 1
    assert count > 10 * len(laid)


def test_a_sum_is_the_sum_of_its_steps(laid: list[tuple[Drawn, dict[str, Any] | str]]) -> None:
    """What the index prints adds up."""
    for one, report in reports(laid):
        for each in report["sums"]:
            steps = sum(step["value"] for step in each["steps"])
            assert steps == pytest.approx(each["total"]["value"], abs=NEAR * len(each["steps"])), (one.number, each)


def test_few_are_refused(laid: list[tuple[Drawn, dict[str, Any] | str]]) -> None:
    """Most buildings are laid out, and all kinds are among them."""
    refused = [(one.number, report) for one, report in laid if isinstance(report, str)]
    print(f"refused: {len(refused)} of {len(laid)}", refused)
    assert len(refused) < len(laid) / 10
    for field, values in KINDS.items():
        seen = Counter(one.given[field] for one, _ in reports(laid))
        assert min(seen[value] for value in values) >= 5, (field, seen)


KINDS: dict[str, tuple[Any, ...]] = {
    "roof.shape": ("gable", "mono-slope", "lean-to"),
    "girts.place": ("outside", "between", "inside", "both"),
    "girts.spacing": ("equal", "fixed"),
    "girts.edge": ("bottom", "top"),
    "truss.heel_at": ("column", "girt"),
    "roof.purlins": ("edge", "flat", "flush"),
    "roof.fascia_cut": ("plumb", "square"),
    "roof.soffit": ("level", "sloped", "none"),
    "column.make": ("laminated", "solid"),
    "column.plies": (3, 4),
    "column.trims": ("top", "bottom"),
    "tops.seat": ("slot", "shoulder", "flat"),
    "tops.sidewall_ears": ("roof", "chord"),
    "tops.endwall_ears": ("roof", "chord", "chord bottom", "bearing"),
    "job.fraction": ("16", "32"),
}


def test_a_difference_is_seen() -> None:
    """A thousandth, a wrong sixteenth and a missing number are told."""
    found: Found = {"cut": {"value": 41.375, "text": "3'-5 3/8\""}}
    assert not list(differences({"cut": Fraction("41.375")}, found, 16))
    assert list(differences({"cut": Fraction("41.374")}, found, 16))
    assert list(differences({"cut": Fraction("41.375")}, {"cut": {"value": 41.375, "text": "3'-5 5/16\""}}, 16))
    assert list(differences({"cut": Fraction("41.375"), "other": Fraction(1)}, found, 16))
    assert list(differences({}, found, 16))
