"""What a packet holds of its building where it does not hold all: the sheets that were printed anew."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from layouts.building import Building
from sheets.changes import Changes, Item, as_json, from_json
from sheets.strip import title

ROLLED = "Rods"  # on a roll rods lie side by side: one is not replaced without the others
PARTED = ("rods", "tags", "walls")  # kinds of which a packet may hold some and not others
_NUMBER = re.compile(r"(?<![Ww]all)(?:, part)? [0-9]+(?: of [0-9]+)?$")  # of a page; walls have numbers too

On = tuple[str, float]  # name of a paper, margin


class Row(Struct, frozen=True):
    """A tag or sheet as a packet lists it; *on* is what it was drawn for, ``None`` where the packet does not say."""

    kind: str
    title: str
    stamp: str
    on: On | None

    @property
    def unit(self) -> tuple[str, str]:
        """What it belongs to and is replaced with: its kind, and the tag, rod, wall or list that it is a sheet of."""
        return self.kind, unit(self.kind, self.title)


def unit(kind: str, name: str) -> str:
    """The tag, rod, wall or list that the sheet called *name* is one of."""
    if kind == "tags":
        return name
    if kind == "rods":
        rod, lanes, _ = name.partition(": lane")
        return rod if lanes else ROLLED
    if kind == "walls":
        return name.partition(",")[0]
    return _NUMBER.sub("", name)


class Held(Struct, frozen=True):
    """*columns* whose tags, *rods* (by title) and *walls* (by name) a packet holds, and further *kinds* of sheets
    whole. *changes* is what its first sheet tells; *kept* lists the sheets printed before that are still good."""

    columns: frozenset[str]
    rods: frozenset[str]
    walls: frozenset[str]
    kinds: frozenset[str]
    changes: Changes
    kept: tuple[Row, ...] = ()

    def part(self, building: Building) -> Building:
        """*building* with the held columns, rods and walls alone."""
        return replace(
            building,
            columns=tuple(c for c in building.columns if c.name in self.columns),
            rods=tuple(r for r in building.rods if title(r) in self.rods),
            walls=tuple(w for w in building.walls if w.name in self.walls),
        )

    def printed(self, stamps: Iterable[tuple[str, str, str]]) -> Changes:
        """The changes with the new stamps as they are printed, by (kind, title, stamp): on other paper than the old
        sheets they may differ from those that the two were compared by."""
        of: dict[tuple[str, str], list[str]] = {}
        for kind, name, code in stamps:
            of.setdefault((kind, unit(kind, name)), []).append(code)
        return replace(self.changes, items=tuple(_restamped(item, of) for item in self.changes.items))

    def as_json(self) -> dict[str, object]:
        """For the manifest."""
        return {
            "holds": {key: sorted(getattr(self, key)) for key in ("columns", "rods", "walls", "kinds")},
            "kept": [{"kind": r.kind, "title": r.title, "stamp": r.stamp, "on": r.on} for r in self.kept],
            "changes": as_json(self.changes),
        }


def _restamped(item: Item, of: Mapping[tuple[str, str], Sequence[str]]) -> Item:
    codes = of.get((item.kind, item.name)) or of.get((item.kind, ROLLED)) or []
    if not codes or set(item.new) <= set(codes):
        return item
    return replace(item, new=tuple(codes))


def held(manifest: Mapping[str, Any]) -> Held | None:
    """What the packet with this *manifest* holds if not all of its building, ``None`` if all."""
    try:
        sets = {key: frozenset(map(str, manifest["holds"][key])) for key in ("columns", "rods", "walls", "kinds")}
        return Held(changes=from_json(manifest["changes"]), kept=kept(manifest), **sets)
    except (LookupError, TypeError, ValueError):
        return None


def kept(manifest: Mapping[str, Any]) -> tuple[Row, ...]:
    """The sheets printed before that the packet with this *manifest* goes on from."""
    return tuple(
        Row(str(r["kind"]), str(r["title"]), str(r["stamp"]), (str(r["on"][0]), float(r["on"][1])) if r["on"] else None)
        for r in manifest.get("kept", ())
    )
