"""What is compared: a job, by its building, or a packet, by what it lists of itself."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from layouts.building import Building
from layouts.problems import JobRefused, Problem
from sheets import audit_stale, packet, report
from sheets.audit import manifest
from sheets.held import Held, On, Row, held, kept
from sheets.kinds import KINDS
from sheets.load import load
from sheets.paper import NoPaper, find


class Side(Struct, frozen=True):
    """One of the two: a job by its *building*, or a packet by the *rows* it lists. *numbers* are those of
    ``report.as_json``, empty where a packet does not hold them; *on* what it was drawn for (of a job: its paper),
    ``None`` where a packet does not say; *only* the one kind of sheets of a packet that has no other."""

    name: str
    numbers: Mapping[str, Any]
    on: On | None
    only: str | None = None
    rows: tuple[Row, ...] = ()
    building: Building | None = None

    @property
    def kinds(self) -> list[str]:
        """The kinds of sheets that are compared."""
        return [self.only] if self.only else list(KINDS)


def read(path: Path, readings: Path | None = None, option: str = "--readings") -> Side:
    """The job file or the packet folder at *path*; *readings* are a job's, named by *option* in the messages.

    Raises ``JobRefused``, its files named by their whole paths, where *path* is neither or its job is refused.
    """
    if path.is_dir():
        if readings:
            wrong = f"is for a job file; {path} is a folder, its packet holds what was read."
            raise JobRefused([Problem(option, "", str(readings), wrong, "Leave it out.")])
        return of_packet(path)
    try:
        return of_job(load(path, readings), str(path))
    except JobRefused as refused:
        # by their whole paths: two jobs may be called alike
        whole = {known.name: str(known) for known in (readings or path.with_suffix(".csv"), path)}
        texts = {whole.get(name, name): text for name, text in refused.texts.items()}
        problems = [replace(p, file=whole.get(p.file, p.file)) for p in refused.problems]
        raise JobRefused(problems, texts) from None


def of_job(building: Building, name: str) -> Side:
    """The side of a job."""
    paper = find(building.job.job.paper)
    return Side(name, report.as_json(building), (paper.name, paper.margin), building=building)


def of_packet(folder: Path, name: str = "") -> Side:
    """The side of the packet in *folder*, called *name*. Raises ``JobRefused`` where there is none."""
    about = manifest(folder)
    try:
        on = _on(about)
        kinds = [kind for kind, _ in audit_stale.kinds([str(file) for file in about["files"]])]
        listed = [(int(r["page"]), str(r["title"]), str(r["stamp"])) for r in about["sheets"]]
        rows = [Row(kinds[page - 1], called, code, on) for page, called, code in listed]
        rows += kept(about)
        for row in rows:
            find(row.on[0] if row.on else "letter")
    except (LookupError, TypeError, ValueError):
        wrong = f"holds no packet of ours: {packet.MANIFEST} is missing or not to be read."
        right = "Give the folder that a packet was printed into, or a job file (TOML)."
        raise JobRefused([Problem(str(folder), "", "", wrong, right)]) from None
    own = tuple(row for row in rows if row.kind != "index")
    return Side(name or str(folder), _numbers(folder, about), on, audit_stale.alone(folder), own)


def _on(about: Mapping[str, Any]) -> On | None:
    """What a packet was drawn for; older ones do not say."""
    try:
        return find(str(about["paper"])).name, float(about["margin"])
    except (KeyError, NoPaper):
        return None


def _numbers(folder: Path, about: Mapping[str, Any]) -> Mapping[str, Any]:
    """The numbers that a packet was printed from, if it holds them as they were written."""
    try:
        data = (folder / packet.NUMBERS).read_bytes()
        known: str = about["sha256"][packet.NUMBERS]
        found = json.loads(data) if hashlib.sha256(data).hexdigest() == known else {}
    except (FileNotFoundError, LookupError, TypeError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def as_printed(folder: Path) -> tuple[str | None, str | None, Held | None]:
    """How the packet in *folder* was drawn: its paper, its one kind of sheets, and what it holds of its building, each
    ``None`` where there is nothing to say. ``packet.build`` needs it to draw the packet again."""
    about = manifest(folder)
    on = _on(about)
    return on[0] if on else None, audit_stale.alone(folder), held(about)
