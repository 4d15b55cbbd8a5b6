"""What the job says of itself and how its sheets are drawn: a change of these changes no number, and is told."""

from __future__ import annotations

from typing import Any

import pytest
from compared import building, changed, names
from msgspec.structs import replace

from sheets import changes
from sheets.compare import compare
from sheets.sides import of_job

AGAIN = " is another: print the whole packet to have it so"
HEAD = [
    ({"job.name": "Other barn"}, "The name of the job: was Tamarack hay barn, now Other barn"),
    ({"job.date": "2026-10-02"}, "The date: was none, now 2026-10-02"),
    ({"job.crew": "Mo and Ada"}, "The crew: was none, now Mo and Ada"),
    ({"job.place": "Lower field"}, "The place: was none, now Lower field"),
    ({"job.language": "english and spanish"}, f"The language{AGAIN}"),
    ({"job.tags": "4"}, f"The size of tags{AGAIN}"),
]


@pytest.mark.parametrize(("changes_", "told"), HEAD)
def test_it_is_told_first_and_no_sheet_but_the_index_is_stale(changes_: dict[str, Any], told: str) -> None:
    """The numbers on all others are right."""
    found = changed(changes_)
    assert found.first == (told,)
    assert names(found) == ["Index"]
    assert list(changes.lines(found))[-1] == "1 stale. Every other sheet is still good."


def test_large_print_lays_rods_anew() -> None:
    assert changed({"job.print": "large"}).first == (f"The print{AGAIN}",)


def test_a_packet_of_an_earlier_day_keeps_none_of_it() -> None:
    old, new = of_job(building(), "old"), of_job(building({"job.date": "2026-10-02"}), "new")
    earlier = replace(old, numbers={key: value for key, value in old.numbers.items() if key != "head"})
    assert compare(earlier, new).first == ()
    assert compare(new, earlier).first == ()
