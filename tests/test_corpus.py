"""Replays what the three parsers are begun with and what has once broken one; a fault in one of them would be seen."""

from __future__ import annotations

from pathlib import Path

import pytest
from fuzz_parsers import TARGETS, words

from layouts import job as job_reader
from layouts import lengths
from layouts.problems import JobRefused, Problem

CORPUS = sorted((Path(__file__).parent / "corpus").iterdir())


@pytest.mark.parametrize("file", CORPUS, ids=lambda file: file.name)
def test_a_kept_file_is_read_or_refused(file: Path) -> None:
    TARGETS[file.name.partition("-")[0]](file.read_bytes())


def test_the_corpus_is_small_and_of_every_parser() -> None:
    assert {file.name.partition("-")[0] for file in CORPUS} == set(TARGETS)
    assert len(CORPUS) <= 48
    assert max(file.stat().st_size for file in CORPUS) < 2000


@pytest.mark.parametrize("target", TARGETS)
@pytest.mark.parametrize("data", [b"", b"\0", b"\xff\xfe", "\N{ZERO WIDTH NO-BREAK SPACE}".encode(), b"9" * 5000])
def test_odd_bytes_are_refused(target: str, data: bytes) -> None:
    TARGETS[target](data)


def test_what_is_put_in_is_what_the_parsers_know() -> None:
    assert {"wainscot", "[opening]", "grade line", "heel = ", "set-up", "check-back"} & set(words()) == {
        "[opening]",
        "grade line",
        "heel = ",
        "set-up",
    }


def test_a_traceback_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    def slip(*_: object) -> None:
        raise KeyError

    monkeypatch.setattr(job_reader, "parsed", slip)
    with pytest.raises(KeyError):
        TARGETS["job"](b"")


def test_a_problem_without_words_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise JobRefused([Problem("job.toml", "job.name", "", "")])

    monkeypatch.setattr(job_reader, "parsed", refuse)
    with pytest.raises(AssertionError):
        TARGETS["job"](b"")


def test_a_length_that_is_printed_as_another_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lengths, "show", lambda inches, style: lengths.show_inches(inches + 0.25, style))
    with pytest.raises(AssertionError):
        TARGETS["length"](b"41 3/8")
