"""Jobs with openings for the tests: tables of openings, and whole buildings with random ones."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hypothesis import strategies as st
from jobs import BASE, Drawn, Raw, build, every, job, job_fields, problems, toml_text, toml_value
from msgspec.structs import asdict

from layouts import job as job_reader
from layouts.building import Building, lay_out
from layouts.fields import Job
from layouts.openings import Opening
from layouts.plan import lay as plan_of

DOOR: dict[str, Any] = {"name": "D9", "wall": "A", "kind": "walk", "width": "3'", "height": "6'-8", "bay": 2}
WINDOW: dict[str, Any] = {**DOOR, "name": "W9", "kind": "window", "height": "3'", "sill": "3'-6"}
OVERHEAD: dict[str, Any] = {**DOOR, "kind": "overhead", "width": "7'", "height": "8'"}
SLIDING: dict[str, Any] = {**DOOR, "kind": "sliding", "width": "6'", "height": "8'"}


def at(place: str, **changes: Any) -> dict[str, Any]:
    """What stands at a place instead of in a bay."""
    return {"bay": Raw(""), "at": place, **changes}


def of(*parts: Mapping[str, Any]) -> dict[str, Any]:
    """The openings of a job, to lay over its other fields; a field without a value is left out."""
    tables = (
        ", ".join(f"{k} = {toml_value(v)}" for k, v in part.items() if not (isinstance(v, Raw) and not v.toml))
        for part in parts
    )
    return {"opening": Raw("[" + ", ".join("{" + table + "}" for table in tables) + "]")}


def with_openings(changes: Mapping[str, Any], *parts: Mapping[str, Any]) -> dict[str, Any]:
    """Fields of a job with its openings."""
    return {**changes, **of(*parts)}


def opened(*parts: Mapping[str, Any], base: Mapping[str, Any] = BASE, **changes: Any) -> Building:
    """A building with openings; double underscores are the dots of field names."""
    dotted = {key.replace("__", "."): value for key, value in changes.items()}
    return build(with_openings(dotted, *parts), base=base)


def one(part: Mapping[str, Any], base: Mapping[str, Any] = BASE, **changes: Any) -> Opening:
    """The only opening of a building."""
    (found,) = (o for wall in opened(part, base=base, **changes).walls for o in wall.openings)
    return found


def read(*parts: Mapping[str, Any], **changes: Any) -> Building:
    """The same building with every column read at 45, grade line at 43: offsets of 2."""
    dotted = {key.replace("__", "."): value for key, value in changes.items()}
    made = job(with_openings({"grade.line": "43", **dotted}, *parts))
    return lay_out(made, every(made))


def wrongs(*parts: Mapping[str, Any], base: Mapping[str, Any] = BASE, **changes: Any) -> list[tuple[str, str]]:
    """Place and words of everything that is wrong with a job."""
    dotted = {key.replace("__", "."): value for key, value in changes.items()}
    return [(p.place, f"{p.wrong} {p.right}") for p in problems(toml_text({**base, **with_openings(dotted, *parts)}))]


@st.composite
def parts(draw: st.DrawFn, made: Job, number: int) -> dict[str, Any]:
    """Some opening in some wall: it may or may not be one that can be built."""
    line = draw(st.sampled_from(plan_of(made).walls))
    kind = draw(st.sampled_from(["overhead", "sliding", "walk", "window"]))
    place: dict[str, Any] = {"bay": draw(st.integers(1, max(len(line.columns) - 1, 1)))}
    if draw(st.booleans()):
        place = {
            "at": draw(st.integers(0, int(line.length))),
            "measured_to": draw(st.sampled_from(["centre", "left", "right"])),
        }
    return {
        "name": f"N{number}",
        "wall": line.name,
        "kind": kind,
        "width": draw(st.integers(20, 120)),
        "height": draw(st.integers(24, 96)),
        "girts": draw(st.sampled_from(["stop", "through"])),
        "jambs": draw(st.sampled_from(["posts", "posts", "columns"])),
        "header": draw(st.sampled_from(["2x4", "2x6", "2x12"])),
        **({"slides": draw(st.sampled_from(["left", "right", "both"]))} if kind == "sliding" else {}),
        **({"sill": draw(st.integers(14, 90))} if kind == "window" else {}),
        **place,
    }


@st.composite
def buildings(draw: st.DrawFn, place: tuple[str, ...] = ("outside",)) -> Building:
    """Whole buildings with those of some openings that go where they are wanted; every column is read."""
    given = {**draw(job_fields()), "girts.place": draw(st.sampled_from(place))}
    made = job_reader.read(toml_text(given))
    kept = [draw(parts(made, number)) for number in range(draw(st.integers(1, 7)))]
    while wrong := {int(p.place.split(".")[0].split()[1]) for p in problems(toml_text({**given, **of(*kept)}))}:
        kept = [part for number, part in enumerate(kept, 1) if number not in wrong]
    text = toml_text({**(of(*kept) if kept else {}), **given})
    made = job_reader.read(text)
    laid = lay_out(made, every(made))
    return Drawn(**asdict(laid), text=text)
