"""A file rewritten while its owner works: his code and his bytes stay, and it is whole whatever happens."""

from __future__ import annotations

import codecs
import os
import stat
import time
from pathlib import Path

import pytest

from layouts.problems import JobRefused
from sheets.rewrite import ABANDONED, ChangedMeanwhile, hold, ready, save

CODES = {
    "utf-8": (b"", "utf-8"),
    "utf-8 with its mark": (codecs.BOM_UTF8, "utf-8"),
    "utf-16 le": (codecs.BOM_UTF16_LE, "utf-16-le"),
    "utf-16 be": (codecs.BOM_UTF16_BE, "utf-16-be"),
}


def written(path: Path, raw: bytes) -> Path:
    path.write_bytes(raw)
    return path


@pytest.mark.parametrize("name", CODES)
def test_code_and_mark_stay(tmp_path: Path, name: str) -> None:
    mark, code = CODES[name]
    path = written(tmp_path / "a.csv", mark + "Müller\r\n".encode(code))
    held = hold(path, "cp1252")
    assert held.text == "Müller\r\n"
    save(held, held.text + "ß\r\n")
    assert path.read_bytes() == mark + "Müller\r\nß\r\n".encode(code)


def test_bytes_that_are_no_letters_stay(tmp_path: Path) -> None:
    """0xFC is ü in Latin-1 and no UTF-8; 0x81 is nothing even in cp1252."""
    path = written(tmp_path / "a.csv", b"M\xfcller \x81\n")
    held = hold(path, "cp1252")
    assert held.text.startswith("Müller ")
    save(held, held.text + "ä\n")
    assert path.read_bytes() == b"M\xfcller \x81\n\xe4\n"


def test_a_letter_that_the_code_has_not_is_refused(tmp_path: Path) -> None:
    path = written(tmp_path / "a.csv", b"M\xfcller\n")
    with pytest.raises(UnicodeEncodeError):
        save(hold(path, "cp1252"), "Müller \u2192\n")
    assert [p.name for p in tmp_path.iterdir()] == ["a.csv"]
    assert path.read_bytes() == b"M\xfcller\n"


def test_half_a_letter_is_no_text(tmp_path: Path) -> None:
    with pytest.raises(JobRefused, match=r"a\.csv: byte 4: is not UTF-16 text"):
        hold(written(tmp_path / "a.csv", codecs.BOM_UTF16_LE + b"a\x00b"), "cp1252")


def test_a_file_that_is_not_there_is_made(tmp_path: Path) -> None:
    held = hold(tmp_path / "a.csv", "cp1252")
    assert (held.raw, held.text) == (None, "")
    save(save(held, "ä\n"), "äö\n")
    assert (tmp_path / "a.csv").read_bytes() == "äö\n".encode()
    assert [p.name for p in tmp_path.iterdir()] == ["a.csv"]


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_disk_that_refuses_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str) -> None:
    path = written(tmp_path / "a.csv", b"old\n")
    held = hold(path, "cp1252")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    with pytest.raises(OSError, match="No space"):
        save(held, "new\n")
    assert path.read_bytes() == b"old\n"
    assert [p.name for p in tmp_path.iterdir()] == ["a.csv"]


def test_what_another_program_wrote_is_not_written_over(tmp_path: Path) -> None:
    path = written(tmp_path / "a.csv", b"old\n")
    held = hold(path, "cp1252")
    path.write_bytes(b"theirs\n")
    with pytest.raises(ChangedMeanwhile):
        save(held, "new\n")
    assert path.read_bytes() == b"theirs\n"
    assert [p.name for p in tmp_path.iterdir()] == ["a.csv"]


def test_a_file_that_has_come_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    held = hold(tmp_path / "a.csv", "cp1252")
    (tmp_path / "a.csv").write_bytes(b"theirs\n")
    with pytest.raises(ChangedMeanwhile):
        save(held, "new\n")


def test_a_file_that_was_taken_away_is_written_again(tmp_path: Path) -> None:
    held = hold(written(tmp_path / "a.csv", b"old\n"), "cp1252")
    held.path.unlink()
    save(held, "old\nnew\n")
    assert held.path.read_bytes() == b"old\nnew\n"


@pytest.mark.skipif(os.name != "posix", reason="modes and links as POSIX has them")
def test_mode_and_link_stay(tmp_path: Path) -> None:
    real, link = written(tmp_path / "real.csv", b"old\n"), tmp_path / "a.csv"
    real.chmod(0o640)
    link.symlink_to(real)
    save(hold(link, "cp1252"), "new\n")
    assert link.is_symlink()
    assert real.read_bytes() == b"new\n"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_a_place_that_takes_no_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(OSError, match=r"no such folder: make it first: '.*none'"):
        ready(hold(tmp_path / "none" / "a.csv", "cp1252"))


def test_a_file_that_may_not_be_written_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    held = hold(written(tmp_path / "a.csv", b"old\n"), "cp1252")
    monkeypatch.setattr(os, "access", lambda path, mode: mode != os.W_OK)
    with pytest.raises(PermissionError, match="may not be written"):
        ready(held)


def test_the_place_is_tried_and_nothing_left_there(tmp_path: Path) -> None:
    ready(hold(tmp_path / "a.csv", "cp1252"))
    assert list(tmp_path.iterdir()) == []


def test_leftovers_of_killed_runs_go_and_nothing_else(tmp_path: Path) -> None:
    long_ago = time.time() - 2 * ABANDONED
    for name in (".a[1].csv.new-77", ".a[1].csv.old", ".a1.csv.new-77", "a[1].csv"):
        os.utime(written(tmp_path / name, b""), (long_ago, long_ago))
    written(tmp_path / ".a[1].csv.new-78", b"")  # of a run that may still go on
    ready(hold(tmp_path / "a[1].csv", "cp1252"))
    assert sorted(p.name for p in tmp_path.iterdir()) == [
        ".a1.csv.new-77",
        ".a[1].csv.new-78",
        ".a[1].csv.old",
        "a[1].csv",
    ]
