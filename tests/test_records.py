"""Nothing that is printed changes unseen: for some two hundred jobs of every kind, all numbers, warnings, refusals and
sheets are what they were. ``python tests/test_records.py`` writes down what they are now; who commits that says why.

That they are right is held elsewhere, against other people's numbers; here they only stay.
"""

from __future__ import annotations

import pytest
from recorded import RECORDS, WORDS, outcome, records, rewrite

KEPT = tuple(records(RECORDS.read_text(encoding="utf-8")))
TOLD = tuple(records(WORDS.read_text(encoding="utf-8")))
TOGETHER = 4  # jobs of one test
MANY = 20


@pytest.mark.parametrize("first", range(0, len(KEPT), TOGETHER))
def test_a_job_comes_to_what_it_came_to(first: int) -> None:
    for record in KEPT[first : first + TOGETHER]:
        assert tuple(outcome(record.number, record.toml, record.csv)) == record.found, record.number


@pytest.mark.parametrize("first", range(0, len(TOLD), MANY))
def test_what_is_told_of_a_job_stays(first: int) -> None:
    for record in TOLD[first : first + MANY]:
        assert tuple(outcome(record.number, record.toml, record.csv, words=True)) == record.found, record.number


def test_there_are_jobs_enough_of_either_sort() -> None:
    refused = [r for r in KEPT if r.found[0].startswith("refused: ")]
    assert len(refused) >= 60
    assert len(KEPT) - len(refused) >= 100
    assert [r.number for r in KEPT] == list(range(len(KEPT)))


def test_a_change_is_seen() -> None:
    """A roof a tenth of a degree steeper: other numbers, other sheets."""
    record = next(r for r in KEPT if "refused: " not in r.found[0] and 'pitch = "20 deg"' in r.toml)
    now = tuple(outcome(record.number, record.toml.replace("20 deg", "20.1 deg"), record.csv))
    assert now[-2:] != record.found[-2:]


if __name__ == "__main__":
    for file in (RECORDS, WORDS):
        rewrite(file)
