"""What is asked of the trusses and the roof: question by question, with pictures in words."""

from __future__ import annotations

from layouts.start_question import Either, Group, Question, gable, high, laminated, lean_to, mono, settled, solid

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
            "From the {level} up to what the roof sheets lie on, at the face of the wall that stands already. If you"
            " do not know it, press Enter: pitch and bearing tell.",
            lean_to,
            left="not known",
        ),
        Question(
            "truss.far_eave",
            "Eave line at the high wall",
            "From the {level} up to what the roof sheets lie on, at the outside of the girts of the wall opposite"
            " wall A. If you do not know it, press Enter: the pitch tells.",
            mono,
            left="not known",
        ),
        Question(
            "truss.pitch",
            "Pitch",
            "Rise on a run of 12, like 4/12; or degrees, like 18.5 deg; or 1:4. Of a gable with two pitches the one"
            " over wall A.",
            lambda job: not high(job),
        ),
        Question(
            "truss.pitch",
            "Pitch",
            "Rise on a run of 12, like 4/12; or 18.5 deg. Or press Enter: then it follows from the bearing and the"
            " height at the high side.",
            high,
            left="work it out",
        ),
        Question(
            "roof.ridge",
            "Ridge",
            "If it is not over the middle: level, from the building line at wall A in to the ridge.",
            gable,
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
            "From the {level} up to the underside of the truss where it sits on the column. If the"
            " plan gives the eave line instead (what the roof sheets lie on, at the outside of the girts), type the"
            " word before it, like: eave {eave}",
            lambda job: not settled(job),
            either=(Either("eave", "truss.eave"),),
        ),
        Question(
            "truss.far_bearing",
            "Bearing at the wall opposite",
            "The same at the wall opposite wall A, if it is another one there.",
            lambda job: gable(job) and job.roof.ridge is not None,
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
            laminated,
            also=(("level", "flat"), ("carriers", "flat"), ("notch", "shoulder")),
        ),
        Question(
            "tops.seat",
            "Seat, shoulder or flat",
            "Shoulder: a notch in a side of the column. Flat: on its level top, or on boards (carriers) from column to"
            " column.",
            solid,
            left="shoulder",
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
            "The size of the boards from column to column that carry trusses between the columns too, like {beam};"
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
        Question("roof.purlin", "Size", "What they are cut from, like {board}, or their real size."),
        Question(
            "roof.purlins",
            "How they lie",
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
