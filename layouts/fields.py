"""Every field of a job file, once: its meaning, default, limits and kind.

The dataclasses below are the job as the program holds it (inches, slopes as rise over run). Each field carries its
``Spec``; the reader (``layouts.job``), the README's table, the defaults and the error messages all come from it.
Defaults are written as a crew lead would write them, imperial and metric, and go through the same reader.
Where a default is a habit of the trade it is common practice, no source: the plan and local code govern.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, fields
from typing import Any, Literal

from layouts.lengths import Style
from layouts.lumber import Section

Kind = Literal[
    "text",
    "name",
    "length",
    "lengths",
    "section",
    "sections",
    "choice",
    "count",
    "pitch",
    "bays",
    "line",
    "date",
]


@dataclass(frozen=True)
class Spec:
    """What one field takes. *default* ``None`` means the job must give it; *least* and *most* are inches (or a number
    for counts); *metric* is the default of a metric job where it differs; *many* is the most items a list may have."""

    kind: Kind
    help: str
    default: Any = None
    metric: Any = None
    least: float = 0.0
    most: float = 0.0
    choices: tuple[str, ...] = ()
    required: bool = False
    none: bool = False
    many: int = 600


def _take(
    kind: Kind,
    meaning: str,
    default: Any = None,
    *,
    metric: Any = None,
    least: float = 0.0,
    most: float = 0.0,
    choices: tuple[str, ...] = (),
    none: bool = False,
) -> Any:
    spec = Spec(kind, meaning, default, metric, least, most, choices, default is None and not none, none)
    return field(metadata={"spec": spec})


FOOT = 12.0


@dataclass(frozen=True, kw_only=True)
class JobPart:
    """``[job]``"""

    name: str = _take("text", "The name of the job, printed on every sheet.")
    place: str = _take("text", "Where it is.", "")
    crew: str = _take("text", "Who builds it.", "")
    date: str = _take("date", "The day the readings were taken, printed on every tag.", "")
    units: Literal["imperial", "metric"] = _take(
        "choice",
        "What a bare number means and how lengths print.",
        "imperial",
        choices=("imperial", "metric"),
    )
    fraction: int = _take("choice", "Imperial lengths print to 1/16 or 1/32.", "16", choices=("16", "32"))
    paper: str = _take(
        "text",
        "The paper in the printer: letter, legal, tabloid, a4, a3, ansi-c to ansi-e, arch-a to arch-e1, or its size"
        " like 12x18; for rods also roll-24in, roll-36in, roll-610mm, roll-914mm.",
        "letter",
        metric="a4",
    )


@dataclass(frozen=True, kw_only=True)
class BuildingPart:
    """``[building]``"""

    width: float = _take("length", "Across the gable, along the trusses.", least=8 * FOOT, most=200 * FOOT)
    length: float = _take("length", "Along the eaves.", least=8 * FOOT, most=1000 * FOOT)
    line: Literal["girts", "columns"] = _take(
        "choice",
        "Width and length are measured to the outside of the girts or of the columns.",
        "girts",
        choices=("girts", "columns"),
    )
    bays: tuple[float, ...] | int = _take(
        "bays",
        "Bays along the eaves from the front: how many equal ones, or each one. The first and last are measured from"
        " the building line, the others column centre to column centre.",
        least=2 * FOOT,
        most=30 * FOOT,
    )
    front_columns: tuple[float, ...] = _take(
        "lengths",
        "Centres of the columns in the front endwall, from the building line at wall A.",
        (),
        most=200 * FOOT,
    )
    back_columns: tuple[float, ...] = _take(
        "lengths",
        "Centres of the columns in the back endwall, also from the building line at wall A.",
        (),
        most=200 * FOOT,
    )
    front_faces: str = _take("text", "What the front endwall looks at, so that nobody turns the plan.", "")


@dataclass(frozen=True, kw_only=True)
class ColumnPart:
    """``[column]``"""

    plies: int = _take("choice", "Plies of the laminated column.", "3", choices=("3", "4"))
    width: float = _take(
        "length",
        "Real size across the plies. Measure it: planed columns are thinner.",
        '4 1/2"',
        metric="114 mm",
        least=3,
        most=12,
    )
    depth: float = _take(
        "length",
        "Real size along a ply, set along the truss on the sidewalls.",
        '5 1/2"',
        metric="140 mm",
        least=3,
        most=16,
    )
    endwall_face: Literal["width", "depth"] = _take(
        "choice",
        "The side of an endwall column that lies along the endwall.",
        "width",
        choices=("width", "depth"),
    )
    trim: float = _take(
        "length",
        "Kept for squaring the end when the stock length is chosen.",
        '1/2"',
        metric="12 mm",
        most=12,
    )
    stock: tuple[float, ...] = _take(
        "lengths",
        "Column lengths the yard has.",
        ("8'", "10'", "12'", "14'", "16'", "18'", "20'", "22'", "24'", "26'", "28'", "30'"),
        metric=(
            "2.4 m",
            "3 m",
            "3.6 m",
            "4.2 m",
            "4.8 m",
            "5.4 m",
            "6 m",
            "6.6 m",
            "7.2 m",
            "7.8 m",
            "8.4 m",
            "9 m",
        ),
        least=2 * FOOT,
        most=60 * FOOT,
    )


@dataclass(frozen=True, kw_only=True)
class TrussPart:
    """``[truss]``"""

    bearing: float = _take("length", "Underside of the truss at its seat.", least=4 * FOOT, most=50 * FOOT)
    heights_from: Literal["grade line", "floor"] = _take(
        "choice",
        "What the bearing and the wainscot height are measured from.",
        "grade line",
        choices=("grade line", "floor"),
    )
    heel: float = _take("length", "Bearing to the top of the top chord, plumb.", least=2, most=60)
    heel_at: Literal["column", "girt"] = _take(
        "choice",
        "The face the heel is given at: outside of the column or outside of the girts.",
        "column",
        choices=("column", "girt"),
    )
    pitch: float = _take("pitch", "Rise on a run of 12, both slopes.", least=0.5 / 12, most=24 / 12)
    thickness: float = _take(
        "length",
        "Truss thickness, checked against the ply it replaces.",
        '1 1/2"',
        metric="38 mm",
        least=0.5,
        most=8,
    )


@dataclass(frozen=True, kw_only=True)
class RoofPart:
    """``[roof]``"""

    purlin: Section = _take("section", "Purlin size.", "2x6", metric="45x140")
    purlins: Literal["edge", "flat", "flush"] = _take(
        "choice",
        "Purlins stand on edge on the trusses, lie flat on them, or hang flush between them.",
        "edge",
        choices=("edge", "flat", "flush"),
    )
    overhang: float = _take(
        "length",
        "Level, from the face the heel is given at to the outside of the fascia.",
        "0",
        most=8 * FOOT,
    )
    fascia: float = _take("length", "Fascia depth, plumb.", '5 1/2"', metric="140 mm", most=24)
    soffit: Literal["level", "none"] = _take(
        "choice", "A level soffit with a nailer on the sidewalls, or none.", "none", choices=("level", "none")
    )
    soffit_nailer: Section = _take(
        "section", "Soffit nailer size, on the flat against the columns.", "2x4", metric="45x90"
    )


@dataclass(frozen=True, kw_only=True)
class TopsPart:
    """``[tops]``"""

    sidewall_ears: Literal["roof", "chord"] = _take(
        "choice",
        "Ears of the sidewall columns run to the roof plane (purlin tops) or the chord top.",
        "roof",
        choices=("roof", "chord"),
    )
    endwall_ears: Literal["roof", "chord"] = _take(
        "choice",
        "Outer plies of the endwall columns run to the roof plane or the chord top.",
        "chord",
        choices=("roof", "chord"),
    )
    endwall_centre: Literal["ears", "bearing", "chord", "roof"] = _take(
        "choice",
        "Centre ply of the endwall columns: with the ears, or to a top of its own.",
        "ears",
        choices=("ears", "bearing", "chord", "roof"),
    )
    clearance: float = _take("length", "Ears stay this far below, plumb.", "0", most=12)


@dataclass(frozen=True, kw_only=True)
class GradePart:
    """``[grade]``"""

    board: Section = _take("section", "Grade board size.", "2x8", metric="45x190")
    boards: int = _take("count", "Rows of grade board, the lowest on the grade line.", "1", least=1, most=4)
    floor: float = _take("length", "Finished floor above the grade line.", '3 1/2"', metric="90 mm", most=6 * FOOT)
    line: float | None = _take(
        "line",
        "The line reading: the rod reading that would fall on the grade line, or `choose`.",
        "choose",
        most=30 * FOOT,
    )
    least: float = _take(
        "length",
        "Where the line is chosen: the least offset wanted, at the highest seat.",
        '1"',
        metric="25 mm",
        most=10 * FOOT,
    )
    round: Literal["whole", "half"] = _take(
        "choice",
        "Where the line is chosen: to a whole or half inch (10 or 5 mm) on the rod.",
        "half",
        choices=("whole", "half"),
    )
    reference: str = _take("name", "The column that HIGH and LOW are told against; the first one read if empty.", "")
    flag: float = _take(
        "length",
        "A seat further than this from the reference is to be shot again.",
        '1"',
        metric="25 mm",
        least=1 / 16,
        most=10 * FOOT,
    )


@dataclass(frozen=True, kw_only=True)
class GirtsPart:
    """``[girts]``"""

    board: Section = _take("section", "Girt size, flat on the outside of the columns.", "2x4", metric="45x90")
    spacing: Literal["equal", "fixed"] = _take(
        "choice",
        "Equal steps no more than `step`, or `step` each with the rest last.",
        "equal",
        choices=("equal", "fixed"),
    )
    step: float = _take("length", "The step, edge to like edge.", '24"', metric="600 mm", least=6, most=8 * FOOT)
    tolerance: float = _take(
        "length",
        "An equal step may exceed `step` by this in all before a row is added.",
        '1/4"',
        metric="6 mm",
        most=6,
    )
    edge: Literal["bottom", "top"] = _take(
        "choice",
        "The edge of the boards that is marked on all sheets; the grade board's is always its bottom.",
        "bottom",
        choices=("bottom", "top"),
    )
    top: float | None = _take(
        "length",
        "Top edge of the highest sidewall row, above the grade line. Left out: the soffit nailer where there is a"
        " level soffit, else flush with the bearing.",
        none=True,
        least=2 * FOOT,
        most=60 * FOOT,
    )
    runs_past: Literal["end", "side"] = _take(
        "choice",
        "The walls whose girts and nailers run past at the corners; the others stop at the column.",
        "end",
        choices=("end", "side"),
    )
    grade_board_runs_past: Literal["end", "side"] = _take(
        "choice", "The same for the grade board.", "end", choices=("end", "side")
    )


@dataclass(frozen=True, kw_only=True)
class WainscotPart:
    """``[wainscot]``"""

    nailer: Section | None = _take("section", "Wainscot nailer size, or leave it out.", none=True)
    height: float = _take("length", "Its bottom edge.", "3'", metric="900 mm", least=6, most=12 * FOOT)


@dataclass(frozen=True, kw_only=True)
class LumberPart:
    """``[lumber]``"""

    stock: tuple[float, ...] = _take(
        "lengths",
        "Board lengths the yard has.",
        ("8'", "10'", "12'", "14'", "16'", "18'", "20'"),
        metric=("2.4 m", "3 m", "3.6 m", "4.2 m", "4.8 m", "5.4 m", "6 m"),
        least=2 * FOOT,
        most=60 * FOOT,
    )
    kerf: float = _take("length", "What the saw takes.", '1/8"', metric="3 mm", most=1)


@dataclass(frozen=True, kw_only=True)
class Job:
    """A whole job: every length in inches, pitch as rise over run. *names* maps default column names to the crew's."""

    job: JobPart
    building: BuildingPart
    column: ColumnPart
    truss: TrussPart
    roof: RoofPart
    tops: TopsPart
    grade: GradePart
    girts: GirtsPart
    wainscot: WainscotPart
    lumber: LumberPart
    names: tuple[tuple[str, str], ...] = ()

    @property
    def floor_shift(self) -> float:
        """What turns a height of the job into a station: the floor's where heights are from the floor, else 0."""
        return self.grade.floor if self.truss.heights_from == "floor" else 0.0

    @property
    def bearing(self) -> float:
        """The bearing as a station: inches above the grade line."""
        return self.truss.bearing + self.floor_shift

    @property
    def style(self) -> Style:
        """How this job prints its lengths."""
        return Style("mm" if self.job.units == "metric" else "in", self.job.fraction)


