"""Hand a packet to CUPS, so that no viewer's print dialog comes between: nothing scaled, one side, the right paper.

Only CUPS's own commands are used (``lp``, ``lpstat``, ``lpoptions``), run without a shell. Media names are those of
PWG 5101.1 (the standard not seen; the names read in CUPS's own table of them).
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Iterable, Sequence
from pathlib import Path

from layouts.problems import nearest, shorten

NEAR = 0.02  # inches: drivers hold sizes in whole points, 1/72 in
SECONDS = 60
MOST_TITLE = 250  # bytes; an IPP name has at most 255 (RFC 8011, 5.1.3; from memory)
MM = 1 / 25.4

# short side, long side, inches: PWG 5101.1 name and the names drivers (PPD) know it by
_SIZES: tuple[tuple[float, float, str, tuple[str, ...]], ...] = (
    (8.5, 11, "na_letter_8.5x11in", ("letter", "ansia")),
    (8.5, 14, "na_legal_8.5x14in", ("legal",)),
    (11, 17, "na_ledger_11x17in", ("tabloid", "ledger", "ansib")),
    (17, 22, "na_c_17x22in", ("ansic",)),
    (22, 34, "na_d_22x34in", ("ansid",)),
    (34, 44, "na_e_34x44in", ("ansie",)),
    (9, 12, "na_arch-a_9x12in", ("archa",)),
    (12, 18, "na_arch-b_12x18in", ("archb",)),
    (18, 24, "na_arch-c_18x24in", ("archc",)),
    (24, 36, "na_arch-d_24x36in", ("archd",)),
    (36, 48, "na_arch-e_36x48in", ("arche",)),
    (30, 42, "na_wide-format_30x42in", ("arche1",)),
    (210 * MM, 297 * MM, "iso_a4_210x297mm", ("a4",)),
    (297 * MM, 420 * MM, "iso_a3_297x420mm", ("a3",)),
    (420 * MM, 594 * MM, "iso_a2_420x594mm", ("a2",)),
    (594 * MM, 841 * MM, "iso_a1_594x841mm", ("a1",)),
    (841 * MM, 1189 * MM, "iso_a0_841x1189mm", ("a0",)),
)
_DRIVER = {name: (short, long) for short, long, _, names in _SIZES for name in names}
_POINTS = re.compile(r"w(\d+)h(\d+)")
_WRITTEN = re.compile(r"(?:.*_)?(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)(in|mm|cm)?")
_UNIT = {None: 1.0, "in": 1.0, "mm": MM, "cm": 10 * MM}

VIEWERS = (
    "Open the PDF and print it at actual size, one side, paper as on the sheet:",
    "  Acrobat Reader: Page Sizing & Handling, Size, Actual size",
    "  Chrome, Edge: More settings, Scale, Default (or Actual size), never Fit",
    "  Firefox: Scale 100, never Fit to page width",
    "  Preview on a Mac: Scale 100 %, never Scale to Fit",
    "  Evince (Document Viewer): Page Handling, Page Scaling, None",
    "  Okular: Print Options, Scale mode, None (original size)",
    "Then measure a check bar before you use a sheet.",
)


class CannotSend(OSError):
    """The packet was not handed to a printer; the message says why and what to do."""


def keyword(width: float, height: float) -> str:
    """The PWG 5101.1 name of a sheet *width* x *height* inches, either way up; one of its own size is ``custom``, with
    its size twice: CUPS reads no size in a custom name that gives it only once (tried with 2.4.2)."""
    short, long = sorted((width, height))
    for a, b, name, _ in _SIZES:
        if abs(a - short) < NEAR / 2 and abs(b - long) < NEAR / 2:
            return name
    unit = "in" if all(abs(side * 8 - round(side * 8)) < 1e-6 for side in (short, long)) else "mm"
    factor, digits = (1.0, 3) if unit == "in" else (1 / MM, 2)  # CUPS counts in hundredths of a millimetre
    size = "x".join(f"{side * factor:.{digits}f}".rstrip("0").rstrip(".") for side in (short, long))
    return f"custom_{size}_{size}{unit}"


def printers() -> tuple[str, ...]:
    """The printers that CUPS knows. Raises ``CannotSend`` if it is not there or does not answer."""
    found = tuple(line.strip() for line in _run("lpstat", "-e").splitlines() if line.strip())
    if not found and "not running" in _run("lpstat", "-r"):  # -e alone is silent about that
        raise CannotSend("The print service (CUPS) is installed but does not answer. Start it, then send again.")
    return found


def papers(printer: str) -> tuple[str, ...]:
    """The papers *printer* says it holds, in its driver's names; empty if it does not tell (a raw queue)."""
    for line in _run("lpoptions", "-p", printer, "-l", silent=True).splitlines():
        option, _, values = line.partition(":")
        if option.split("/")[0] == "PageSize":
            return tuple(value.lstrip("*") for value in values.split())
    return ()


