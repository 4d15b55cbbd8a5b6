"""Every number of 200 random buildings, worked twice: by the program and by `reference`, which knows only the words.

The program's own report for other programs is compared, its values to 1e-6 and its printed lengths letter for letter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from math import floor
from typing import Any

import pytest
import reference
import reference_columns
import reference_rows
from random_buildings import Drawn, drawn
from reference import laid_plan, laid_roof, text
from reported import no_cutting_plan, reported

from layouts.problems import JobRefused

__all__ = ["no_cutting_plan"]
BUILDINGS = range(200)
NEAR = 1e-6
KEYS = ("offset", "length", "stock", "cut_off_bottom", "block_under", "seat_block")
Numbers = dict[str, Fraction | None]
Found = dict[str, dict[str, Any] | None]


def columns_worked(of: Drawn) -> Numbers:
    """Offsets, cuts, lengths and stock of every column that can be used, and the line reading."""
    job = of.given
    plan = laid_plan(job)
    line = reference_columns.line_reading(job, of.down.values())
    out: Numbers = {"line reading": abs(line)}
    for name, (kind, cuts) in reference_columns.stations(job, plan, laid_roof(job, plan)).items():
        if name not in of.down:
            continue  # without a reading there is no tag
        found = reference_columns.stood(job, kind, cuts, of.down[name] - line)
        if found is None:
            continue
        out |= {f"{name} reading": abs(of.down[name]), f"{name} offset": found.offset}
        out |= {f"{name} {key}": mark for key, mark in found.cuts.items()}
        out |= {f"{name} length": found.length, f"{name} stock": found.stock}
        out |= {f"{name} cut_off_bottom": found.cut_off, f"{name} block_under": found.packing}
        out[f"{name} seat_block"] = found.block
    return out


def columns_found(report: dict[str, Any]) -> Found:
    """The same in the report."""
    out: Found = {"line reading": {"value": report["line_reading"]["value"]}}
    for column in report["columns"]:
        name = column["name"]
        out[f"{name} reading"] = {"value": column["reading"]["value"]}
        out |= {f"{name} {key}": column[key] for key in KEYS}
        out |= {f"{name} {key}": cut for key, cut in column["cuts"].items()}
    return out


def roof_worked(of: Drawn) -> Numbers:
    """Eave lines, soffit nailers, diagonals, slopes and purlins."""
    job = of.given
    plan = laid_plan(job)
    roof = laid_roof(job, plan)
    out: Numbers = {
        "column diagonal": reference.root(plan.across**2 + plan.along**2),
        "building diagonal": reference.root(job["building.width"] ** 2 + job["building.length"] ** 2),
    }
    out |= {f"eave line {i}": v for i, v in enumerate(reference.eave_lines(job, plan, roof))}
    out |= {f"soffit {i}": v for i, v in enumerate(reference.soffits(job, plan, roof))}
    for i in range(len(roof.chord)):
        run, length, marks = reference.purlins(job, plan, roof, bool(i))
        out |= {f"slope {i} run": run, f"slope {i} length": length}
        out |= {f"slope {i} purlin {k}": mark for k, mark in enumerate(marks)}
    return out


def roof_found(report: dict[str, Any]) -> Found:
    """The same in the report."""
    out: Found = {f"{key} diagonal": report[f"{key}_diagonal"] for key in ("column", "building")}
    for start, key in (("Eave line", "eave line"), ("Soffit nailer", "soffit")):
        sums = [s["total"] for s in report["sums"] if s["name"].startswith(start)]
        twice = report["roof"]["slopes"][1:] or any("the wall opposite" in s["name"] for s in report["sums"])
        sums = sums * 2 if len(sums) == 1 and twice else sums
        out |= {f"{key} {i}": total for i, total in enumerate(sums)}
    for i, slope in enumerate(report["roof"]["slopes"]):
        out |= {f"slope {i} run": slope["run"], f"slope {i} length": slope["length"]}
        out |= {f"slope {i} purlin {k}": mark for k, mark in enumerate(slope["purlins"])}
    return out


def rows_worked(of: Drawn) -> Numbers:
    """Of every wall the edges of its rows, lowest first, and the length of each row's pieces together."""
    job = of.given
    plan = laid_plan(job)
    out: Numbers = {}
    for wall, rows in reference_rows.walls(job, plan, laid_roof(job, plan)).items():
        seen: Counter[str] = Counter()
        for row, total, top in sorted(rows, key=lambda found: found[0].low):
            key = f"{wall} {row.layer} {seen[row.layer]}"
            seen[row.layer] += 1
            out |= {f"{key} low": row.low, f"{key} high": row.high, f"{key} total": total, f"{key} top edges": top}
    return out


