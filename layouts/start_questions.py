"""What `rodwright start` asks, in the order in which a building is thought of: every question as data.

A field may stand in several questions with other words for other buildings; their conditions exclude one another.
Kinds, defaults, limits and checks are the field's own (``layouts.fields``); here are only the words and the order.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


def always(_: Any) -> bool:
    """Asked of every building."""
    return True


@dataclass(frozen=True)
class Either:
    """A *word* before an answer that makes it one of another *field*, and what it *sets* besides."""

    word: str
    field: str
    sets: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Question:
    """*ask* is the prompt, *picture* says in words what is meant and from where to where it is measured. It is asked
    *when* that holds of the job so far (of an opening: of that opening). *left* is what leaving the field out means, if
    Enter may do that; *like* names the field whose value is the default, *fresh* is the default whatever stood there
    before; *either* are other ways to answer, *also* other words for choices. Fields of an opening are named
    ``opening.width``."""

    field: str
    ask: str
    picture: str
    when: Callable[[Any], bool] = always
    left: str = ""
    like: str = ""
    fresh: str = ""
    either: tuple[Either, ...] = ()
    also: tuple[tuple[str, str], ...] = ()
    none: bool = False  # no default where the spec has one: it must be said

    @property
    def fields(self) -> tuple[str, ...]:
        """Every field that an answer may go to."""
        return (self.field, *(e.field for e in self.either if e.field != self.field))


@dataclass(frozen=True)
class Group:
    """A question as a crew lead counts them, in one or more steps. *together*: shown first as it would be by default,
    and gone through step by step only if that is not right."""

    title: str
    questions: tuple[Question, ...]
    together: bool = False


def _gable(job: Any) -> bool:
    return bool(job.roof.shape == "gable")


def _mono(job: Any) -> bool:
    return bool(job.roof.shape == "mono-slope")


def _lean_to(job: Any) -> bool:
    return bool(job.roof.shape == "lean-to")


def _no_lean_to(job: Any) -> bool:
    return not _lean_to(job)


def _solid(job: Any) -> bool:
    return bool(job.column.make == "solid")


def _laminated(job: Any) -> bool:
    return not _solid(job)


def _high(job: Any) -> bool:
    """Whether the high side of a roof of one slope is given."""
    return (_mono(job) and job.truss.far_eave is not None) or (_lean_to(job) and job.truss.wall_height is not None)


def _settled(job: Any) -> bool:
    """Whether a lean-to's bearing follows from its wall and its pitch."""
    return bool(_lean_to(job) and job.truss.wall_height is not None and job.truss.pitch is not None)


_FACE = "the building line (the outside of the girts or of the columns, which is asked below)"

