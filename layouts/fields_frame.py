"""The fields that say what is built: job, building and columns."""

from __future__ import annotations

from typing import Literal

from layouts.languages import CHOICES, ENGLISH
from layouts.spec import FOOT, Part, take
from layouts.tag_size import TagSize


class JobPart(Part, frozen=True, kw_only=True):
    """``[job]``"""

    name: str = take("text", "The name of the job, printed on every sheet.")
    place: str = take("text", "Where it is.", "")
    crew: str = take("text", "Who builds it.", "")
    date: str = take("date", "The day the readings were taken, printed on every tag.", "")
    units: Literal["imperial", "metric"] = take(
        "choice",
        "What a bare number means and how lengths print.",
        "imperial",
        choices=("imperial", "metric"),
    )
    fraction: int = take("choice", "Imperial lengths print to 1/16 or 1/32.", "16", choices=("16", "32"))
    paper: str = take(
        "text",
        "The paper in the printer: letter, legal, tabloid, a4, a3, ansi-c to ansi-e, arch-a to arch-e1, or its size"
        " like 12x18; for rods also roll-24in, roll-36in, roll-610mm, roll-914mm.",
        "letter",
        metric="a4",
    )
    language: str = take(
        "choice",
        "What the sheets of this job are written in; in two languages only the tags are, fewer to a page, the rest in"
        " English.",
        ENGLISH,
        choices=CHOICES,
    )
    tags: TagSize = take(
        "tags",
        "Tags to a page of letter or A4, `1`, `2`, `4` or `6`: more go on larger paper. Or the size of a label or of a"
        " sheet of waterproof stock, like `4 x 6` or `102 x 152 mm`: one tag fills each, short side across.",
        "2",
    )
    print: Literal["normal", "large"] = take(
        "choice",
        "Large print: tags a quarter larger, fewer to a page (on a label as large as its ink lets them); wall diagrams"
        " with larger pictures, names and figures; no words on rods made smaller to save a lane. It takes more pages.",
        "normal",
        choices=("normal", "large"),
    )


class BuildingPart(Part, frozen=True, kw_only=True):
    """``[building]``"""

    width: float = take("length", "Across the gable, along the trusses.", least=8 * FOOT, most=200 * FOOT)
    length: float = take("length", "Along the eaves.", least=8 * FOOT, most=1000 * FOOT)
    line: Literal["girts", "columns"] = take(
        "choice",
        "Width and length are measured to the outside of the girts or of the columns.",
        "girts",
        choices=("girts", "columns"),
    )
    bays: tuple[float, ...] | int = take(
        "bays",
        "Bays along the eaves from the front: how many equal ones, or each one. The first and last are measured from"
        " the building line, the others column centre to column centre.",
        least=2 * FOOT,
        most=30 * FOOT,
    )
    front_columns: tuple[float, ...] = take(
        "lengths",
        "Centres of the columns in the front endwall, from the building line at wall A.",
        (),
        most=200 * FOOT,
    )
    back_columns: tuple[float, ...] = take(
        "lengths",
        "Centres of the columns in the back endwall, also from the building line at wall A.",
        (),
        most=200 * FOOT,
    )
    front_faces: str = take("text", "What the front endwall looks at, so that nobody turns the plan.", "")


class ColumnPart(Part, frozen=True, kw_only=True):
    """``[column]``"""

    make: Literal["laminated", "solid"] = take(
        "choice",
        "Laminated of plies, or solid: this one has no ply to leave out for a truss.",
        "laminated",
        choices=("laminated", "solid"),
    )
    plies: int = take("choice", "Plies of the laminated column.", "3", choices=("3", "4"))
    width: float = take(
        "length",
        "Real size across the plies. Measure it: planed columns are thinner.",
        '4 1/2"',
        metric="114 mm",
        least=3,
        most=12,
    )
    depth: float = take(
        "length",
        "Real size along a ply, set along the truss on the sidewalls.",
        '5 1/2"',
        metric="140 mm",
        least=3,
        most=16,
    )
    endwall_face: Literal["width", "depth"] = take(
        "choice",
        "The side of an endwall column that lies along the endwall.",
        "width",
        choices=("width", "depth"),
    )
    trim: float = take(
        "length",
        "Kept for squaring the end when the stock length is chosen.",
        '1/2"',
        metric="12 mm",
        most=12,
    )
    trims: Literal["top", "bottom", "none"] = take(
        "choice",
        "The end of the sidewall columns that may be cut: the top; the bottom, where the top is made in the factory; or"
        " neither, then each stands on packing or takes a seat block. Endwall columns are always cut at the top.",
        "top",
        choices=("top", "bottom", "none"),
    )
    notch: float | None = take(
        "length",
        "Where the top is made in the factory: from the bottom end, as delivered, up to the bearing.",
        none=True,
        least=4 * FOOT,
        most=60 * FOOT,
    )
    ears: float = take(
        "length",
        "Where the top is made in the factory: from the bearing, or from the top of a short centre ply, up to the top"
        " of the ears.",
        "0",
        most=60,
    )
    centre_ply: float | None = take(
        "length",
        "Where a seat block is cut to fit: from the bottom end up to the top of the short centre ply.",
        none=True,
        least=4 * FOOT,
        most=60 * FOOT,
    )
    treated: Literal["end", "all", "none"] = take(
        "choice",
        "What is treated: the lower end, which is then not cut, the whole column, or nothing.",
        "end",
        choices=("end", "all", "none"),
    )
    above_floor: float = take(
        "length",
        "An untreated bottom end stands at least this far above the finished floor; local code rules.",
        '1"',
        metric="25 mm",
        most=24,
    )
    stock: tuple[float, ...] = take(
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

    @property
    def endwall_deep(self) -> float:
        """How deep an endwall column stands into the building, inches."""
        return self.depth if self.endwall_face == "width" else self.width
