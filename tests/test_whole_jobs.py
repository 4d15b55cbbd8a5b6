"""Whole jobs, drawn at random: each is printed, reads back right and has the numbers of the second opinion, or it is
refused in words. No traceback, no packet with a wrong number.

``RODWRIGHT_JOBS=50`` tries fifty times as many, other ones in every run; one that takes minutes shows where it hangs.
"""

from __future__ import annotations

import faulthandler
import os
from collections import Counter
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, get_args

import pytest
import random_buildings
from effort import HOW
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st
from reported import reported
from whole_fields import FIELDS, OF_OPENING, USUAL
from whole_jobs import BESIDE, CHANGES, Whole, jobs
from whole_tried import KINDS, PRINTED, REFUSED, NotReleased, in_words, other_numbers, tried

from layouts.problems import JobRefused, Problem
from layouts.spec import Kind
from sheets import strip

TIMES = int(os.environ.get("RODWRIGHT_JOBS", "1"))
SHARDS = 10
EACH = 20 if HOW == "usual" else 50  # too few are no sample
STUCK = 300  # seconds: a whole packet takes two
LONG = TIMES > 1
WHOLE = 4  # of how many wishes in the first shard one is the whole packet; else it is one kind of sheets


@pytest.mark.parametrize("shard", range(SHARDS))
def test_a_job_is_printed_right_or_refused(shard: int) -> None:
    counts: Counter[str] = Counter()

    @settings(
        max_examples=EACH * TIMES,
        derandomize=not LONG,
        database=None,
        phases=[Phase.generate] if LONG else [Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )
    @given(jobs(), st.sampled_from([*KINDS, *[None] * (not shard and len(KINDS) // WHOLE)]))
    def one(whole: Whole, only: str | None) -> None:
        counts.update(_tried(whole, only))

    (one if LONG else seed(shard)(one))()
    print(dict(counts))
    assert counts[PRINTED] > EACH / 5
    assert counts[REFUSED] > EACH / 20
    assert counts["held against the second opinion"] > EACH / 25


def _tried(whole: Whole, only: str | None) -> list[str]:
    """What became of it."""
    if LONG:
        faulthandler.dump_traceback_later(STUCK, exit=True)
    with TemporaryDirectory() as folder:
        found = tried(whole, only, Path(folder))
    faulthandler.cancel_dump_traceback_later()
    if found == REFUSED:
        return [found]
    return [found, f"{only or 'all'} of it", *["held against the second opinion"] * (whole.of is not None)]


# --- what is drawn ---------------------------------------------------------------------------------------------------


def test_every_kind_of_field_is_drawn() -> None:
    assert set(USUAL) <= set(get_args(Kind))
    assert {spec.kind for spec in (*FIELDS.values(), *OF_OPENING.values())} <= set(USUAL)


def test_every_field_is_drawn_and_known_or_beside_the_second_opinion() -> None:
    assert set(FIELDS) >= CHANGES
    assert set(BESIDE) | CHANGES == set(FIELDS)


# --- and what would be seen ------------------------------------------------------------------------------------------


def plain(number: int = 2) -> Whole:
    """A building that nothing was added to."""
    of = random_buildings.drawn(number)
    return Whole(of.toml, of.csv, of, {}, True)


def test_a_wrong_number_is_seen() -> None:
    whole = plain()
    numbers: dict[str, Any] = reported(whole.toml, whole.csv or "")
    assert not list(other_numbers(whole, numbers))
    numbers["columns"][3]["length"]["value"] += 1 / 16
    assert len(list(other_numbers(whole, numbers))) == 1


def test_a_column_without_a_reading_is_not_looked_for() -> None:
    whole, rows = plain(), (plain().csv or "").splitlines()
    assert whole.of
    last = list(whole.of.down)[-1]
    less = replace(whole.of, down={name: down for name, down in whole.of.down.items() if name != last})
    numbers = reported(whole.toml, "\n".join(row for row in rows if not row.startswith(f"{last},")))
    assert not list(other_numbers(replace(whole, of=less), numbers))


def test_a_wrong_mark_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strip, "station_text", lambda mark, style: "1'-0\"")
    with pytest.raises(NotReleased):
        tried(plain(), "rods", tmp_path)
    assert not (tmp_path / "packet").exists()


@pytest.mark.parametrize(
    "problem",
    [
        Problem("any.toml", "job.name", "", ""),
        Problem("job.toml", "job.name", "", "is empty."),
    ],
)
def test_a_refusal_without_words_or_file_is_seen(problem: Problem) -> None:
    with pytest.raises(AssertionError):
        in_words(JobRefused([problem]))
    with pytest.raises(AssertionError):
        in_words(JobRefused([]))