JOB = Group(
    "The job",
    (
        Question("job.name", "Name", "What the job is called. It stands on every sheet and every tag."),
        Question("job.place", "Place", "Where it is: road, lot or town.", left="leave it out"),
        Question("job.crew", "Crew", "Who builds it, for whoever finds a lost sheet.", left="leave it out", fresh="-"),
    ),
)
UNITS = Group(
    "Inches or millimetres",
    (
        Question(
            "job.units",
            "Units",
            "How you write lengths, and how they are printed. Imperial: feet, inches and sixteenths, and a bare number"
            " is inches. Metric: whole millimetres, and a bare number is mm.",
            also=(
                *((word, "imperial") for word in ("in", "inch", "inches", "ft", "feet")),
                *((word, "metric") for word in ("mm", "millimetres", "millimeters")),
            ),
        ),
    ),
)
SIZE = Group(
    "Shape and size",
    (
        Question(
            "roof.shape",
            "Roof",
            "A gable has two slopes that meet at a ridge. A mono-slope rises from wall A to the wall opposite. A"
            " lean-to rises from wall A to a wall that stands already. Wall A is on your left as you stand outside"
            " before the front.",
            also=(("mono", "mono-slope"), ("leanto", "lean-to"), ("lean", "lean-to")),
        ),
        Question(
            "building.width",
            "Width",
            f"Across the gable, along the trusses: from {_FACE} on wall A to the same on the wall opposite.",
            _no_lean_to,
        ),
        Question(
            "building.width",
            "Width",
            f"Along the trusses: from {_FACE} on wall A to the face of the wall that stands already.",
            _lean_to,
        ),
        Question(
            "building.length",
            "Length",
            "Along the eaves: from the building line at the front endwall to the building line at the back endwall.",
        ),
        Question(
            "building.line",
            "Measured to the outside of the",
            "Width and length go to the outside of the girts, or to the outside of the columns. Ask whoever drew the"
            " plan: the columns stand further in by a girt's thickness if it is the girts.",
        ),
    ),
)
BAYS = Group(
    "Bays along the eaves",
    (
        Question(
            "building.bays",
            "Bays",
            "How many equal ones, like 6; or each one from the front to the back, with commas between. The first and"
            " the last begin at the building line, the others go from column centre to column centre.",
        ),
    ),
)
ENDS = Group(
    "Columns in the endwalls",
    (
        Question(
            "building.front_columns",
            "Front endwall",
            "The columns between the corner columns: from the building line at wall A, on your left outside before the"
            " front, to the centre of each, with commas between. A lean-to's column at the standing wall is there by"
            " itself.",
            left="none",
        ),
        Question(
            "building.back_columns",
            "Back endwall",
            "The same in the back endwall. They too are measured from the building line at wall A, not from the left as"
            " you stand behind.",
            left="none",
            like="building.front_columns",
        ),
    ),
)
COLUMN = Group(
    "The columns",
    (
        Question(
            "column.make",
            "Columns",
            "Laminated columns are nailed up of plies, so that an inner ply can be left short for the truss. A solid"
            " one is a single timber.",
        ),
        Question("column.plies", "Plies", "How many boards are nailed together in one column.", _laminated),
        Question(
            "column.width",
            "Width across the plies",
            "Put a tape on one of yours: over the plies from face to face, all of them together.",
            _laminated,
        ),
        Question(
            "column.depth",
            "Depth along a ply",
            "The other way: along the wide face of one ply. On the sidewalls it lies along the truss, from the"
            " outside of the building to the inside.",
            _laminated,
        ),
        Question(
            "column.width",
            "Width",
            "Put a tape on one of yours: the side that lies along the sidewall.",
            _solid,
        ),
        Question(
            "column.depth",
            "Depth",
            "The side that lies along the truss on the sidewalls, from the outside of the building to the inside.",
            _solid,
        ),
    ),
)
SLOPE = Group(
    "The slope",
    (
        Question(
            "truss.heights_from",
            "Heights are from the",
            "What the plan measures the bearing and the eaves from: the grade line, which is the bottom edge of the"
            " lowest grade board, or the finished floor.",
        ),
        Question(
            "truss.wall_height",
            "Height at the standing wall",
            "From there up to what the roof sheets lie on, at the face of the wall that stands already. If you do not"
            " know it, press Enter: pitch and bearing tell.",
            _lean_to,
            left="not known",
        ),
        Question(
            "truss.far_eave",
            "Eave line at the high wall",
            "From there up to what the roof sheets lie on, at the outside of the girts of the wall opposite wall A. If"
            " you do not know it, press Enter: the pitch tells.",
            _mono,
            left="not known",
        ),
        Question(
            "truss.pitch",
            "Pitch",
            "Rise on a run of 12, like 4/12; or degrees, like 18.5 deg; or 1:4. Of a gable with two pitches the one"
            " over wall A.",
            lambda job: not _high(job),
        ),
        Question(
            "truss.pitch",
            "Pitch",
            "Rise on a run of 12, like 4/12; or 18.5 deg. Or press Enter: then it follows from the bearing and the"
            " height at the high side.",
            _high,
            left="work it out",
        ),
        Question(
            "roof.ridge",
            "Ridge",
            "If it is not over the middle: level, from the building line at wall A in to the ridge.",
            _gable,
            left="in the middle",
        ),
    ),
)
HEIGHT = Group(
    "Bearing and heel",
    (
        Question(
            "truss.bearing",
            "Bearing",
            "From what heights are measured from, up to the underside of the truss where it sits on the column. If the"
            " plan gives the eave line instead (what the roof sheets lie on, at the outside of the girts), type the"
            " word before it, like: eave 12'",
            lambda job: not _settled(job),
            either=(Either("eave", "truss.eave"),),
        ),
        Question(
            "truss.far_bearing",
            "Bearing at the wall opposite",
            "The same at the wall opposite wall A, if it is another one there.",
            lambda job: _gable(job) and job.roof.ridge is not None,
            left="the same",
            either=(Either("eave", "truss.far_eave"),),
        ),
        Question(
            "truss.heel",
            "Heel",
            "From the truss drawing: plumb, from the underside of the truss at its seat up to the top of the top"
            " chord.",
        ),
        Question(
            "truss.heel_at",
            "Heel is given at the outside of the",
            "Where along the slope that height is taken: at the outside of the column, or further out at the outside of"
            " the girts.",
            also=(("columns", "column"), ("girts", "girt")),
        ),
    ),
)
SEAT = Group(
    "What the trusses stand on",
    (
        Question(
            "tops.seat",
            "Seat",
            "Slot: the inner plies are cut at the bearing and the truss stands between the outer ones. Shoulder: a"
            " notch in a side of the column. Flat: on its level top, or on boards (carriers) from column to column.",
            _laminated,
            also=(("level", "flat"), ("carriers", "flat"), ("notch", "shoulder")),
        ),
        Question(
            "tops.seat",
            "Seat, shoulder or flat",
            "Shoulder: a notch in a side of the column. Flat: on its level top, or on boards (carriers) from column to"
            " column.",
            _solid,
            none=True,
            also=(("level", "flat"), ("carriers", "flat"), ("notch", "shoulder")),
        ),
        Question(
            "tops.shoulder",
            "Shoulder towards the",
            "The side of the column that it is cut in: to the front of the building, to its back, or both for two"
            " trusses.",
            lambda job: job.tops.seat == "shoulder",
        ),
        Question(
            "carrier.board",
            "Carriers",
            "The size of the boards from column to column that carry trusses between the columns too, like 2x12;"
            " none if every truss stands on a column.",
            lambda job: job.tops.seat == "flat",
            left="none",
        ),
        Question(
            "carrier.where",
            "Carriers are on",
            "On the outside and the inside of the columns, on one of the two, or lying on their tops.",
            lambda job: job.carrier.board is not None,
        ),
        Question(
            "carrier.boards",
            "Boards in a carrier",
            "How many side by side: on each face, or on top.",
            lambda job: job.carrier.board is not None,
        ),
        Question(
            "carrier.let_in",
            "Let into the column",
            "How deep the column is cut for them: level, from its face in to the back of the board. 0 if they are"
            " nailed on its face. The engineer rules.",
            lambda job: job.carrier.board is not None and job.carrier.where != "on top",
        ),
        Question(
            "carrier.step",
            "Trusses no further apart than",
            "Along the carriers, from the front face of one truss to the front face of the next.",
            lambda job: job.carrier.board is not None,
        ),
    ),
)
PURLINS = Group(
    "Purlins",
    (
        Question("roof.purlin", "Size", "What they are cut from, like 2x6, or their real size."),
        Question(
            "roof.purlins",
            "They lie",
            "On edge on the trusses; flat on them; or flush: hung between them, tops level with the chords'.",
        ),
        Question(
            "roof.purlin_step",
            "No further apart than",
            "Along the slope, from the downhill edge of one to the downhill edge of the next.",
        ),
    ),
    together=True,
)
OVERHANG = Group(
    "Overhang, fascia and soffit",
    (
        Question(
            "roof.overhang",
            "Overhang at the eaves",
            "Level, from the face the heel is given at out to the outside of the fascia. 0 if there is none.",
        ),
        Question(
            "roof.fascia",
            "Fascia depth",
            "Top to bottom of the fascia board, measured on the board.",
            lambda job: job.roof.overhang > 0,
        ),
        Question(
            "roof.soffit",
            "Soffit",
            "Level: it runs in from the fascia to a nailer on the columns. Sloped: it follows the rafters. Or none.",
            lambda job: job.roof.overhang > 0,
        ),
        Question(
            "roof.end_overhang",
            "Overhang at the endwalls",
            "Level, from the building line of an endwall out to the end of the roof. 0 if there is none.",
        ),
    ),
)
GRADE = Group(
    "Grade board and floor",
    (
        Question(
            "grade.board",
            "Grade board",
            "The treated board along the ground. The bottom edge of the lowest one is the grade line.",
        ),
        Question("grade.boards", "Rows of it", "How many, one on top of the other."),
        Question(
            "grade.floor",
            "Finished floor",
            "From the grade line (the bottom of the lowest grade board) up to the top of the finished floor.",
        ),
        Question(
            "grade.line",
            "Line reading",
            "The old job has a line reading of its own site. On a new site it is wrong: choose it from the new"
            " readings.",
            lambda job: job.grade.line is not None,
            fresh="choose",
        ),
    ),
)
GIRTS = Group(
    "Girts and wainscot",
    (
        Question(
            "girts.place",
            "Girts are",
            "Outside: flat on the outside of the columns. Between: lying between the columns. Inside: flat on the"
            " inside. Both: outside, and rows inside for a liner.",
        ),
        Question("girts.board", "Size", "What they are cut from, like 2x4, or their real size."),
        Question(
            "girts.step",
            "No further apart than",
            "Up the wall, from the edge of one row to the like edge of the next.",
        ),
        Question(
            "girts.runs_past",
            "At the corners these run past",
            "The boards of the endwalls (end) or of the sidewalls (side) run on over the corner; the others stop at the"
            " column.",
            _no_lean_to,
            also=(("endwalls", "end"), ("sidewalls", "side")),
        ),
        Question(
            "wainscot.nailer",
            "Wainscot nailer",
            "The board that the top of a wainscot is nailed to, like 2x6; none if there is no wainscot.",
            left="none",
        ),
        Question(
            "wainscot.height",
            "Wainscot nailer's height",
            "From what heights are measured from, up to the bottom edge of that board.",
            lambda job: job.wainscot.nailer is not None,
        ),
    ),
    together=True,
)
OPENING_GROUP = Group("Doors and windows", ())
STOCK = Group(
    "What the yard has",
    (
        Question("column.stock", "Column lengths", "The lengths columns can be had in, with commas between."),
        Question("lumber.stock", "Board lengths", "The lengths boards can be had in, with commas between."),
    ),
    together=True,
)
GROUPS = (
    JOB, UNITS, SIZE, BAYS, ENDS, COLUMN, SLOPE, HEIGHT, SEAT, PURLINS, OVERHANG, GRADE, GIRTS, OPENING_GROUP, STOCK,
)  # fmt: skip

