"""What stands at an opening: jamb posts, and cripples over its header and under its sill.

They stand behind the girts and lap the boards they are nailed to; where girts lie between the columns they stand among
them. They end under carriers that are let in where they stand. Common practice, no source; the plan governs what
carries load.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from layouts import seats
from layouts.fields import Job
from layouts.fields_openings import OpeningPart
from layouts.framed import SAME, Level, Opening, Side, Stretch, Upright
from layouts.roof import Surface
from layouts.rows import Layer, Row


class Uprights(Struct, frozen=True):
    """The uprights of one opening, *part*, in a wall whose marked *rows* go round the building. *others* are the
    openings laid in it so far, *limit* is what boards of a gable end under, *bearing* the station that trusses sit at
    and *layer* where its girts lie."""

    job: Job
    part: OpeningPart
    rows: Sequence[Row]
    others: Sequence[Opening]
    limit: Surface | None
    bearing: float
    layer: Layer

    @property
    def stand(self) -> str:
        """Where they stand: behind the girts, or among them."""
        return "among" if self.layer == "between" else "behind"

    @property
    def ceiling(self) -> float:
        """How high uprights may reach in a sidewall whose carriers lie where they stand: to the carriers' underside."""
        job, wide = self.job, self.part.jamb.wide
        start = job.column.depth - wide if self.layer == "inside" else 0.0
        low = seats.carrier_low(job, self.bearing)
        if low is None or self.limit or not seats.in_way(job, start, start + wide):
            return math.inf
        return low

    def posts(self, sides: tuple[Side, Side], header: Level, sill: Level | None) -> list[Upright]:
        """Jamb posts, from a board below to one above. Those that go down to the grade line, a door's and under a low
        window, stand at the ground and are treated."""
        part = self.part
        return [
            Upright(
                f"Jamb post {part.name}",
                part.jamb,
                *side.post,
                self._foot(sill.low, side.post) if sill else 0.0,
                self._tops(header.high, side.post),
                treated=not sill or self._foot(sill.low, side.post) <= SAME,
                layer=self.stand,
            )
            for side in sides
            if side.post
        ]

    def _tops(self, station: float, ends: Stretch) -> tuple[float, float]:
        """Where a jamb post ends at its left and its right edge."""
        if self.part.jamb_tops == "row" or self.layer == "between":
            return (self._head(station, ends),) * 2
        if self.limit:
            return self.limit.over(ends[0]), self.limit.over(ends[1])
        return (min(self.bearing, self.ceiling),) * 2

    def cripples(self, left: float, right: float, header: Level, sill: Level | None) -> list[Upright]:
        """Short uprights from the header to the next row above, and from the sill to the next one below, where that
        is further off than a board is thick."""
        part, thick = self.part, self.part.jamb.thick
        count = math.ceil((right - left) / part.cripples - 1e-9) - 1
        lapped = self.layer != "between"
        found = []
        for i in range(1, count + 1):
            middle = left + (right - left) * i / (count + 1)
            ends = middle - thick / 2, middle + thick / 2
            above, below = self._above(header.high, ends), self._below(sill.low, ends) if sill else None
            if above and min(above.low, self.ceiling) - header.high > thick:
                low, high = header.low if lapped else header.high, self._head(header.high, ends)
                found.append(Upright(f"Cripple {part.name}", part.jamb, *ends, low, (high, high), layer=self.stand))
            if sill and below and sill.low - below.high > thick:
                low, high = self._foot(sill.low, ends), sill.high if lapped else sill.low
                post = Upright(f"Cripple {part.name}", part.jamb, *ends, low, (high, high), layer=self.stand)
                found.append(replace(post, treated=low <= SAME))
        return found

    def _boards(self, ends: Stretch) -> list[Row]:
        """The boards that an upright may be nailed to over its stretch: rows that no other opening parts there, and
        headers and sills of others."""

        def parted(row: Row) -> bool:
            gaps = (o.gap(row) for o in self.others)
            return any(gap and gap[0] < ends[1] - SAME and ends[0] < gap[1] - SAME for gap in gaps)

        boards = [b for o in self.others for b in o.levels if b.start <= ends[0] + SAME and ends[1] <= b.end + SAME]
        found = [Row(b.key, b.name, b.section, b.low, b.high, layer=b.layer) for b in boards]
        return [*(r for r in self.rows if not parted(r)), *found]

    def _above(self, station: float, ends: Stretch) -> Row | None:
        """The next board above a station, where it is under the slope over the stretch of an upright."""
        row = min((r for r in self._boards(ends) if r.low >= station - SAME), key=lambda r: r.low, default=None)
        if row and self.limit and min(map(self.limit.over, ends)) < row.high - SAME:
            return None
        return row

    def _below(self, station: float, ends: Stretch) -> Row | None:
        """The next board below a station."""
        return max((r for r in self._boards(ends) if r.high <= station + SAME), key=lambda r: r.high, default=None)

    def _head(self, station: float, ends: Stretch) -> float:
        """Where an upright ends above: it laps the next board, or meets one that lies between the columns, or a carrier
        that lies where it stands. The station itself where there is none."""
        row = self._above(station, ends)
        if row is None:
            return min(station, self.ceiling)
        return min(row.low if row.layer == "between" else row.high, self.ceiling)

    def _foot(self, station: float, ends: Stretch) -> float:
        """The same below."""
        row = self._below(station, ends)
        if row is None:
            return 0.0
        return row.high if row.layer == "between" else row.low