PARTS: dict[str, type[Any]] = {
    "job": JobPart,
    "building": BuildingPart,
    "column": ColumnPart,
    "truss": TrussPart,
    "roof": RoofPart,
    "tops": TopsPart,
    "grade": GradePart,
    "girts": GirtsPart,
    "wainscot": WainscotPart,
    "lumber": LumberPart,
}
NAMES = "names"
NAMES_HELP = 'Your own column names, e.g. `A1 = "N1"`: short, no two alike.'


def specs(part: type[Any]) -> Iterator[tuple[str, Spec]]:
    """Each field name of a part with its spec, in order."""
    for item in fields(part):
        yield item.name, item.metadata["spec"]


def written(value: Any) -> str:
    """A default as it stands in a job file."""
    if isinstance(value, tuple):
        return "[" + ", ".join(written(v) for v in value) + "]"
    return f"'{value}'" if '"' in str(value) else f'"{value}"'


def table() -> str:
    """The README's table of the job file, in Markdown, made from the specs and nothing else."""
    rows = ["| field | meaning | default |", "|---|---|---|"]
    for name, part in PARTS.items():
        for key, spec in specs(part):
            rows.append(f"| `{name}.{key}` | {spec.help}{_choices(spec)} | {_default(spec)} |")
    rows.append(f"| `{NAMES}` | {NAMES_HELP} | none |")
    return "\n".join(rows)


def _choices(spec: Spec) -> str:
    return " " + ", ".join(f"`{c}`" for c in spec.choices) + "." if spec.choices else ""


def _default(spec: Spec) -> str:
    if spec.required:
        return "**must be given**"
    if spec.none:
        return "left out"
    shown = f"`{written(spec.default)}`" if spec.default not in ("", ()) else "empty"
    return shown if spec.metric is None else f"{shown}, metric `{written(spec.metric)}`"