def holds(offered: Iterable[str], width: float, height: float) -> bool:
    """Whether one of the driver's names in *offered* is a sheet *width* x *height* inches, either way up, or any size
    goes. What range any size has a driver does not say here."""
    short, long = sorted((width, height))
    for name in offered:
        if name.startswith("Custom."):
            return True
        size = _size(name)
        if size and abs(size[0] - short) < NEAR and abs(size[1] - long) < NEAR:
            return True
    return False


def _size(name: str) -> tuple[float, float] | None:
    """Short and long side, inches, of a driver's page size; ``None`` if the name does not tell."""
    word = name.lower().split(".")[0] if name.count("x") == 0 else name.lower()
    if word in _DRIVER:
        return _DRIVER[word]
    if found := _POINTS.match(word):
        sides = sorted(int(side) / 72 for side in found.groups())
        return sides[0], sides[1]
    if found := _WRITTEN.match(word):
        sides = sorted(float(side) * _UNIT[found[3]] for side in found.groups()[:2])
        return sides[0], sides[1]
    return None


def ready(printer: str, width: float, height: float) -> str:
    """The name of *printer* as CUPS spells it. Raises ``CannotSend`` if there is no such printer, or if it tells its
    papers and a sheet *width* x *height* inches is not among them."""
    known = printers()
    name = next((p for p in known if p.casefold() == printer.casefold()), None)
    if name is None:
        what = nearest(printer, known) if known else "CUPS knows no printer at all; add yours to it first."
        raise CannotSend(f"{shorten(printer)} is not a printer here. {what}")
    offered = papers(name)
    if offered and not holds(offered, width, height):
        held = ", ".join(dict.fromkeys(value.split(".")[0] for value in offered))
        short, long = sorted((width, height))
        raise CannotSend(
            f"{name} does not hold this paper ({short:.5g} x {long:.5g} in). It holds: {shorten(held, 300)}. Print on"
            " one of these with --paper, or put the paper in and tell CUPS."
        )
    return name


def options(width: float, height: float, dpi: int | None = None) -> list[str]:
    """What the job is told, as ``lp`` takes it. ``number-up`` and ``fit-to-page`` stand against defaults that somebody
    may have saved for the printer."""
    told = {
        "print-scaling": "none",
        "fit-to-page": "false",
        "number-up": "1",
        "media": keyword(width, height),
        "sides": "one-sided",
    }
    if dpi:
        told["printer-resolution"] = f"{dpi}dpi"
    return [part for key, value in told.items() for part in ("-o", f"{key}={value}")]


def by_size(pages: Iterable[tuple[float, float]]) -> dict[tuple[float, float], tuple[int, ...]]:
    """The numbers of the pages that go on each size of sheet (short side, long side), in order: a job has one size. No
    numbers where all go on one."""
    found: dict[tuple[float, float], list[int]] = {}
    for number, (width, height) in enumerate(pages, 1):
        sides = sorted((round(width, 3), round(height, 3)))
        found.setdefault((sides[0], sides[1]), []).append(number)
    return {size: tuple(numbers) if len(found) > 1 else () for size, numbers in found.items()}


def send(
    pdf: Path,
    printer: str,
    width: float,
    height: float,
    title: str,
    pages: Sequence[int] = (),
    dpi: int | None = None,
) -> str:
    """Print the file *pdf*, or only its *pages*, on sheets of *width* x *height* inches; CUPS's name of the job.

    Raises ``CannotSend`` as ``ready`` does, and if ``lp`` refuses the job.
    """
    name = ready(printer, width, height)
    words = "".join(c if c.isprintable() else " " for c in title).encode()[:MOST_TITLE].decode(errors="ignore")
    some = ["-P", ",".join(map(str, pages))] if pages else []
    said = _run("lp", "-d", name, "-t", words, *options(width, height, dpi), *some, "--", str(pdf))
    found = re.search(r"\b(\S+-\d+) \(", said)
    return found[1] if found else shorten(said.strip())


def _run(command: str, *arguments: str, silent: bool = False) -> str:
    """What a command of CUPS says; *silent* ones may fail."""
    program = shutil.which(command)
    if program is None:
        raise CannotSend("\n".join(("This computer has no CUPS (no lp command) to send to.", *VIEWERS)))
    try:
        done = subprocess.run(
            [program, *arguments],
            capture_output=True,
            stdin=subprocess.DEVNULL,
            timeout=SECONDS,
            check=False,
            env={**os.environ, "LC_ALL": "C.UTF-8", "LANGUAGE": ""},  # what is looked for in answers is English
        )
    except subprocess.TimeoutExpired:
        raise CannotSend(f"The print service (CUPS) did not answer in {SECONDS} seconds. Try again.") from None
    if done.returncode and not silent:
        raise CannotSend(f"The print service refused it: {_reason(done.stderr, command)}")
    return done.stdout.decode(errors="replace")


def _reason(stderr: bytes, command: str) -> str:
    lines: Sequence[str] = stderr.decode(errors="replace").strip().splitlines()
    return (
        shorten(lines[-1].removeprefix(f"{command}: ").removeprefix("Error - "), 200)
        if lines
        else "it did not say why."
    )
