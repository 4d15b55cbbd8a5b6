"""What the sheets of each kind say, held against the layout."""

from __future__ import annotations

from collections.abc import Sequence

from layouts.building import Building
from sheets import audit_cladding, audit_numbers, audit_rods, audit_templates
from sheets.audit_model import Difference, Seen
from sheets.packet import Sheet


def numbers(
    name: str, sheets: Sequence[Sheet], seen: Sequence[Seen], building: Building, part: Building
) -> list[Difference]:
    """Differences between the pages *seen* of the *sheets* of a file and the layout. Of a kind that is there at all,
    all is there that belongs to the *part* of *building* that the packet holds."""
    of: dict[str, list[Seen]] = {}
    titled = list(zip((s.title for s in sheets), seen, strict=True))
    for sheet, page in zip(sheets, seen, strict=True):
        of.setdefault(sheet.kind, []).append(page)
    told: list[Difference] = []
    if "rods" in of:
        told += audit_rods.check(of["rods"], part, name)
    if "tags" in of:
        told += audit_numbers.tags(of["tags"], part, name)
    if "cuts" in of:
        told += audit_numbers.cuts(of["cuts"], building, name)
    if "roof" in of:
        told += audit_templates.roof(of["roof"], building)
    if "templates" in of:
        told += audit_templates.check([t for t in titled if t[0].startswith("Template ")], building, name)
    if "cladding" in of:
        told += audit_cladding.check([t for t in titled if t[0].startswith("Sheets")], building, name)
    for wall in part.walls if "walls" in of else ():
        title = f"Wall {wall.name}"
        pages = [page for own, page in titled if own == title or own.startswith(f"{title},")]
        if pages:
            told += audit_numbers.wall(pages, wall, building)
        else:
            told.append(Difference(name, title, "a diagram", "none"))
    return told
