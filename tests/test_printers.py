"""The file of printer profiles: what is refused, what is kept, and that it is never left half written."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.problems import JobRefused
from sheets.printers import KEYS, choose, load, read, save
from sheets.profile import Profile

GOOD = """
[[printer]]
name = "Shed laser"
paper = "letter"
along = 1.0031
across = 0.9988
skew = -0.0004
edge = 0.25
date = "2026-09-14"
residual = 0.012
"""
FIRST = Profile("Shed laser", "letter", 1.0031, 0.9988, -0.0004, 0.25, "2026-09-14", 0.012)
OTHER = Profile("Shed laser", "a4", 0.999, 1.001, date="2026-09-15")


def refused(text: str) -> list[str]:
    with pytest.raises(JobRefused) as caught:
        read(text)
    return [str(p) for p in caught.value.problems]


def test_a_table_is_a_profile() -> None:
    assert read(GOOD) == (FIRST,)
    assert read("\ufeff" + GOOD) == (FIRST,)
    assert read(GOOD.replace('"2026-09-14"', "2026-09-14")) == (FIRST,)
    assert read("") == ()


def test_what_may_be_left_out() -> None:
    text = '[[printer]]\nname = "A"\npaper = "a4"\nalong = 1\nacross = 1.0\n'
    assert read(text) == (Profile("A", "a4"),)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("along = 1.0031", 'along = "1.0031"', "printer 1, along = 1.0031: is not a number"),
        ("along = 1.0031", "along = true", "is not a number"),
        ("along = 1.0031", "along = 1.03", "0.98 to 1.02"),
        ("along = 1.0031", "along = nan", "out of range"),
        ("across = 0.9988", "", "printer 1, across: is missing"),
        ("across = 0.9988", "acros = 0.9988", "Did you mean across?"),
        ("skew = -0.0004", "skew = 0.02", "-0.01 to 0.01"),
        ("edge = 0.25", "edge = -0.25", "0 to 2 in"),
        ('date = "2026-09-14"', 'date = "14.9.26"', "is not a date"),
        ('date = "2026-09-14"', "date = 2026-09-14T10:00:00", "is not a date"),
        ('date = "2026-09-14"', "date = 20260914", "is not a date"),
        ("residual = 0.012", "residual = inf", "0 to 0.2"),
        ('name = "Shed laser"', 'name = " "', "is a name of 1 to 32 letters"),
        ('name = "Shed laser"', 'name = "打印机"', "fonts cannot print"),
        ("[[printer]]", "[[printers]]", "Did you mean printer?"),
        ("[[printer]]", "[printer]", r"Head each one with [[printer]]"),
        ('name = "Shed laser"', "name = Shed", "is not valid TOML"),
    ],
)
def test_one_mistake_is_one_problem(old: str, new: str, said: str) -> None:
    problems = refused(GOOD.replace(old, new))
    assert said in problems[0]
    assert problems[0].startswith("printers.toml")
    assert len(problems) == (2 if new.startswith("acros ") else 1)  # a key mistaken is a key missing too


def test_every_mistake_is_told_at_once() -> None:
    first, second = GOOD.replace("1.0031", "2"), GOOD.replace("Shed laser", "Two").replace("0.25", "9")
    problems = refused(first + second + GOOD + "colour = 1\n")
    assert [p.split(":")[1].split(" = ")[0].strip() for p in problems] == [
        "printer 1, along",
        "printer 2, edge",
        "printer 3, colour",
        "printer 3",
    ]
    assert "there twice" in problems[-1]


# --- which one ------------------------------------------------------------------------------------------------------


def test_the_only_printer_need_not_be_named() -> None:
    assert choose((FIRST, OTHER), "letter") == FIRST
    assert choose((FIRST, OTHER), "A4", "shed LASER") == OTHER


def test_a_paper_nobody_measured_is_printed_plain() -> None:
    plain = choose((FIRST, OTHER), "legal")
    assert plain.plain
    assert plain.paper == "legal"


def test_a_named_printer_without_profile_and_two_without_name_are_refused() -> None:
    two = Profile("Office", "letter")
    with pytest.raises(JobRefused, match="Did you mean Shed laser"):
        choose((FIRST, two), "letter", "shed lazer")
    with pytest.raises(JobRefused, match="rodwright ruler first"):
        choose((), "letter", "Shed")
    with pytest.raises(JobRefused, match="Known: Shed laser, Office"):
        choose((FIRST, two), "letter")


# --- written --------------------------------------------------------------------------------------------------------


def test_saved_is_loaded(tmp_path: Path) -> None:
    path = tmp_path / "config" / "printers.toml"
    assert load(path) == ()
    save(path, FIRST)
    save(path, OTHER)
    assert load(path) == (FIRST, OTHER)


def test_the_same_printer_and_paper_is_replaced_in_its_place(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    for profile in (FIRST, OTHER):
        save(path, profile)
    newer = Profile("SHED laser", "Letter", 1.001, 1.0, date="2026-10-01")
    save(path, newer)
    assert load(path) == (newer, OTHER)


def test_same_profiles_same_bytes(tmp_path: Path) -> None:
    one, two = tmp_path / "1.toml", tmp_path / "2.toml"
    for path in (one, two, two):
        save(path, FIRST)
        save(path, OTHER)
    assert one.read_bytes() == two.read_bytes()


names = st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=32).filter(str.strip)


@given(names)
def test_any_printable_name_comes_back(tmp_path_factory: pytest.TempPathFactory, name: str) -> None:
    path = tmp_path_factory.mktemp("names") / "printers.toml"
    save(path, Profile(name, "letter"))
    assert tomllib.loads(path.read_text(encoding="utf-8"))["printer"][0]["name"] == name
    assert load(path)[0].printer == name


def test_what_could_not_be_read_again_is_not_written(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    save(path, FIRST)
    before = path.read_bytes()
    for bad in (Profile("", "letter"), Profile("A\nB", "letter"), Profile("A", "letter", along=1.5)):
        with pytest.raises(JobRefused):
            save(path, bad)
    assert path.read_bytes() == before


def test_a_file_with_mistakes_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    path.write_text(GOOD.replace("along", "allong"), encoding="utf-8")
    before = path.read_bytes()
    with pytest.raises(JobRefused, match="Did you mean along"):
        save(path, OTHER)
    path.write_bytes(b"\xff")
    with pytest.raises(JobRefused, match="UTF-8"):
        save(path, OTHER)
    assert before != path.read_bytes() == b"\xff"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_disk_that_refuses_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str) -> None:
    path = tmp_path / "printers.toml"
    save(path, FIRST)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    with pytest.raises(OSError, match="No space"):
        save(path, OTHER)
    assert load(path) == (FIRST,)
    assert [p.name for p in tmp_path.iterdir()] == ["printers.toml"]


def test_a_link_leads_to_the_file_that_is_written(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "printers.toml"
    link.symlink_to(real)
    save(link, FIRST)
    assert link.is_symlink()
    assert load(real) == (FIRST,)


def test_every_key_of_the_file_is_a_field_of_a_profile() -> None:
    fields = set(Profile.__struct_fields__)
    assert {("printer" if key == "name" else key) for key in KEYS} == fields
