"""Every number of 200 random buildings, worked twice: by the program and by `reference`, which knows only the words.

The program's own report for other programs is compared, its values to 1e-6 and its printed lengths letter for letter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import layouts.building
import pytest
import reference
import reference_rows
from random_buildings import Drawn, drawn
from reference import laid_plan, laid_roof, text

from layouts import book
from layouts import job as job_reader
from layouts import plan as plan_layout
from layouts.problems import JobRefused
from layouts.readings import of as readings_of
from sheets.report import as_json

BUILDINGS = range(200)
NEAR = 1e-6
Numbers = dict[str, Fraction | None]
Found = dict[str, dict[str, Any] | None]


def reported(of: Drawn) -> dict[str, Any]:
    """What ``rodwright check --json`` says of a building."""
    job = job_reader.read(of.toml)
    names = [spot.name for spot in plan_layout.lay(job).spots]
    readings = readings_of(book.read(of.csv, names, job.style.unit), job)
    return as_json(layouts.building.lay_out(job, readings))


def columns_worked(of: Drawn) -> Numbers:
    """Offsets, readings, cuts, lengths and stock of every column."""
    job = of.given
    plan = laid_plan(job)
    line = abs(job["grade.line"]) * (-1 if min(of.down.values()) < 0 else 1)
    out: Numbers = {}
    for name, cuts in reference.stations(job, plan, laid_roof(job, plan)).items():
        offset = of.down[name] - line
        out[f"{name} offset"] = offset
        out |= {f"{name} {key}": offset + station for key, station in cuts.items()}
        out[f"{name} length"] = offset + max(cuts.values())
        out[f"{name} stock"] = reference.stock(job, offset + max(cuts.values()))
    return out


def columns_found(report: dict[str, Any]) -> Found:
    """The same in the report."""
    out: Found = {}
    for column in report["columns"]:
        name = column["name"]
        out |= {f"{name} {key}": column[key] for key in ("offset", "length", "stock")}
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
        for row, total in sorted(rows, key=lambda pair: pair[0].low):
            key = f"{wall} {row.layer} {seen[row.layer]}"
            seen[row.layer] += 1
            out |= {f"{key} low": row.low, f"{key} high": row.high, f"{key} total": total}
    return out


def walls_of(report: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """The report's walls by what they are."""
    numbers = sorted((int(w["name"]) for w in report["walls"] if w["name"].isdigit()))
    for wall in report["walls"]:
        name = wall["name"]
        if name.isdigit():
            yield "front" if int(name) == numbers[0] else "back", wall
        else:
            yield "left" if name == "A" else "right", wall


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
            out[f"{key} total"] = {"value": sum(p["length"]["value"] for p in pieces), "count": len(pieces)}
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
            marks += reference.sidewall_cuts(job, plan, roof, wall == "right").values()
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


def differences(worked: Numbers, found: Found, unit: str) -> Iterator[str]:
    """What the two do not agree on."""
    for key in sorted({*worked, *found}):
        ours, theirs = worked.get(key), found.get(key)
        if ours is None or theirs is None:
            if ours is not theirs:
                yield f"{key}: {float(ours) if ours is not None else None} against {theirs}"
            continue
        if abs(float(ours) - theirs["value"]) > NEAR * theirs.get("count", 1):
            yield f"{key}: {float(ours):.6f} against {theirs['value']}"
        elif "text" in theirs and text(ours, unit) != theirs["text"]:
            yield f"{key}: {float(ours):.9f} is printed {theirs['text']}, not {text(ours, unit)}"


WORKED = [
    (columns_worked, columns_found),
    (roof_worked, roof_found),
    (rows_worked, rows_found),
    (rod_worked, rod_found),
]


@pytest.fixture(scope="module")
def laid() -> Iterator[list[tuple[Drawn, dict[str, Any] | str]]]:
    """All buildings with their reports, or why they are refused. What to buy is not asked: it takes most of the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(layouts.building, "_orders", lambda *_, **__: ())
        out: list[tuple[Drawn, dict[str, Any] | str]] = []
        for number in BUILDINGS:
            one = drawn(number)
            try:
                out.append((one, reported(one)))
            except JobRefused as refused:
                out.append((one, str(refused)))
        yield out