def walls_of(report: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """The report's walls by what they are."""
    numbers = sorted(int(w["name"]) for w in report["walls"] if w["name"].isdigit())
    for wall in report["walls"]:
        name = wall["name"]
        if name.isdigit():
            yield "front" if int(name) == numbers[0] else "back", wall
        else:
            yield "left" if name == "A" else "right", wall


def backs(piece: dict[str, Any]) -> float:
    """How much shorter a piece is at its top edge, by the saw cuts of a gable."""
    return float(sum(back["value"] for back in piece["back"]))


def rows_found(report: dict[str, Any]) -> Found:
    """The same in the report; pieces are added up, so their total has a value and no text."""
    out: Found = {}
    for wall, of in walls_of(report):
        rows: dict[tuple[str, float, str], list[dict[str, Any]]] = {}
        for piece in of["pieces"]:
            rows.setdefault((piece["layer"], piece["low"]["value"], piece["row"]), []).append(piece)
        seen: Counter[str] = Counter()
        for layer, _, name in sorted(rows):
            pieces = rows[layer, _, name]
            key = f"{wall} {layer} {seen[layer]}"
            seen[layer] += 1
            out |= {f"{key} low": pieces[0]["low"], f"{key} high": pieces[0]["high"]}
            total, cut = (sum(n) for n in zip(*((p["length"]["value"], backs(p)) for p in pieces), strict=True))
            out[f"{key} total"] = {"value": total, "count": len(pieces)}
            out[f"{key} top edges"] = {"value": total - cut, "count": 3 * len(pieces)}
    return out


def rod_worked(of: Drawn) -> Numbers:
    """The marks of the sidewalls' rods: boards by their marked edge, bearing and points, lowest first."""
    job = of.given
    plan = laid_plan(job)
    roof = laid_roof(job, plan)
    sides, gable = reference_rows.rows_of(job, plan, roof)
    out: Numbers = {}
    for wall, rows in [*zip(("left", "right"), sides, strict=False), ("end", gable)]:
        marks = [row.low if row.kind == "grade" else reference_rows.edge_of(job, row) for row in rows]
        marks.append(job["grade.floor"])
        if wall != "end":
            cuts = reference_columns.sidewall_cuts(job, plan, roof, wall == "right")
            marks += cuts.values() if job["column.trims"] == "top" else [cuts["bearing"]]
        out |= {f"{wall} mark {i}": mark for i, mark in enumerate(sorted(marks))}
    return out


def rod_found(report: dict[str, Any]) -> Found:
    """The same in the report, without what is marked for rows inside."""
    out: Found = {}
    for wall, of in walls_of(report):
        rod = next(r for r in report["rods"] if of["name"] in r["walls"])
        marks = [m["station"] for m in rod["marks"] if not m["name"].startswith("Inside")]
        side = "end" if wall in ("front", "back") else wall
        out |= {f"{side} mark {i}": mark for i, mark in enumerate(marks)}
    return out


def words_worked(of: Drawn) -> dict[str, str]:
    """HIGH or LOW against the first seat read, and longer or shorter, as printed (geometry page: in words)."""
    first = next(iter(of.down.values()))
    out = {}
    for name, down in of.down.items():
        amount = text(abs(down - first), of.steps, feet=False)
        if floor(abs(down - first) * of.steps + reference.HALF) == 0:
            out[name] = "level"
        else:
            low = down > first
            out[name] = f"{'LOW' if low else 'HIGH'} {amount}, {amount} {'LONGER' if low else 'SHORTER'}"
    return out


def words_found(report: dict[str, Any]) -> dict[str, str]:
    """The same in the report: the seat's and the column's words, without what they stand in."""
    out = {}
    for column in report["columns"]:
        seat, longer = column["seat"].split(" against ")[0].split(" ", 1)[1], column["longer"].split(" ", 1)[1]
        out[column["name"]] = f"{seat}, {longer}" if seat.startswith(("LOW", "HIGH")) else "level"
    return out


def differences(worked: Numbers, found: Found, steps: int) -> Iterator[str]:
    """What the two do not agree on."""
    for key in sorted({*worked, *found}):
        ours, theirs = worked.get(key), found.get(key)
        if ours is None or theirs is None:
            if ours is not None or theirs is not None:
                yield f"{key}: {float(ours) if ours is not None else None} against {theirs}"
            continue
        if abs(float(ours) - theirs["value"]) > NEAR * theirs.get("count", 1):
            yield f"{key}: {float(ours):.6f} against {theirs['value']}"
        elif "text" in theirs and text(ours, steps) != theirs["text"]:
            yield f"{key}: {float(ours):.9f} is printed {theirs['text']}, not {text(ours, steps)}"


WORKED = [
    (columns_worked, columns_found),
    (roof_worked, roof_found),
    (rows_worked, rows_found),
    (rod_worked, rod_found),
]


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
