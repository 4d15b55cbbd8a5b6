"""What the commands that print have in common: a packet built, printed and told of, and one held against another."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from layouts.problems import JobRefused, Problem
from sheets import ahead, tongue
from sheets.cli_app import Wish, config, tell
from sheets.progress import Bar, bar
from sheets.terminal import say, width

if TYPE_CHECKING:
    from layouts.building import Building
    from sheets.changes import Changes
    from sheets.held import Held
    from sheets.packet import Packet
    from sheets.paper import Paper
    from sheets.profile import Profile

LOADING = "Laying out the job"


class NotReleased(Exception):
    """A packet's files do not hold what they should: *lines* say where."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))


def loaded(job: Path, readings: Path | None, told: Bar) -> Building:
    """The building of a job."""
    with ahead.solver() as solve, told.waiting(LOADING):
        from sheets.load import load

        building = load(job, readings, solve)
    tongue.speak_of(building.job, building.readings)
    return building


def built(job: Path, readings: Path | None, wish: Wish, told: Bar, held: Held | None = None) -> tuple[Building, Packet]:
    """The building of a job, and its packet as this printer and paper want it; *held* says what a part of one holds."""
    building = loaded(job, readings, told)
    from sheets import packet

    sheet, profile = _paper_of(job, building, wish)
    return building, packet.build(building, sheet, wish.only, profile, held, told)


def _paper_of(job: Path, building: Building, wish: Wish) -> tuple[Paper, Profile]:
    """The paper to print on and what its printer does."""
    from sheets import printers
    from sheets.paper import find

    sheet = find(wish.paper or building.job.job.paper)
    held = job.parent / printers.FILE
    profiles = printers.load(held if held.exists() else config())
    profile = printers.choose(profiles, sheet.name, wish.printer)
    if sheet.roll and wish.only != "rods" and not profile.plain:
        right = "Print the rods with --only rods, and the packet again with --paper letter or the like."
        raise JobRefused(
            [Problem("--paper", "", sheet.name, "is corrected for the roll, not for other sheets.", right)]
        )
    return sheet, profile


def _stale(
    job: Path, readings: Path | None, out: Path, wish: Wish, folder: Path, told: Bar
) -> tuple[Building, Packet | None, Changes]:
    """The building, a packet of what the one in *folder* does not have as it is now (``None`` if it has all), and what
    has changed."""
    from sheets import compare, sides

    compare.refuse_same(out, folder)
    building = loaded(job, readings, told)
    wish = replace(wish, paper=wish.paper or sides.as_printed(folder)[0])
    sheet, profile = _paper_of(job, building, wish)
    found, packet = compare.stale(folder, building, sheet, wish.only, profile)
    return building, packet, found


def printed(job: Path, readings: Path | None, out: Path, wish: Wish, beside: dict[str, bytes]) -> None:
    """Print a packet into *out*, read it back, send it if it is wished, and say so.

    Raises ``NotReleased`` where its files do not read back right.
    """
    found: Changes | None = None
    part: Packet | None
    with bar(wish.quiet) as told:
        if wish.stale:
            building, part, found = _stale(job, readings, out, wish, wish.stale, told)
        else:
            building, part = built(job, readings, wish, told)
        written = _written(part, building, out, wish, beside, told) if part else []
    if found and not wish.silent:
        say_changes(found)
    if part and not wish.silent:
        _say(building, out, len(part.sheets), written[0].name)
    sent = _sent(part, written, wish) if part and wish.send else []
    if wish.as_json:
        tell(_as_json(building, part, out, written, found, sent))
    elif not wish.quiet:
        for one in sent:
            say(f"Sent to the printer as {one}.")


def _written(
    packet: Packet, building: Building, out: Path, wish: Wish, beside: dict[str, bytes], told: Bar
) -> list[Path]:
    """The files of a packet, read back before they are released."""
    from sheets import packet as packets

    def check(folder: Path) -> None:
        from sheets.audit import differences

        found = differences(packet, building, folder, packet.profile, told)
        if found:
            raise NotReleased([str(difference) for difference in found])

    if wish.send:
        from sheets import send

        for width_, height in send.by_size(_sizes(packet)):
            send.ready(wish.send, width_, height)  # before anything is written
    return packets.save(packet, out, wish.png, beside, wish.svg_parts, check, told)


def _sizes(packet: Packet) -> list[tuple[float, float]]:
    return [(s.page.drawing.width, s.page.drawing.height) for s in packet.sheets]


def _sent(packet: Packet, written: list[Path], wish: Wish) -> list[str]:
    """What the printer's queue calls the packet, size by size."""
    from sheets import send

    sizes = send.by_size(_sizes(packet))
    return [send.send(written[0], wish.send, w, h, packet.title, pages) for (w, h), pages in sizes.items()]


def compared(old: Path, new: Path, old_readings: Path | None, new_readings: Path | None) -> Changes:
    """What has changed from a job or packet to another."""
    from sheets import compare, sides

    both = sides.read(old, old_readings, "--old-readings"), sides.read(new, new_readings, "--new-readings")
    for side in both:
        if side.building:
            tongue.speak_of(side.building.job, side.building.readings)
    return compare.compare(*both)


def say_changes(found: Changes) -> None:
    """The same, line by line."""
    from sheets import changes

    tongue.also(found.old, found.new, *found.own)
    for line in changes.lines(found):
        say(line)


def _say(building: Building, out: Path, pages: int, first: str) -> None:
    """Warnings, what is written, and what comes next."""
    warn(building)
    tongue.also(out / first, out / "index.html")
    say(f"{pages} page{'s' * (pages > 1)} in {out / first}")
    say(f"For the phone, to read and not to measure: {out / 'index.html'}")
    say("Print at ACTUAL SIZE (100 %), never fit to page, and measure a check bar before you use a sheet.")


def warn(building: Building) -> None:
    """Warnings on standard error, what costs most first."""
    if width(sys.stderr) and building.warned:
        from sheets import screen

        screen.warnings(building.warned, sys.stderr)
        say(err=True)
        return
    for text in building.warnings:
        say(f"! {text}", err=True)


def _as_json(
    building: Building, packet: Packet | None, out: Path, written: list[Path], found: Changes | None, sent: list[str]
) -> dict[str, Any]:
    """What was printed, for programs."""
    from sheets import changes

    return {
        "folder": str(out),
        "pages": len(packet.sheets) if packet else 0,
        "files": [path.name for path in written],
        "warnings": list(building.warnings),
        "at_stake": [one.cost.name.lower() for one in building.warned],
        "changes": changes.as_json(found) if found else None,
        "sent": sent,
    }
