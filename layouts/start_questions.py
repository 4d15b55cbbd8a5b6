"""What `rodwright start` asks, in the order in which a building is thought of.

A field may stand in several questions with other words for other buildings; their conditions exclude one another.
Kinds, defaults, limits and checks are the field's own (``layouts.fields``); of the questions there are only the words
and the order.
"""

from __future__ import annotations

from layouts.start_ground import BAYS, COLUMN, ENDS, JOB, SIZE, UNITS
from layouts.start_roof import HEIGHT, OVERHANG, PURLINS, SEAT, SLOPE
from layouts.start_walls import GIRTS, GRADE, OPENING_GROUP, STOCK

GROUPS = (
    JOB, UNITS, SIZE, BAYS, ENDS, COLUMN, SLOPE, HEIGHT, SEAT, PURLINS, OVERHANG, GRADE, GIRTS, OPENING_GROUP, STOCK,
)  # fmt: skip
