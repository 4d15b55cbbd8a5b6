"""Slips of the pen in a job that nobody means: endwall columns beside one another, degrees for a rise, wet wood drier
than dry wood, the size of a board for a length."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import BASE, METRIC, job, job_text, problems

BACK: dict[str, Any] = {"building.back_columns": ["16'"]}
LEAN_TO: dict[str, Any] = {"roof.shape": "lean-to"}


@pytest.mark.parametrize(
    ("columns", "changes", "said"),
    [
        (["2'", "16'", "30'"], {}, []),
        (["1'-11 15/16", "16'", "30'"], {}, ['A1 to B1 = makes a bay of 23 15/16".']),
        (["2'", "16'", "30'-0 1/16"], {}, ['D1 to E1 = makes a bay of 23 15/16".']),
        (["15'", "17'"], {}, []),
        # C is the line of the back's column
        (["15'", "16'-6", "18'"], {}, ['B1 to D1 = makes a bay of 18".', 'D1 to E1 = makes a bay of 18".']),
        # a lean-to's last column stands at the standing wall, 32' from the line
        (["16'", "30'"], LEAN_TO, []),
        (["16'", "30'-1"], LEAN_TO, ['C1 to D1 = makes a bay of 23".']),
    ],
)
def test_endwall_columns_stand_as_far_apart_as_others(
    columns: list[str], changes: dict[str, Any], said: list[str]
) -> None:
    """The building is 32' wide; bays are 2' at the least, the first and the last from the building line."""
    found = problems(job_text({**BACK, "building.front_columns": columns, **changes}))
    assert {p.place for p in found} <= {"building.front_columns"}
    assert [f"{p.text} = {p.wrong}" for p in found] == said
    assert all(p.right == "At least 2'-0\"." for p in found)


def test_columns_in_one_another_are_told_as_such() -> None:
    (found,) = problems(job_text({"building.front_columns": ["4", "16'"]}))
    assert "into each other" in found.wrong


@pytest.mark.parametrize("key", ["truss.pitch", "truss.far_pitch"])
@pytest.mark.parametrize(
    ("given", "right"),
    [
        (18.5, "Write 18.5/12 or 18.5 deg."),
        ("24", "Write 24/12 or 24 deg."),
        ("30", "Rise on a run of 12, like 5/12 or 4.5/12; or 18.5 deg; or 1:4."),
    ],
)
def test_a_bare_pitch_over_twelve_may_be_degrees(key: str, given: object, right: str) -> None:
    (found,) = problems(job_text({key: given}))
    assert (found.place, found.wrong, found.right) == (key, "may be degrees or a rise on 12.", right)


def test_what_it_says_to_write_is_read() -> None:
    assert job({"truss.pitch": "18.5/12"}).truss.pitch == pytest.approx(18.5 / 12)
    assert job({"truss.pitch": 12}).truss.pitch == 1


@pytest.mark.parametrize("base", [BASE, METRIC])
def test_wood_is_no_drier_wet_than_dry(base: dict[str, Any]) -> None:
    (found,) = problems(job_text({"wood.wet": 18}, base=base))
    assert str(found) == "shed.toml: wood.wet = 18: is drier than dry wood. At least wood.dry, 19 percent."
    assert job({"wood.wet": 19}, base=base).wood.wet == 19
    assert job({"wood.wet": 12, "wood.dry": 12}, base=base).wood.dry == 12


@pytest.mark.parametrize(
    ("base", "place", "typed", "right"),
    [
        (BASE, "truss.heel", "2x8", 'Write 1 1/2" or 7 1/4", whichever is meant.'),  # PS 20: 1 1/2 x 7 1/4
        (BASE, "grade.line", "2x8", 'Write 1 1/2" or 7 1/4", whichever is meant.'),
        (METRIC, "truss.heel", "45x190", "Write 45 mm or 190 mm, whichever is meant."),
    ],
)
def test_the_size_of_a_board_for_a_length(base: dict[str, Any], place: str, typed: str, right: str) -> None:
    (found,) = problems(job_text({place: typed}, base=base))
    assert (found.wrong, found.right) == ("is the size of a board; a length is asked for.", right)


@pytest.mark.parametrize(("base", "like"), [(BASE, "41 3/8"), (METRIC, "1050")])
def test_a_line_reading_in_words(base: dict[str, Any], like: str) -> None:
    (found,) = problems(job_text({"grade.line": "auto"}, base=base))
    assert (found.wrong, found.right) == ("is no reading.", f'Write one, like {like}, or "choose".')


def test_a_field_is_guessed_only_if_it_is_like_one() -> None:
    """`inside` has six letters and shares s, i, e with `size`: 2 x 3 / (6 + 4) = 0.6, no slip of the pen."""
    (found,) = problems(job_text({"girts.size": "2x6"}))
    assert found.right.startswith("Known: board, place, inside,")
    (found,) = problems(job_text({"girts.spacin": "equal"}))
    assert found.right == "Did you mean spacing?"
