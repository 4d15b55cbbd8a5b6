"""Sending to a printer: against a real CUPS scheduler of our own, and where there is none."""

from __future__ import annotations

import math
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pdfplumber
import pytest
import scheduler
from readback import pdf_sheets
from scheduler import PDF_PRINTER, Scheduler

from sheets import frame, pdf, ruler, send
from sheets.frame import Body, Footer, finish
from sheets.lettering import pt, write
from sheets.paper import MM, PAPERS
from sheets.profile import Profile
from sheets.send import CannotSend, holds, keyword, options
from sheets.shapes import Recorder

LETTER = (8.5, 11.0)


@pytest.fixture(scope="module")
def cups() -> Iterator[Scheduler]:
    """A scheduler with three printers; tests that need it are skipped where there can be none."""
    if why := scheduler.missing():
        pytest.skip(why)
    folder = Path(tempfile.mkdtemp(prefix="rodwright-cups-"))  # pytest's own is closed to the user that CUPS filters as
    running = scheduler.start(folder)
    try:
        running.printer("office", PDF_PRINTER)
        running.wide("wide")
        running.printer("bare", "raw")
        yield running
    finally:
        running.stop()
        shutil.rmtree(folder)


@pytest.fixture
def asked(cups: Scheduler, monkeypatch: pytest.MonkeyPatch) -> Scheduler:
    """The same, and it is the one that our code talks to."""
    for key, value in cups.environment.items():
        monkeypatch.setenv(key, value)
    return cups


