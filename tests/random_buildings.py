"""Random buildings as a crew would write them down: a job file, its readings, and what they say as exact numbers.

Every size is drawn as a fraction and then written in one of the ways the README allows, so that the reader of the job
is tried as well. The description for the second opinion comes from the drawn numbers, never from the written text.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from random_fields import Fields
from random_written import IN, MM, decimal, mixed, toml, written
from reference import kink, laid_plan, laid_roof
from reference_columns import names


@dataclass(frozen=True)
class Drawn:
    """A building: what it is, its job file, its readings file, and the readings from the beam down to the seat."""

    number: int
    given: dict[str, Any]
    toml: str
    csv: str
    down: dict[str, Fraction]

    @property
    def steps(self) -> int:
        """In how many parts of an inch, or of a millimetre, its lengths are printed."""
        return 1 if self.given.get("job.units") == "metric" else int(self.given["job.fraction"])


class Maker(Fields):
    """Draws one building, part by part."""

    def plan(self) -> None:
        """Sizes, bays and endwall columns."""
        self.length("building.width", 216, 456, "1/2", 10)
        self.length("building.length", 240, 480, "1/2", 10)
        self.one_of("building.line", "girts", "columns", chance=0.5)
        if self.rng.random() < 0.5:
            self.one_of("building.bays", *range(3, 6))
        else:
            bays = self.parts(self.given["building.length"], 96, 144)
            self.say("building.bays", bays, [written(self.rng, b, self.unit) for b in bays])
        for end in ("front", "back"):
            if end == "back" and self.rng.random() < 0.6:
                centres = self.given["building.front_columns"]
            else:
                steps = self.parts(self.given["building.width"], 90, 150)
                centres = [sum(steps[: k + 1], Fraction(0)) for k in range(len(steps) - 1)]
            said = [written(self.rng, c, self.unit) for c in centres]
            self.say(f"building.{end}_columns", centres, said)

    def column(self) -> None:
        """What the columns are, and what trusses stand on."""
        make = self.rng.choice(("laminated", "laminated", "solid"))
        self.say("column.make", make)
        if make == "laminated":
            self.one_of("column.plies", 3, 4, chance=0.5)
            sizes = {3: ("9/2", "17/4", 114), 4: ("6", "23/4", 152)}[self.given["column.plies"]]
            size = Fraction(self.rng.choice(sizes[:2])) if self.unit == IN else Fraction(sizes[2])
            self.say("column.width", size)
        else:
            self.length("column.width", 5.5, 7.25)
        self.length("column.depth", 5.25, 7.25, "1/8", chance=0.5)
        self.one_of("column.endwall_face", "width", "depth", chance=0.4)
        self.length("column.trim", 0.25, 1, "1/8", chance=0.3)
        seats = ("slot", "slot", "shoulder", "flat") if make == "laminated" else ("shoulder", "flat")
        self.say("tops.seat", self.rng.choice(seats))
        self.one_of("tops.sidewall_ears", "roof", "chord", chance=0.4)
        self.length("tops.clearance", 0.125, 0.75, "1/8", chance=0.4)
        self.wood("truss.top_chord", "2x4,2x6", "45x90,45x140")
        plain = self.given["girts.place"] in ("outside", "both")
        self.one_of("tops.endwall_ears", "roof", "chord", *(("chord bottom", "bearing") if plain else ()), chance=0.6)
        if make == "laminated":
            self.one_of("tops.endwall_centre", "ears", "bearing", "chord bottom", "chord", "roof", chance=0.5)

    def roof(self) -> None:
        """The kind of roof, its heights and pitches."""
        kind = self.rng.choice(("plain", "ridge", "pitches", "eaves", "both", "mono-slope", "lean-to"))
        one = kind in ("mono-slope", "lean-to")
        self.say("roof.shape", kind if one else "gable")
        self.one_of("truss.heights_from", "grade line", "floor", chance=0.5)
        self.length("grade.floor", 2, 5, chance=0.5)
        self.length("truss.heel", 4, 16, "1/16")
        self.one_of("truss.heel_at", "column", "girt", chance=0.5)
        heights = (114, 168)
        by_eave = self.rng.random() < 0.3
        self.length("truss.eave" if by_eave else "truss.bearing", *heights, "1/4")
        if one:
            self.one_sloped(kind, by_eave)
        else:
            self.pitch("truss.pitch", 2, 7)
            self.gable(kind)

    def one_sloped(self, kind: str, by_eave: bool) -> None:
        """A roof of one slope: its pitch, or the height of its high side."""
        name = "truss.far_eave" if kind == "mono-slope" else "truss.wall_height"
        if self.rng.random() < 0.5:
            self.pitch("truss.pitch", 1, 3)
            if kind == "mono-slope":
                self.length("truss.far_bearing", 114, 168, chance=0.3)
        else:
            self.length(name, 222, 270)
            if kind == "lean-to" and not by_eave and self.rng.random() < 0.4:
                self.pitch("truss.pitch", 1, 2)
                del self.given["truss.bearing"], self.lines["truss.bearing"]

    def gable(self, kind: str) -> None:
        """What makes a gable's two sides unlike."""
        if kind in ("pitches", "both"):
            self.pitch("truss.far_pitch", 2, 7)
        if kind == "ridge":
            wide = self.given["building.width"]
            self.say("roof.ridge", Fraction(round(wide * Fraction(self.rng.randint(40, 60), 100))))
            self.length("truss.far_bearing", 120, 168, chance=0.2)
        if kind in ("eaves", "both"):
            self.length(self.rng.choice(("truss.far_bearing", "truss.far_eave")), 126, 180)
        self.length("truss.far_heel", 4, 16, "1/16", chance=0.15)

    def sane(self) -> None:
        """A ridge near a wall is nobody's: that gable gets two sides alike."""
        plan = laid_plan(self.given)
        ridge = kink(laid_roof(self.given, plan).chord)
        if ridge is None or plan.across / 4 < ridge < plan.across * 3 / 4:
            return
        for name in ("truss.far_pitch", "truss.far_bearing", "truss.far_eave", "truss.far_heel", "roof.ridge"):
            self.given.pop(name, None)
            self.lines.pop(name, None)

    def trimmings(self) -> None:
        """Purlins, sheathing, overhang and soffit."""
        self.wood("roof.purlin", "2x4,2x6,2x8", "45x90,45x140", chance=0.6)
        self.one_of("roof.purlins", "edge", "flat", "flush", chance=0.6)
        self.length("roof.purlin_step", 16, 30, "1/2", 10, chance=0.4)
        self.length("roof.purlin_first", 0.5, 6, "1/2", chance=0.2)
        self.length("roof.purlin_ridge", 1, 8, "1/2", chance=0.3)
        self.length("roof.sheathing", 0.4375, 0.75, "1/16", chance=0.25)
        self.length("roof.overhang", 10, 24, "1/2", chance=0.6)
        if self.given["roof.overhang"]:
            self.length("roof.far_overhang", 10, 24, "1/2", chance=0.2 if self.given["roof.shape"] != "lean-to" else 0)
            self.length("roof.fascia", 3.5, 7.25, "1/4", chance=0.6)
            self.length("roof.fascia_thick", 0.75, 1.5, chance=0.3)
            self.one_of("roof.fascia_cut", "plumb", "square", chance=0.5)
            if self.given["tops.seat"] != "flat":
                self.one_of("roof.soffit", "level", "level", "sloped", "none")
        self.wood("roof.soffit_nailer", "2x4,2x6", "45x90,45x140", chance=0.3)
        alike = not any(name.startswith(("truss.far", "roof.far", "roof.ridge")) for name in self.given)
        if self.given["roof.shape"] == "gable" and alike and self.given["roof.soffit"] == "none":
            self.length("girts.top", 96, 108, "1/4", chance=0.4)
        if self.given["roof.shape"] == "gable" and self.rng.random() < 0.15:
            heel = min(self.given["truss.heel"], self.given.get("truss.far_heel", self.given["truss.heel"]))
            # 2 in of heel are left
            self.length("truss.endwall_drop", 1.5, min(5.5, heel / (1 if self.unit == IN else 25.4) - 2.0625), "1/8")

    def spacing(self) -> None:
        """Purlins in equal spaces or at a fixed step."""
        self.one_of("roof.purlin_spacing", "equal", "fixed")

    def made(self) -> None:
        """Columns with their top made in the factory, for a roof whose bearings are alike."""
        plan = laid_plan(self.given)
        roof = laid_roof(self.given, plan)
        if self.rng.random() > 0.15 or roof.bearings[0] != roof.bearings[1]:
            return
        self.say("column.treated", "all")
        bearing = roof.bearings[0]
        about = Fraction(round(bearing)) + self.between(1, 4, "1/4")
        if self.given["tops.seat"] == "slot" and self.rng.random() < 0.4:
            self.say("column.trims", "none")
            self.say("column.centre_ply", about - self.between(10, 16, "1/2"))
        else:
            self.one_of("column.trims", "bottom", "bottom", "none")
            self.say("column.notch", about)
        if self.given["tops.seat"] != "flat":
            self.length("column.ears", 10, 30, "1/4")

    def rows(self) -> None:
        """Grade boards, nailers, girts and their corners."""
        self.wood("grade.board", "2x6,2x8,2x10", "45x140,45x190", chance=0.6)
        self.one_of("grade.boards", 1, 2, chance=0.2)
        self.wood("girts.board", "2x4,2x6,1 5/8 x 3 5/8", "45x90,35x90", chance=0.6)
        lean = self.given["roof.shape"] == "lean-to"
        self.one_of("girts.place", "outside", "between", *(() if lean else ("inside", "both")), chance=0.6)
        self.wood("girts.inside", "2x4,2x6", "45x90,45x140", chance=0.3)
        self.length("girts.gap", 0, 0.25, "1/16", chance=0.3)
        self.one_of("girts.spacing", "equal", "fixed", chance=0.4)
        self.length("girts.step", 18, 36, "1/4", 10, chance=0.6)
        self.length("girts.tolerance", 0, 0.5, "1/8", chance=0.3)
        self.one_of("girts.edge", "bottom", *(("top",) if self.given["grade.boards"] == 1 else ()), chance=0.5)
        for name in ("girts.runs_past", "girts.grade_board_runs_past"):
            if lean:
                self.say(name, "side")
            else:
                self.one_of(name, "end", "side", chance=0.4)
        self.wood("wainscot.nailer", "2x4,2x6", "45x90,45x140", chance=0.5)
        if "wainscot.nailer" in self.given:
            self.length("wainscot.height", 28, 48, "1/2", 5, chance=0.6)

    def drawn(self, number: int) -> Drawn:
        """All of it, with readings for the columns that it has."""
        self.plan()
        self.roof()
        self.rows()
        self.sane()
        self.column()
        self.trimmings()
        self.spacing()
        self.made()
        down, csv = self.readings()
        return Drawn(number, self.given, toml(self.lines), csv, down)

    def readings(self) -> tuple[dict[str, Fraction], str]:
        """Readings in one of the units and senses a user takes them in; the first point is read back."""
        raw: dict[str, Fraction] = {}
        way = self.rng.choice(("fractions", "decimals", "feet", "up", "concrete")) if self.unit == IN else "fractions"
        middle = self.between(40, 60, "1/2", 5)
        for name in names(self.given, laid_plan(self.given)):
            raw[name] = middle + self.between(-0.9, 0.9, "1/16")
            if way in ("decimals", "feet"):
                raw[name] = Fraction(round(raw[name] * 100), 100)
        head = {"feet": ["unit,feet"], "up": ["sense,up"], "concrete": ["read on,concrete", "plate,3/8"]}.get(way, [])
        if way == "feet":
            raw = {name: Fraction(round(value / 12 * 1000), 1000) for name, value in raw.items()}
        said = {n: decimal(v) if way in ("decimals", "feet") or self.unit == MM else mixed(v) for n, v in raw.items()}
        first = next(iter(raw))
        lines = [*head, "column,reading", *(f"{n},{s}" for n, s in said.items()), f"{first},{said[first]}"]
        sense = -1 if way == "up" else 1
        down = {
            n: sense * v * (12 if way == "feet" else 1) - (Fraction(3, 8) if way == "concrete" else 0)
            for n, v in raw.items()
        }
        if self.given["column.trims"] == "top" and self.rng.random() < 0.4:
            self.length("grade.least", 0.5, 3, "1/8", chance=0.5)
            step, inch, mm = self.rng.choice((("whole", "1", "10"), ("half", "1/2", "5"), ("quarter", "1/4", "2")))
            self.say("grade.round", Fraction(inch if self.unit == IN else mm), step)
        else:
            lowest = min(down.values()) - self.between(1, 4, "1/4")
            line = Fraction(int(lowest * 16 // 1), 16) if self.unit == IN else lowest
            self.say("grade.line", line if way != "up" else -line)
        return down, "\n".join(lines) + "\n"


def drawn(number: int) -> Drawn:
    """The building of a number: the same one in every run."""
    return Maker(number).drawn(number)
