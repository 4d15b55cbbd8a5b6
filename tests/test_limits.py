"""What no building is: files of megabytes, keys of thousands of parts, thousands of mistakes. Each is refused in few
words, and costs no more than its own size."""

from __future__ import annotations

import json
import sys
import tracemalloc
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import jobs
import pytest

from layouts import job as job_file
from layouts.job import MOST_DOTS, MOST_LETTERS
from layouts.problems import JobRefused
from sheets import cli, excerpt, load

MEGABYTE = 1_000_000


@contextmanager
def within(most: int) -> Iterator[None]:
    """No more than so many bytes of memory at any moment."""
    tracemalloc.start()
    try:
        yield
        assert tracemalloc.get_traced_memory()[1] < most
    finally:
        tracemalloc.stop()


def refused(text: str, most: int = 20 * MEGABYTE) -> str:
    """What is told of a job."""
    with within(most), pytest.raises(JobRefused) as told:
        job_file.read(text)
    return "\n".join(map(str, told.value.problems))


def check(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int:
    monkeypatch.setattr(sys, "argv", ["rodwright", "check", *arguments])
    with pytest.raises(SystemExit) as ended:
        cli.main()
    return int(str(ended.value.code))


@pytest.mark.parametrize(
    "deep",
    [
        f"[{'.'.join('a' * 50_000)}]\nb = 1",  # tomllib takes memory by the square of it: 12 GB
        f"{'.'.join('a' * 50_000)} = 1",
        f"x = {'[' * 50_000}{']' * 50_000}",
        f"x = {'{a=' * 3000}1{'}' * 3000}",
        f"x = {{{'.'.join('a' * 50_000)} = 1}}",
        "\n".join(f"[{'.'.join('a' * 900)}.b{i}]" for i in range(400)),
    ],
    ids=["heading", "key", "lists", "tables", "key of a table", "headings"],
)
def test_what_is_too_deep(deep: str) -> None:
    assert refused(jobs.job_text() + deep) == "job.toml: is nested too deeply for a job."


def test_how_deep_a_key_may_be() -> None:
    key = ".".join("a" * (MOST_DOTS + 1))
    assert "nested" not in refused(f"{jobs.job_text()}{key} = 1")  # a field that nobody knows
    for deeper in (
        f"{key}.a = 1",
        f"[ {key.replace('.', ' . ')}.a ]",
        f'x = {{{key}."a b" = 1}}',
        f"""'a b'.{key} = 1""",
    ):
        assert refused(f"{jobs.job_text()}\n{deeper}\n") == "job.toml: is nested too deeply for a job."


def test_many_numbers_are_not_deep() -> None:
    rows = ",\n".join(", ".join(['"2.44 m"'] * 60) for _ in range(2))
    found = refused(jobs.job_text({"building.bays": jobs.Raw(f"[\n{rows}\n]"), "job.date": f"{'.' * 60}"}))
    assert "bays" in found
    assert "nested" not in found


@pytest.mark.parametrize(
    "odd",
    ["a" * 900_000, "a." * 49 + "b ", '"' * 900_000, "'a b'." * 49 + "c ", 'x = "' + "\\" * 899_000, '"\\'],
    ids=["a word", "keys", "quotes", "quoted keys", "escapes", "quoted escapes"],
)
def test_looking_for_deep_keys_is_linear(odd: str) -> None:
    """By the square of its size this would take hours."""
    assert job_file._DEEP.search(odd * (900_000 // len(odd))) is None


def test_a_job_of_ten_megabytes_is_not_even_read(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(jobs.job_text() + "# é\n" * (10 * MEGABYTE // 5), encoding="utf-8")
    with within(10 * MEGABYTE), pytest.raises(JobRefused) as refused:
        load.load(path)
    (problem,) = refused.value.problems
    assert (problem.file, problem.text) == ("job.toml", "")
    assert (problem.wrong, problem.right) == ("is larger than a job file can be.", "Keep it under a million letters.")


def test_a_job_of_a_letter_too_many(tmp_path: Path) -> None:
    text = jobs.job_text() + "\n# "
    path = tmp_path / "job.toml"
    path.write_text(text + "é" * (MOST_LETTERS - len(text)), encoding="utf-8")  # nearly two million bytes
    assert load.load(path).job.job.name
    path.write_text(text + "é" * (MOST_LETTERS - len(text) + 1), encoding="utf-8")
    with pytest.raises(JobRefused, match="Keep it under a million letters"):
        load.load(path)


def test_a_name_of_a_megabyte_is_told_in_a_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(jobs.job_text().replace('name = "', 'name = "' + "N" * 990_000, 1), encoding="utf-8")
    assert check(monkeypatch, str(path)) == 1
    told = capsys.readouterr().err
    assert "At most 60 fit on the sheets." in told
    assert len(told) < 500


def test_a_number_of_thousands_of_figures_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(f"{jobs.job_text()}\nx = {'9' * 5000}\n", encoding="utf-8")
    assert check(monkeypatch, str(path)) == 1
    assert "holds a number of thousands of figures." in capsys.readouterr().err


def test_of_very_many_mistakes_the_first_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(jobs.job_text() + "\n[names]\n" + "".join(f'Q{i} = "x"\n' for i in range(2000)), encoding="utf-8")
    assert check(monkeypatch, str(path)) == 1
    told = capsys.readouterr().err
    assert told.count("names a column that is not there") == excerpt.MOST_TOLD
    assert told.endswith(f"And {2000 - excerpt.MOST_TOLD} more: mend these first.\nRefused: 2000 to mend.\n")
    assert check(monkeypatch, str(path), "--json") == 1
    assert len(json.loads(capsys.readouterr().out)["refused"]) == 2000


def test_as_many_as_are_told_are_all_of_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.toml"
    rows = "".join(f'Q{i} = "x"\n' for i in range(excerpt.MOST_TOLD))
    path.write_text(f"{jobs.job_text()}\n[names]\n{rows}", encoding="utf-8")
    assert check(monkeypatch, str(path)) == 1
    assert "more: mend these" not in capsys.readouterr().err