AN_OPENING = (
    Question("opening.wall", "Wall", "Which wall it stands in: {walls}."),
    Question("opening.kind", "Kind", "An overhead door, a sliding door, a walk door or a window."),
    Question(
        "opening.width",
        "Width",
        "Of the door or window as it is sold, from side to side; of a sliding door the clear opening. What the rough"
        " opening is wider is added.",
    ),
    Question(
        "opening.height",
        "Height",
        "As it is sold, from bottom to top. A door stands on the finished floor.",
    ),
    Question(
        "opening.sill",
        "Sill",
        "From the finished floor up to the bottom of the window's rough opening.",
        lambda part: part.kind == "window",
        none=True,
    ),
    Question(
        "opening.slides",
        "Slides to the",
        "The way it goes as you stand outside; both with two leaves.",
        lambda part: part.kind == "sliding",
    ),
    Question(
        "opening.at",
        "Place",
        "As you stand outside before the wall: from the building line at its left end to the middle of the opening,"
        " like {at}; to its left or right edge, like left {at}; or the bay it stands in the middle of, from the"
        " left: bay 2.",
        either=(
            Either("bay", "opening.bay"),
            Either("left", "opening.at", (("opening.measured_to", "left"),)),
            Either("right", "opening.at", (("opening.measured_to", "right"),)),
            Either("centre", "opening.at", (("opening.measured_to", "centre"),)),
            Either("center", "opening.at", (("opening.measured_to", "centre"),)),
        ),
    ),
)
WHERE = ("at", "bay", "width", "jambs", "wall", "slides")  # what is wrong with these is wrong with its place
NAMED = "One at a time. A short name that stands on all sheets, like OH or W1, no two alike."
