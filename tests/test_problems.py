"""One line for one mistake: where, what stands there, what is wrong, what would be right."""

from __future__ import annotations

import pytest

from layouts.problems import JobRefused, Problem, nearest, shorten


def test_a_problem_names_file_place_text_wrong_and_right() -> None:
    problem = Problem("barn.toml", "truss.heel", "abc", "is no length.", "Write 9 1/4.")
    assert str(problem) == "barn.toml: truss.heel = abc: is no length. Write 9 1/4."


@pytest.mark.parametrize(
    ("problem", "line"),
    [
        (Problem("a.toml", "", "", "is not TOML."), "a.toml: is not TOML."),
        (Problem("a.toml", "job.name", "", "must be given."), "a.toml: job.name: must be given."),
        (Problem("a.toml", "", "x", "is odd.", "Try y."), "a.toml = x: is odd. Try y."),
    ],
)
def test_what_is_not_known_leaves_no_hole(problem: Problem, line: str) -> None:
    assert str(problem) == line


def test_a_refusal_lists_every_problem_in_the_order_given() -> None:
    first, second = Problem("a", "x", "", "is wrong."), Problem("a", "y", "", "is wrong too.")
    refused = JobRefused(iter([first, second]))
    assert refused.problems == (first, second)
    assert str(refused) == "a: x: is wrong.\na: y: is wrong too."


def test_long_text_is_cut_and_says_so() -> None:
    assert shorten("a" * 60) == "a" * 60
    assert shorten("a" * 61) == "a" * 59 + "…"
    assert shorten("abcdef", 4) == "abc…"


def test_what_is_quoted_of_a_file_does_nothing_in_a_terminal() -> None:
    problem = Problem("job.csv", "line 3", "", "is called \x1b[2J here.", "Write\x00 A1.")
    assert (problem.wrong, problem.right) == ("is called \ufffd[2J here.", "Write\ufffd A1.")


@pytest.mark.parametrize("text", ["a\nb", "a\x1bb", "a\x00b", "a\u202eb", "a\tb"])
def test_what_a_terminal_would_obey_is_not_echoed(text: str) -> None:
    assert shorten(text) == "a\ufffdb"
    assert "\ufffd" in str(Problem("f", "p", text, "is wrong."))


@pytest.mark.parametrize("place", ["a\nb", "a\x1b[31mb", "k" * 5000])
def test_a_place_is_as_harmless_as_the_text(place: str) -> None:
    """A key of the file is the user's text too."""
    line = str(Problem("f", place, "", "is not a field."))
    assert line.isprintable()
    assert len(line) < 300


def test_the_nearest_known_word_is_named() -> None:
    assert nearest("lenght", ["width", "length", "line"]) == "Did you mean length?"
    assert nearest("girt", ["grade", "girts", "roof"]) == "Did you mean girts?"


def test_a_word_like_none_of_them_gets_them_all() -> None:
    assert nearest("zzz", ["width", "length"]) == "Known: width, length."
    assert nearest("zzz", []) == ""


@pytest.mark.parametrize(("typed", "meant"), [("a1", "A1"), ("WIDTH", "width"), ("b7", "B7")])
def test_a_slip_of_the_shift_key_is_seen_through(typed: str, meant: str) -> None:
    """A wrong column named here sends someone to the wrong bracket."""
    assert nearest(typed, ["A1", "B1", "B7", "G1", "width", "length"]) == f"Did you mean {meant}?"
