"""The search for a cutting plan that best fit and adding up do not prove: a value goes in and one comes out, so that it
may be done in another process than the one that asks for it."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from layouts import cutting, kinds
from layouts.cutting import Effort
from layouts.patterns import Cutting, Problem

Goal = Literal["least", "fewest"]


class Sought(Struct, frozen=True):
    """What is asked: a plan better than *start*, or the proof that there is none; none costs less than *bound*. *over*
    is the part above the cheapest that a plan of the *fewest* kinds of sticks may cost."""

    job: Problem
    start: Cutting
    bound: int
    goal: Goal
    over: float
    effort: Effort


class Found(Struct, frozen=True):
    """A plan in whole numbers; the rest as in ``stock.Plan``."""

    cutting: Cutting
    bound: int
    proved: bool
    limit: int = 0
    least_kinds: int = 0


Solve = Callable[[Sought], Found]


def added_up(sought: Sought) -> Found | None:
    """The plan that is wanted, where no search is needed: it costs no more than any does."""
    if sought.goal == "least" and sought.job.cost(sought.start) <= sought.bound:
        return Found(sought.start, sought.bound, True)
    return None


def solve(sought: Sought) -> Found:
    """The plan that is wanted, as far as its effort goes. It takes the solver, which is imported when first needed."""
    job, effort = sought.job, sought.effort
    answer = cutting.least(job, sought.start, sought.bound, effort)
    cost = job.cost(answer.cutting)
    if sought.goal == "least":
        return Found(answer.cutting, answer.bound, cost <= answer.bound)
    limit = math.floor(cost * (1 + Fraction(sought.over)))
    few = kinds.fewest(job, answer, limit, effort)
    return Found(few.cutting, answer.bound, len(few.cutting) <= few.bound, limit, few.bound)