@pytest.fixture(scope="module")
def packet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A page on its side and one upright, both with bars."""
    path = tmp_path_factory.mktemp("sent") / "packet.pdf"
    footer = Footer("Any job", "2026-09-14", False)
    pen = Recorder(*LETTER)
    write(pen, 2, 8, "13'-9 1/16\"", pt(20))
    pen.stroke(1, 2, 7, 9.5)
    bodies = [
        *ruler.pages(PAPERS["letter"], False, Profile()),
        Body("ruler", "Tags", pen.drawing(), PAPERS["letter"], True),
    ]
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(frame.SECTIONS, "ruler", "Ruler page")
        pdf.write(path, [finish(body, footer, i, 2)[0] for i, body in enumerate(bodies, 1)], "Any packet")
    return path


def lengths(path: Path) -> list[list[float]]:
    """How long every stroke of every page is, inches, in drawing order, whichever way the page lies. By pdfminer, which
    goes into the forms that print filters wrap a page in and heeds their scale."""
    with pdfplumber.open(path) as document:
        return [[math.dist(*line["pts"]) / 72 for line in page.lines] for page in document.pages]


# --- a real scheduler -----------------------------------------------------------------------------------------------


def test_what_is_spooled_is_byte_for_byte_ours_and_measures_right(asked: Scheduler, packet: Path) -> None:
    for printer in ("office", "bare"):
        job = send.send(packet, printer, *LETTER, "Any packet")
        asked.finished(job)
        assert asked.spooled(job).read_bytes() == packet.read_bytes()
        side, upright = lengths(asked.spooled(job))
        assert max(side[:2]) == pytest.approx(10, abs=0.001)  # the bars along and across of the ruler page
        assert min(side[:2]) == pytest.approx(7, abs=0.001)
        # the upright page: 8.5 - 1 = 7.5 holds 7 in, 11 - 1 - 0.44 = 9.56 holds 9
        assert {7, 9} <= {round(length, 3) for length in upright}


@pytest.mark.parametrize("printer", ["office", "wide", "bare"])
def test_the_job_carries_what_stops_all_scaling(asked: Scheduler, packet: Path, printer: str) -> None:
    title = 'Barn "A" <&>; $(x) – 打'
    kept = asked.finished(send.send(packet, printer, *LETTER, title))
    assert kept["print-scaling"] == [b"none"]
    assert kept["media"] == [b"na_letter_8.5x11in"]
    assert kept["sides"] == [b"one-sided"]
    assert kept["number-up"] == [(1).to_bytes(4, "big")]
    assert kept["fit-to-page"] == [b"\0"]
    assert kept["job-name"] == [title.encode()]
    assert kept["document-format"] == [b"application/pdf"]


def test_a_resolution_goes_with_the_job(asked: Scheduler, packet: Path) -> None:
    kept = asked.finished(send.send(packet, "office", *LETTER, "Fine", dpi=600))
    dots = (600).to_bytes(4, "big")
    assert kept["printer-resolution"] == [
        dots + dots + b"\3"
    ]  # across, along, per inch (RFC 8011, 5.1.16; from memory)


def test_what_comes_out_of_the_print_filters_is_true_to_size(asked: Scheduler, packet: Path) -> None:
    """What the printer itself gets: pages turned onto their paper, and no stroke longer or shorter than drawn."""
    out = asked.root / "paper" / "office"
    asked.finished(send.send(packet, "office", *LETTER, "True"))
    assert [(s.width, s.height) for s in pdf_sheets(out)] == [LETTER, LETTER]
    for printed, drawn in zip(lengths(out), lengths(packet), strict=True):
        assert printed == pytest.approx(drawn, abs=0.001)


def test_saved_defaults_that_scale_are_overruled(asked: Scheduler, packet: Path) -> None:
    """Somebody has saved two pages a sheet, fitted, for himself and for the printer: by itself that spoils the page."""
    bad = ["-o", "number-up=2", "-o", "fit-to-page=true", "-o", "print-scaling=fit", "-o", "sides=two-sided-long-edge"]
    out = asked.printer("spoiled", PDF_PRINTER, "-o", "number-up-default=2", "-o", "print-scaling-default=fit")
    asked.run("lpoptions", "-p", "spoiled", *bad)
    said = asked.run("lp", "-d", "spoiled", "--", str(packet))
    asked.finished(said.split("request id is ")[1].split(" ")[0])
    assert len(pdf_sheets(out)) == 1
    kept = asked.finished(send.send(packet, "spoiled", *LETTER, "Saved"))
    assert kept["sides"] == [b"one-sided"]
    for printed, drawn in zip(lengths(out), lengths(packet), strict=True):
        assert printed == pytest.approx(drawn, abs=0.001)


def test_fitting_would_have_been_noticed(asked: Scheduler, packet: Path) -> None:
    out = asked.root / "paper" / "office"
    said = asked.run("lp", "-d", "office", "-o", "media=A5", "-o", "print-scaling=fit", "--", str(packet))
    asked.finished(said.split("request id is ")[1].split(" ")[0])
    # A5 is 210 mm long, 1/4 in off at both ends; what was printed is 11 in: 10 in come out at 7.05 at the most
    assert 6 < max(lengths(out)[0][:2]) < 7.1


def test_printers_and_their_papers(asked: Scheduler) -> None:
    assert {"office", "wide", "bare"} <= set(send.printers())
    assert {"Letter", "Legal", "A4"} <= set(send.papers("office"))
    assert "ARCHD" in send.papers("wide")
    assert send.papers("bare") == ()


@pytest.mark.parametrize("name", [p for p in PAPERS if not PAPERS[p].roll])
def test_a_wide_printer_holds_every_sheet_by_its_own_name(asked: Scheduler, name: str) -> None:
    named = [paper for paper in send.papers("wide") if not paper.startswith("Custom")]
    assert holds(named, PAPERS[name].width, PAPERS[name].height)


def test_a_printer_that_does_not_hold_the_paper_is_refused(asked: Scheduler, packet: Path) -> None:
    before = asked.run("lpstat", "-W", "all", "-o")
    with pytest.raises(
        CannotSend, match=r"office does not hold this paper \(11 x 17 in\).*Letter, A4, .*Legal"
    ) as told:
        send.send(packet, "office", 17, 11, "Large")
    assert "Fullbleed" not in str(told.value)
    assert asked.run("lpstat", "-W", "all", "-o") == before


def test_a_sheet_of_its_own_size_reaches_the_driver(asked: Scheduler, packet: Path) -> None:
    kept = asked.finished(send.send(packet, "wide", 120, 36, "Roll"))
    assert kept["media"] == [b"custom_36x120_36x120in"]
    printed = pdf_sheets(asked.root / "paper" / "wide")
    assert {(s.width, s.height) for s in printed} == {(36.0, 120.0)}


def test_pages_of_one_size_go_by_themselves(asked: Scheduler, packet: Path) -> None:
    kept = asked.finished(send.send(packet, "wide", *LETTER, "é" * 200, [2]))
    assert kept["job-name"] == ["é".encode() * 125]  # 250 bytes: an IPP name ends at 255
    assert kept["page-ranges"] == [(2).to_bytes(4, "big") * 2]
    assert [len(page) for page in lengths(asked.root / "paper" / "wide")] == [len(lengths(packet)[1])]


def test_no_such_printer_names_the_nearest(asked: Scheduler, packet: Path) -> None:
    with pytest.raises(CannotSend, match=r"offise is not a printer here. Did you mean office\?"):
        send.send(packet, "offise", *LETTER, "Any")
    assert send.ready("OFFICE", *LETTER) == "office"


def test_a_printer_that_takes_no_jobs_says_so(asked: Scheduler, packet: Path) -> None:
    asked.printer("closed", "raw")
    asked.run("cupsreject", "closed")
    with pytest.raises(CannotSend, match=r"refused it: .*not accepting jobs"):
        send.send(packet, "closed", *LETTER, "Any")


def test_a_scheduler_that_does_not_answer_is_told_from_one_without_printers(
    asked: Scheduler, monkeypatch: pytest.MonkeyPatch, packet: Path
) -> None:
    monkeypatch.setenv("CUPS_SERVER", "127.0.0.1:1")
    with pytest.raises(CannotSend, match="does not answer"):
        send.send(packet, "office", *LETTER, "Any")


# --- without a scheduler --------------------------------------------------------------------------------------------


def test_without_cups_every_viewer_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, packet: Path) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(CannotSend) as told:
        send.send(packet, "office", *LETTER, "Any")
    for viewer in ("Acrobat", "Chrome", "Edge", "Firefox", "Preview", "Evince", "Okular"):
        assert viewer in str(told.value)
    assert isinstance(told.value, OSError)


def test_an_answer_that_never_comes_is_not_waited_for(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    if os.name != "posix":
        pytest.skip("needs a shell script for a command")
    (tmp_path / "lpstat").write_text("#!/bin/sh\nexec sleep 30\n")
    (tmp_path / "lpstat").chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setattr(send, "SECONDS", 0.2)
    with pytest.raises(CannotSend, match="did not answer"):
        send.printers()


# PWG 5101.1 (not seen; names as CUPS 2.4.2 holds them, seen): short side first, whichever way the page lies
@pytest.mark.parametrize(
    ("size", "name"),
    [
        ((8.5, 11), "na_letter_8.5x11in"),
        ((11, 8.5), "na_letter_8.5x11in"),
        ((297 * MM, 210 * MM), "iso_a4_210x297mm"),
        ((17, 11), "na_ledger_11x17in"),
        ((34, 44), "na_e_34x44in"),
        ((30, 42), "na_wide-format_30x42in"),
        ((13, 19.5), "custom_13x19.5_13x19.5in"),
        ((610 * MM, 3000 * MM), "custom_610x3000_610x3000mm"),
        ((36, 120), "custom_36x120_36x120in"),
    ],
)
def test_names_of_papers(size: tuple[float, float], name: str) -> None:
    assert keyword(*size) == name


@pytest.mark.parametrize("name", PAPERS)
def test_the_size_in_a_papers_name_is_its_size(name: str) -> None:
    paper = PAPERS[name]
    text = keyword(paper.width, paper.height).rsplit("_", 1)[1]
    unit = MM if text.endswith("mm") else 1.0
    sides = [float(side) * unit for side in text[:-2].split("x")]
    assert sides == pytest.approx(sorted((paper.width, paper.height)), abs=0.001)


@pytest.mark.parametrize(
    ("offered", "size", "held"),
    [
        (["A4", "Letter"], LETTER, True),
        (["A4", "LetterSmall"], LETTER, False),
        (["Letter.Fullbleed"], LETTER, True),
        (["A4"], LETTER, False),  # 8.27 x 11.69 is not 8.5 x 11
        (["w612h792"], LETTER, True),  # points
        (["8.5x11"], LETTER, True),
        (["216x279mm"], LETTER, True),  # 8.504 x 10.984, as some drivers round it
        (["215x275mm"], LETTER, False),
        (["w595h842"], (210 * MM, 297 * MM), True),
        (["210x297mm"], (210 * MM, 297 * MM), True),
        (["na_wide-format_30x42in"], (42, 30), True),
        (["Custom.WIDTHxHEIGHT"], (36, 120), True),
        (["iso-a4x3", "EnvC5", "Auto"], (210 * MM, 297 * MM), False),
        ([], LETTER, False),
    ],
)
def test_what_drivers_call_papers(offered: list[str], size: tuple[float, float], held: bool) -> None:
    assert holds(offered, *size) is held


def test_a_job_has_one_size_of_sheet() -> None:
    assert send.by_size([(11, 8.5), (8.5, 11), (11, 8.5)]) == {(8.5, 11): ()}
    assert send.by_size([(8.5, 11), (160, 36), (11, 8.5), (36, 120)]) == {
        (8.5, 11): (1, 3),
        (36, 160): (2,),
        (36, 120): (4,),
    }


def test_options_stop_all_scaling() -> None:
    told = options(*LETTER)[1::2]
    assert "print-scaling=none" in told
    assert not any(o.startswith("printer-resolution") for o in told)
    assert options(*LETTER, 1200)[-1] == "printer-resolution=1200dpi"
