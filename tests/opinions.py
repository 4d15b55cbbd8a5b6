"""Two opinions on one building: its numbers as `reference` works them, as the program reports them, what differs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import Any

import reference
import reference_columns
import reference_roof
import reference_rows
from random_buildings import Drawn
from reference import laid_plan, laid_roof, text

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
    out |= {f"eave line {i}": v for i, v in enumerate(reference_roof.eave_lines(job, plan, roof))}
    out |= {f"soffit {i}": v for i, v in enumerate(reference_roof.soffits(job, plan, roof))}
    for i in range(len(roof.chord)):
        run, length, marks = reference_roof.purlins(job, plan, roof, bool(i))
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
