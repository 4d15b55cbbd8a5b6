"""The one place that knows HiGHS, the solver behind the cutting plan.

It is imported when first needed: with numpy it takes a tenth of a second. One thread, one fixed starting number, no
clock: the work is limited by counting, so the answer never depends on how fast the machine is.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from typing import Any

from msgspec import Struct

Row = tuple[float, float]  # the least and the most a row may come to
Entries = tuple[tuple[int, float], ...]  # of one column: row number, factor

INF = float("inf")


class Column(Struct, frozen=True):
    """One unknown, zero or more: its *cost*, its *entries* in the rows and the *most* it may be."""

    cost: float
    entries: Entries
    most: float = INF


class Whole(Struct, frozen=True):
    """What a programme in whole numbers gave: the *counts* of the columns, none where it found no plan; no plan can
    cost less than *bound*; *finished* if the search came to its end, so that there is none better, or none at all."""

    counts: tuple[int, ...] | None
    bound: float
    finished: bool


def load() -> None:
    """Import the solver before it is needed."""
    import highspy  # noqa: F401 - it is here for those who come later


def _solver(**options: bool | int | float | str) -> Any:
    import highspy

    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    for name, value in {"threads": 1, "parallel": "off", "random_seed": 0, **options}.items():
        solver.setOptionValue(name, value)
    return solver


class Relaxed:
    """The least cost with fractions allowed, every row at its *least* or above. Columns are added as they are found."""

    def __init__(self, least: Sequence[int]) -> None:
        self._solver = _solver(presolve="off", solver="simplex")
        for bound in least:
            self._solver.addRow(float(bound), INF, 0, [], [])

    def add(self, column: Column) -> None:
        """One more column. Its ``most`` is left out: a column held by it would seem worth finding again."""
        rows, factors = zip(*column.entries, strict=True)
        self._solver.addCol(column.cost, 0.0, INF, len(rows), list(rows), list(factors))

    def want(self, least: Sequence[int]) -> None:
        """Other rows at the right."""
        for row, bound in enumerate(least):
            self._solver.changeRowBounds(row, float(bound), INF)

    def solve(self) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
        """How much of each column, and what one more in each row would cost; None where the solver gives up."""
        import highspy

        self._solver.run()
        if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        found = self._solver.getSolution()
        return tuple(found.col_value), tuple(found.row_dual)


def whole(
    columns: Sequence[Column], rows: Sequence[Row], nodes: int, start: Sequence[int] | None = None, slack: float = 0.0
) -> Whole:
    """The least cost in whole numbers. Stops after *nodes* branchings, or where nothing cheaper by more than *slack* is
    left. *start* is a plan to begin with."""
    import highspy

    solver = _solver(mip_max_nodes=nodes, mip_rel_gap=0.0, mip_abs_gap=slack)
    ends = list(accumulate((len(c.entries) for c in columns), initial=0))
    pairs = [pair for column in columns for pair in column.entries]
    size = (len(columns), len(rows), len(pairs))
    shape = (int(highspy.MatrixFormat.kColwise), int(highspy.ObjSense.kMinimize), 0.0)
    limits = ([c.cost for c in columns], [0.0] * len(columns), [c.most for c in columns])
    sides = ([low for low, _ in rows], [high for _, high in rows])
    matrix = (ends[:-1], [row for row, _ in pairs], [factor for _, factor in pairs])
    solver.passModel(*size, *shape, *limits, *sides, *matrix, [1] * len(columns))
    if start is not None:
        solver.setSolution(len(columns), list(range(len(columns))), [float(n) for n in start])
    solver.run()
    status, info = solver.getModelStatus(), solver.getInfo()
    finished = status in (highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kInfeasible)
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Whole(None, INF if finished else info.mip_dual_bound, finished)
    return Whole(tuple(round(x) for x in solver.getSolution().col_value), info.mip_dual_bound, finished)
