"""From what a tape says of a ruler page to the printer's profile: the work behind ``rodwright ruler``."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from layouts.languages import ENGLISH_CODE
from layouts.lengths import LengthError, Unit, parse
from layouts.problems import JobRefused, Problem
from sheets import printers, ruler, tongue
from sheets.frame import Footer, finish
from sheets.language import speaking
from sheets.paper import Paper
from sheets.profile import BadMeasure, Profile, Taped, measured

OURS = "rodwright"


def page(paper: Paper, metric: bool, profile: Profile, out: Path) -> None:
    """Write the ruler page for *paper* to *out*, corrected by *profile*. ``JobRefused`` where it does not fit."""
    from sheets import pdf

    speech = tongue.on_paper(OURS, profile.printer)
    with speaking(speech):
        try:
            bodies = ruler.pages(paper, metric, profile)
        except ValueError as error:
            raise JobRefused([Problem("--paper", "", paper.name, f"{error}.")]) from None
        footer = Footer(OURS, profile.date, metric, profile.brief(metric))
        done = [finish(body, footer, number, len(bodies))[0] for number, body in enumerate(bodies, 1)]
    out.parent.mkdir(parents=True, exist_ok=True)
    code = speech.code if speech else ENGLISH_CODE
    pdf.write(out, [replace(p, drawing=profile.correct(p.drawing)) for p in done], "rodwright ruler", lang=code)


def learn(
    numbers: dict[str, str], printer: str, paper: Paper, metric: bool, day: str, again: Profile | None
) -> Profile:
    """The profile that *numbers* (texts by name: along, across, rising, falling, and the unprintable edge) give
    *printer*.

    Raises ``JobRefused`` with every number that is no length, or with the likely cause where they cannot be true.
    """
    unit: Unit = "mm" if metric else "in"
    problems, got = [], {}
    for name, text in numbers.items():
        try:
            got[name] = parse(text, unit)
        except LengthError as error:
            problems.append(Problem(f"--{name}", "", "", f"{error}."))
    if "edge" in got and (wrong := printers.KEYS["edge"](got["edge"])):
        right = "The unprintable edge runs from 0 to 50 mm." if metric else wrong[1]
        problems.append(Problem("--edge", "", numbers["edge"], wrong[0], right))
    if not printer.strip():
        problems.append(Problem("--printer", "", "", "is missing.", "Call the printer by a name of your own."))
    elif wrong := printers.KEYS["name"](printer):
        problems.append(Problem("--printer", "", printer, *wrong))
    if problems:
        raise JobRefused(problems)
    taped = Taped(got["along"], got["across"], got["rising"], got["falling"])
    try:
        return measured(ruler.bars(paper, metric), taped, printer, paper.name, day, got["edge"], again)
    except BadMeasure as error:
        raise JobRefused([Problem("ruler page", "", "", str(error))]) from None


def known(path: Path, printer: str, paper: Paper, again: bool) -> Profile:
    """The profile that a ruler page is printed with: none but the name, or with *again* the one
    measured before."""
    if not again:
        return Profile(printer)
    return printers.choose(printers.load(path), paper.name, printer)
