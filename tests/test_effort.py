"""What a usual run leaves out, the rest runs; every row of the list names a test that there is."""

from __future__ import annotations

import ast
from pathlib import Path

import effort
import pytest

TESTS = Path(__file__).parent


def functions(file: Path) -> set[str]:
    return {f"{file.name}::{n.name}" for n in ast.walk(ast.parse(file.read_text())) if isinstance(n, ast.FunctionDef)}


def test_every_row_names_a_test() -> None:
    there = set[str]().union(*map(functions, TESTS.glob("test_*.py")))
    assert set(effort.listed()) - there == set()


def property_test() -> None:
    """Stands for one that tries examples."""


property_test.is_hypothesis_test = True  # type: ignore[attr-defined]  # how hypothesis marks its own
TESTED = [("a::one", None), *[("a::some", None)] * 5, ("a::long", None), ("a::any", property_test)]
USUAL = [
    True,
    True,
    False,
    False,
    True,
    False,
    False,
    True,
]  # "some" has one of three cases left in: the first, the fourth


@pytest.mark.parametrize(
    ("how", "found"),
    [
        ("usual", USUAL),
        ("all", [True] * len(TESTED)),
        ("rest", [*(not usual for usual in USUAL[:-1]), True]),  # a property test with more of its examples
    ],
)
def test_between_them_the_usual_run_and_the_rest_leave_nothing_out(
    how: str, found: list[bool], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(effort, "HOW", how)
    monkeypatch.setattr(effort, "listed", lambda: {"a::some": 3, "a::long": 0})
    assert effort.chosen(TESTED) == found


def test_a_usual_run_tries_a_fifth_of_the_examples_the_rest_half(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(effort, "HOW", "usual")
    assert [effort.examples(count) for count in (50, 200, 3)] == [10, 40, 1]
    monkeypatch.setattr(effort, "HOW", "rest")
    assert effort.examples(50) == 25
    monkeypatch.setattr(effort, "HOW", "all")
    assert effort.examples(50) == 50


def test_what_took_long_is_listed() -> None:
    printed = [
        "4.00s setup    tests/test_effort.py::test_every_row_names_a_test",
        "0.50s call     tests/test_effort.py::test_every_row_names_a_test",
        "(17 durations < 0.005s hidden.)",
        *(f"0.20s call     tests/test_job.py::test_many[{case}]" for case in range(12)),
        *(f"1.44s call     tests/test_joints.py::{property_}" for property_ in PROPERTIES),
    ]
    rows = effort._measured("\n".join(printed))
    # 0.2 s in each of twelve cases: ceil(2.4 / 0.3) = 8; 4.5 s in one: none is left; of 1.44 s a fifth is 0.29 s
    assert rows == {
        "test_effort.py::test_every_row_names_a_test": "test_effort.py::test_every_row_names_a_test 0",
        "test_job.py::test_many": "test_job.py::test_many 8",
    }


PROPERTIES = [name.partition("::")[2] for name in functions(TESTS / "test_joints.py") if effort._tries_examples(name)]


def test_property_tests_are_known() -> None:
    assert PROPERTIES
