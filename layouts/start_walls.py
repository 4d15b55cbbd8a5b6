"""What is asked of the grade board, the walls and their openings: question by question, with pictures in words."""

from __future__ import annotations

from layouts.start_question import Either, Group, Question, no_lean_to

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
        Question("girts.board", "Size", "What they are cut from, like {girt}, or their real size."),
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
            no_lean_to,
            also=(("endwalls", "end"), ("sidewalls", "side")),
        ),
        Question(
            "wainscot.nailer",
            "Wainscot nailer",
            "The board that the top of a wainscot is nailed to, like {board}; none if there is no wainscot.",
            left="none",
        ),
        Question(
            "wainscot.height",
            "Wainscot nailer's height",
            "From the {level} up to the bottom edge of that board.",
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


AN_OPENING = (
    Question("opening.wall", "Wall", "which wall it stands in: {walls}."),
    Question("opening.kind", "Kind", "an overhead door, a sliding door, a walk door or a window."),
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
