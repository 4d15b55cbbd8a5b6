"""What is asked of the job, its plan and its columns: question by question, with pictures in words."""

from __future__ import annotations

from layouts.start_question import Group, Question, laminated, lean_to, no_lean_to, solid

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
            no_lean_to,
        ),
        Question(
            "building.width",
            "Width",
            f"Along the trusses: from {_FACE} on wall A to the face of the wall that stands already.",
            lean_to,
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
        Question("column.plies", "Plies", "How many boards are nailed together in one column.", laminated),
        Question(
            "column.width",
            "Width across the plies",
            "Put a tape on one of yours: over the plies from face to face, all of them together.",
            laminated,
        ),
        Question(
            "column.depth",
            "Depth along a ply",
            "The other way: along the wide face of one ply. On the sidewalls it lies along the truss, from the"
            " outside of the building to the inside.",
            laminated,
        ),
        Question(
            "column.width",
            "Width",
            "Put a tape on one of yours: the side that lies along the sidewall.",
            solid,
        ),
        Question(
            "column.depth",
            "Depth",
            "The side that lies along the truss on the sidewalls, from the outside of the building to the inside.",
            solid,
        ),
    ),
)
