"""One opening being laid: where it goes, and the boards round it.

Headers and sills lie with the girts, from column to column, and where that is too far (a slope, another opening) from
jamb post to jamb post; where girts lie between the columns they go from jamb to jamb. What stands is laid in
``layouts.uprights``. Common practice, no source; the plan governs what carries load.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from layouts import seats
from layouts.fields import Job
from layouts.fields_openings import OpeningPart
from layouts.framed import PACKING, SAME, SNUG, Level, Opening, Side, Stretch, notes_of, packing_of, rough
from layouts.lengths import show
from layouts.lumber import Section
from layouts.plan import NO_WALL, Plan, WallLine
from layouts.problems import Problem, nearest
from layouts.roof import Roof, Surface
from layouts.rows import Key, Row, Rows
from layouts.uprights import Uprights

NO_PLACE = "or `at` must be given, one of the two.", "bay = 2 stands in the middle of the second bay."


class Maker:
    """One opening being laid; what is wrong is gathered in *problems*. *others* are laid in the same wall."""

    def __init__(
        self,
        job: Job,
        plan: Plan,
        roof: Roof,
        rows: Rows,
        part: OpeningPart,
        place: str,
        file: str,
        others: Sequence[Opening] = (),
    ) -> None:
        self.job, self.plan, self.roof, self.part, self.place, self.file = job, plan, roof, part, place, file
        self.all_rows, self.others = rows, others
        self.problems: list[Problem] = []
        self.rows: Sequence[Row] = ()
        self.limit: Surface | None = None
        self.bearing = roof.bearing
        self.layer = job.girts.place if job.girts.place in ("between", "inside") else "outside"

    def say(self, key: str, text: str, wrong: str, right: str = "") -> None:
        """Note a problem of one field."""
        self.problems.append(Problem(self.file, f"{self.place}.{key}", text, wrong, right))

    def opening(self, limit: dict[str, Surface]) -> Opening | None:
        """The opening, or what is wrong. *limit* is by wall what boards of a gable end under."""
        part, job = self.part, self.job
        lines = {w.name: w for w in self.plan.walls}
        self._fields()
        if part.wall not in lines:
            self.say("wall", part.wall, NO_WALL, nearest(part.wall, lines))
            return None
        line = lines[part.wall]
        own = self.all_rows.of(line)
        self.rows = tuple(r for r in self.all_rows.marked(line) if r.key != "carrier" or r in own)
        self.limit = limit.get(line.name)
        stands = [line.along(self.plan.spot(name)) for name in line.columns]
        centre = self._centre(line, stands)
        if centre is None:
            return None
        wide, tall = rough(job, part)
        low = job.grade.floor + (part.sill if part.kind == "window" else 0.0)
        left, right, high = centre - wide / 2, centre + wide / 2, low + tall
        self.bearing = self._bearing(line, left, right)
        sides = self._sides(line, stands, left, right)
        if sides is None:
            return None
        header = self._level(line, "header", part.header, high, high + part.header.wide, sides)
        sill = None
        if part.kind == "window":
            sill = self._level(line, "sill", part.sill_board, low - part.sill_board.wide, low, sides)
        track = self._track(line, left, right, high) if part.kind == "sliding" else None
        self._heights(header, sill, track)
        upright = Uprights(job, part, self.rows, self.others, self.limit, self.bearing, self.layer)
        standing = (*upright.posts(sides, header, sill), *upright.cripples(left, right, header, sill))
        columns = (line.columns[sides[0].column], line.columns[sides[1].column])
        framed = sides[0].outer, sides[1].outer
        packing = packing_of(part, sides)
        notes = notes_of(job, part, packing, self.bearing, high)
        hole = left, right, low, high
        boards = header, sill, track, standing
        return Opening(part, line.name, *hole, framed, columns, self.bearing, *boards, notes, packing)

    def _fields(self) -> None:
        """What is given for another kind of opening, or another way to place girts."""
        part, style = self.part, self.job.style
        if part.sill and part.kind != "window":
            self.say("sill", show(part.sill, style), "is of a window.", "A door's opening begins on the floor.")
        if part.jamb_tops == "full" and self.layer == "between":
            right = "The girts over the header lie where they would go up."
            self.say("jamb_tops", part.jamb_tops, "is for girts on the columns, and these lie between them.", right)
        if part.girts == "through" and self.layer == "between":
            right = "The jamb posts stand where they would run."
            self.say("girts", part.girts, "is for girts on the columns, and these lie between them.", right)

    def _bearing(self, line: WallLine, left: float, right: float) -> float:
        """The station that trusses sit at: of an endwall's, which goes from one bearing to the other, the lowest over
        the opening."""
        if not line.gable:
            return self.roof.at(line.side).bearing
        under = self.roof.surface("bearing")
        seen = under if line.side == "front" else under.turned(line.length)
        return min(seen.over(left), seen.over(right))

    # --- where ------------------------------------------------------------------------------------------------------

    def _centre(self, line: WallLine, stands: Sequence[Stretch]) -> float | None:
        part = self.part
        if (part.bay is None) == (part.at is None):
            self.say("bay", "", *NO_PLACE)
            return None
        if part.bay is not None:
            if part.bay >= len(stands):
                self.say("bay", str(part.bay), "is not there.", f"Wall {line.name} has {len(stands) - 1} bays.")
                return None
            return (stands[part.bay - 1][1] + stands[part.bay][0]) / 2
        assert part.at is not None
        at = part.at - self.plan.inset_of(line)
        return {"centre": at, "left": at + part.width / 2, "right": at - part.width / 2}[part.measured_to]

    def _sides(self, line: WallLine, stands: Sequence[Stretch], left: float, right: float) -> tuple[Side, Side] | None:
        """What is to either side; no column may stand in the rough opening. Places are told as they are given."""
        style, out = self.job.style, left < -SNUG or right > line.length + SNUG
        inside = [n for n, s in zip(line.columns, stands, strict=True) if s[0] < right - SNUG and s[1] > left + SNUG]
        if inside and not (out and self.part.at is not None):
            start = self.plan.inset_of(line)
            size = f"{show(left + start, style)} to {show(right + start, style)}"
            leans = line.side == "back" and self.plan.on("right") is None
            end = "the standing wall" if leans else "the building line at the left end"
            wrong = f"has column {', '.join(inside)} standing in its rough opening, {size} from {end}."
            self.say("width", show(self.part.width, style), wrong, "Move it, or move the column.")
            return None
        before = [i for i, s in enumerate(stands) if s[1] <= left + SNUG]
        after = [i for i, s in enumerate(stands) if s[0] >= right - SNUG]
        if out or not before or not after:
            whole = self.plan.width if line.gable else self.plan.length
            hint = f"Wall {line.name} is {show(whole, style)} long."
            self.say("at", show(self.part.at or 0.0, style), "puts the opening out of the wall.", hint)
            return None
        one, other, last = before[-1], after[0], len(stands) - 1
        ends = (
            stands[0][0] if one == 0 else sum(stands[one]) / 2,
            stands[last][1] if other == last else sum(stands[other]) / 2,
        )
        return (
            self._side("left", left, one, stands[one][1], ends[0]),
            self._side("right", right, other, stands[other][0], ends[1]),
        )

    def _side(self, name: str, edge: float, column: int, face: float, end: float) -> Side:
        """One side, with a jamb post where no column is the jamb."""
        part, style, thick = self.part, self.job.style, self.part.jamb.thick
        room = abs(edge - face)
        if room <= SNUG:
            return Side(name, edge, column, face, end, None)
        if part.jambs == "columns":
            if room > PACKING:
                wrong = f"leaves {show(room, style)} to the column on its {name}: too far for packing."
                self.say("jambs", part.jambs, wrong, f'Up to {show(PACKING, style)}, or jambs = "posts".')
            return Side(name, edge, column, face, end, None)
        if room < thick - SNUG:
            takes = f"and a jamb post takes {show(thick, style)}."
            wrong = f"leaves {show(room, style)} to the column on its {name}, {takes}"
            self.say("jambs", part.jambs, wrong, 'Move the opening, or give jambs = "columns".')
        post = (edge - thick, edge) if name == "left" else (edge, edge + thick)
        return Side(name, edge, column, face, end, post)

    # --- its boards -------------------------------------------------------------------------------------------------

    def _level(
        self, line: WallLine, key: Key, section: Section, low: float, high: float, sides: tuple[Side, Side]
    ) -> Level:
        """A header or a sill: as far as the middle of each column, at a corner to its outer face; only to the middle of
        the jamb post where the slope is lower than the board on that column. Among girts that lie between the columns
        it goes from jamb to jamb."""
        ends, columns = [], []
        for side in sides:
            end, held = side.end, True
            if self.layer == "between":
                held = side.post is None
                end = side.face if held else side.edge
            elif side.post and self.limit and self.limit.over(end) < high - SAME:
                end, held = sum(side.post) / 2, False
            ends.append(end)
            columns += [line.columns[side.column]] * held
        name = f"{key.capitalize()} {self.part.name}"
        return Level(key, name, section, low, high, ends[0], ends[1], layer=self.layer, columns=tuple(columns))

    def _heights(self, header: Level, sill: Level | None, track: Level | None) -> None:
        """Under the truss, the soffit, the top girt or the slope; over the grade board."""
        style, part = self.job.style, self.part
        for board, key, text in ((header, "height", show(part.height, style)), (track, "track", part.track.name)):
            limit, what = self._under(board) if board else (math.inf, "")
            if board and board.high > limit + SAME:
                wrong = f"puts the {board.key}'s top at {show(board.high, style)}, above {what}, {show(limit, style)}."
                self.say(key, text, wrong, f"Lower the opening, or take a smaller {board.key}.")
        self._carriers(header.low)
        grade = [r for r in self.rows if r.key == "grade board"][-1]
        if sill and sill.low < grade.high - SAME:
            wrong = f"puts the sill's bottom at {show(sill.low, style)}, in the grade board."
            self.say("sill", show(part.sill, style), wrong, f"The grade board ends at {show(grade.high, style)}.")

    def _carriers(self, high: float) -> None:
        """Carriers run through over an opening of a sidewall."""
        low, style = seats.carrier_low(self.job, self.bearing), self.job.style
        if self.limit is None and low is not None and high > low + SAME:
            wrong = f"puts the opening's top at {show(high, style)}, above the carriers' underside, {show(low, style)}."
            self.say("height", show(self.part.height, style), wrong, "Lower the opening, or raise the bearing.")

    def _under(self, board: Level) -> tuple[float, str]:
        """What a header or a track board has to stay under."""
        if self.limit:
            what = "the nailer along the slope" if self.job.girts.rake else "the chord"
            return min(self.limit.over(board.start), self.limit.over(board.end)), what
        bearing, top = self.bearing, self.rows[-1]
        if board.outside and top.key == "top girt":
            return bearing, "the bearing"  # a track board lies before the girts
        # a header may take the whole place of the top girt, not the lower half of it
        instead = top.key == "top girt" and abs(board.high - top.high) <= SNUG and board.low <= top.low + SAME
        return (bearing, "the bearing") if instead or bearing <= top.low else (top.low, f"the {top.key}")

    def _track(self, line: WallLine, left: float, right: float, high: float) -> Level:
        """The track board outside of the girts: twice as long as the leaves on it, so that they clear the opening."""
        part, style = self.part, self.job.style
        if part.slides == "both":
            leaf = (right - left) / 2 + part.lap
            middle = (left + right) / 2
            start, end = middle - 2 * leaf, middle + 2 * leaf
        else:
            leaf = right - left + 2 * part.lap
            start = left - part.lap - (leaf if part.slides == "left" else 0.0)
            end = start + 2 * leaf
        if start < -SAME or end > line.length + SAME:
            text = f"{show(start, style)} to {show(end, style)}"
            wrong = f"needs a track board from {text} along the wall, which is {show(line.length, style)} long."
            self.say("slides", part.slides, wrong, "Let it slide the other way, or move it.")
        return Level(
            "track board", f"Track board {part.name}", part.track, high, high + part.track.wide, start, end, True
        )
