"""Every field of a job file, once: its meaning, default, limits and kind.

The parts are the job as the program holds it (inches, slopes as rise over run); they stand in
``layouts.fields_frame``, ``fields_roof``, ``fields_wall`` and their neighbours. Each field carries its ``Spec``; the
reader (``layouts.job``), the README's table, the defaults and the error messages all come from it. Defaults are written
as a crew lead would write them, imperial and metric, and go through the same reader. Where a default is a habit of the
trade it is common practice, no source: the plan and local code govern.
"""

from __future__ import annotations

from typing import Any, Literal

from msgspec import Struct

from layouts.fields_cladding import CladdingPart
from layouts.fields_frame import BuildingPart, ColumnPart, JobPart
from layouts.fields_lift import LiftPart, NailsPart, WoodPart
from layouts.fields_openings import OpeningPart
from layouts.fields_roof import RoofPart, TrussPart
from layouts.fields_tops import CarrierPart, TopsPart
from layouts.fields_wall import CornersPart, GirtsPart, GradePart, LumberPart, ReadingsPart, WainscotPart
from layouts.heights import work_out
from layouts.lengths import Style
from layouts.spec import Part
from layouts.spec import Spec as Spec


class Job(Struct, frozen=True, kw_only=True):
    """A whole job: every length in inches, pitch as rise over run. *names* maps default column names to the crew's."""

    job: JobPart
    building: BuildingPart
    column: ColumnPart
    truss: TrussPart
    roof: RoofPart
    tops: TopsPart
    carrier: CarrierPart
    grade: GradePart
    readings: ReadingsPart
    girts: GirtsPart
    corners: CornersPart
    wainscot: WainscotPart
    cladding: CladdingPart
    lumber: LumberPart
    wood: WoodPart
    lift: LiftPart
    nails: NailsPart
    openings: tuple[OpeningPart, ...] = ()
    names: tuple[tuple[str, str], ...] = ()

    @property
    def floor_shift(self) -> float:
        """What turns a height of the job into a station: the floor's where heights are from the floor, else 0."""
        return self.grade.floor if self.truss.heights_from == "floor" else 0.0

    @property
    def bearing(self) -> float:
        """The bearing at wall A as a station: inches above the grade line. Raises ``heights.Unsettled``."""
        return work_out(self).bearing

    @property
    def inset(self) -> float:
        """From the building line in to the outside of the columns. Inches."""
        return self.girt_out if self.building.line == "girts" else 0.0

    @property
    def building_line(self) -> Literal["girts", "columns"]:
        """What the building line is the outside of: of columns too where no girt stands outside of them."""
        return "girts" if self.inset else "columns"

    @property
    def across(self) -> float:
        """Width out to out of the columns, or of a lean-to from their outside to the standing wall. Inches."""
        return self.building.width - self.inset * (1 if self.roof.shape == "lean-to" else 2)

    def boards(self, section: str, treated: bool = False) -> tuple[float, ...]:
        """What the yard's boards of a *section* give, ascending inches: their lengths less the trim; where some of the
        section have a price, those that have one."""
        priced = [p.length for p in self.lumber.prices if (p.section, p.treated) == (section, treated)]
        return tuple(length - self.lumber.trim for length in sorted(set(priced)) or self.lumber.stock)

    @property
    def girt_out(self) -> float:
        """How far girts stand out from the columns: their thickness, or nothing where none is outside. Inches."""
        return self.girts.board.thick if self.girts.place in ("outside", "both") else 0.0

    @property
    def heel_out(self) -> float:
        """From the outside of the columns out to the face the heel, and an overhang, is given at. Inches."""
        return self.girt_out if self.truss.heel_at == "girt" else 0.0

    @property
    def style(self) -> Style:
        """How this job prints its lengths."""
        return Style("mm" if self.job.units == "metric" else "in", self.job.fraction)


PARTS: dict[str, type[Part]] = {
    "job": JobPart,
    "building": BuildingPart,
    "column": ColumnPart,
    "truss": TrussPart,
    "roof": RoofPart,
    "tops": TopsPart,
    "carrier": CarrierPart,
    "grade": GradePart,
    "readings": ReadingsPart,
    "girts": GirtsPart,
    "corners": CornersPart,
    "wainscot": WainscotPart,
    "cladding": CladdingPart,
    "lumber": LumberPart,
    "wood": WoodPart,
    "lift": LiftPart,
    "nails": NailsPart,
}
OPENING = "opening"
NAMES = "names"
NAMES_HELP = 'Your own column names, e.g. `A1 = "N1"`: short, no two alike.'


def written(value: Any) -> str:
    """A default as it stands in a job file."""
    if isinstance(value, tuple):
        return "[" + ", ".join(written(v) for v in value) + "]"
    return f"'{value}'" if '"' in str(value) else f'"{value}"'


def table() -> str:
    """The README's table of the job file, in Markdown, made from the specs and nothing else."""
    rows = ["| field | meaning | default |", "|---|---|---|"]
    for name, part in PARTS.items():
        for key, spec in part.specs.items():
            rows.append(f"| `{name}.{key}` | {spec.help}{_choices(spec)} | {_default(spec)} |")
    for key, spec in OpeningPart.specs.items():
        rows.append(f"| `{OPENING}.{key}` | {spec.help}{_choices(spec)} | {_default(spec)} |")
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
