"""The columns on the page for the phone: the names to touch, the list with offsets and cuts, and every tag as large as
the phone is wide."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from typing import TYPE_CHECKING

from layouts.building import Building
from layouts.columns import Column
from layouts.lengths import show
from sheets.html import Html, element, text
from sheets.parts import file_names
from sheets.picture import picture
from sheets.shapes import Drawing
from sheets.tag import standard, tag
from sheets.tag_words import AGAIN, fitted, offset_from

if TYPE_CHECKING:
    from sheets.packet import Sheet

_PARTS = re.compile(r"\d+|\D+")


def sections(building: Building, sheets: Sequence[Sheet]) -> list[Html]:
    """The list and the tags of the columns of *building* if *sheets* hold their tags; else nothing."""
    tags = _tags(building, sheets)
    if not tags:
        return []
    columns = building.columns
    names = dict(zip((c.name for c in columns), file_names(c.name for c in columns), strict=True))
    return [_columns(building, columns, names), _strip(building, columns, names, tags)]


def _columns(building: Building, columns: Sequence[Column], names: dict[str, str]) -> Html:
    """First every name to touch, in the order a name is looked for; then the list in walking order, like all sheets."""
    unread = {name: f"no-tag-{number}" for number, name in enumerate(building.grade.unread, 1)}
    places = {name: f"tag-{place}" for name, place in names.items()} | unread
    heads = [
        element("th", text("Column"), scope="col"),
        element("th", text("Offset, up from the bottom end"), scope="col", class_="offset"),
        element("th", text("Cuts, from the bottom end"), scope="col"),
    ]
    rows = [_row(building, column, names[column.name]) for column in columns]
    rows += [_unread(*pair) for pair in unread.items()]
    return element(
        "section",
        element("h2", text("Columns"), id="columns-head"),
        element("p", text("Touch a name for its tag.")),
        _pick(places, unread),
        element(
            "div",
            element(
                "table",
                element("thead", element("tr", *heads)),
                Html("\n"),
                element("tbody", Html("\n".join(rows))),
                aria_labelledby="columns-head",
            ),
            class_="list",
        ),
        id="columns",
        aria_labelledby="columns-head",
    )


def _pick(places: Mapping[str, str], unread: Collection[str]) -> Html:
    """Every name, leading to its place."""
    links = [
        element("a", text(name), href=f"#{places[name]}", class_="dashed" if name in unread else "solid")
        for name in sorted(places, key=_sought)
    ]
    return element("ul", *(element("li", link) for link in links), class_="pick")


def _sought(name: str) -> list[tuple[bool, int, str]]:
    """The order that names are looked for in: numbers by what they count."""
    return [(part.isdecimal(), int(part) if part.isdecimal() else 0, part) for part in _PARTS.findall(name)]


def _row(building: Building, column: Column, name: str) -> Html:
    style = building.job.style
    below = [element("span", text(f"BELOW THE {_new(column)}BOTTOM END"), class_="again")] if column.offset < 0 else []
    told = [element("span", text(words), class_="small") for words in (column.seat, column.longer)]
    again = [element("span", text(AGAIN), class_="again")] if column.flagged else []
    if column.fit.cut_off and column.offset >= 0:
        told.insert(0, element("span", text("up from the NEW bottom end"), class_="small"))
    offset = element("span", text(show(abs(column.offset), style)), class_="big")
    cuts = [
        element(
            "li",
            element("span", text(called), Html(" "), element("i", text(where))),
            Html(" "),
            element("b", text(show(inches, style))),
        )
        for called, where, inches in rows_of(column)
    ]
    return element(
        "tr",
        element("th", element("a", text(column.name), href=f"#tag-{name}"), scope="row"),
        element("td", offset, *below, *told, *again, class_="offset"),
        element("td", element("ul", *cuts, class_="cuts")),
        id=f"row-{name}",
    )


def _new(column: Column) -> str:
    return "NEW " if column.fit.cut_off else ""


def rows_of(column: Column) -> list[tuple[str, str, float]]:
    """What is cut and fitted: name, where, inches from the bottom end, highest first, as on the tag."""
    ordered = sorted(column.cuts, key=lambda cut: -cut.station)
    return [(cut.name, cut.where, column.up(cut.station)) for cut in ordered] + fitted(column.fit)


def _unread(name: str, place: str) -> Html:
    """A column that has no tag must not be looked for in vain."""
    cell = element("td", text("NOT READ: NO TAG"), class_="none", colspan="2")
    return element("tr", element("th", text(name), scope="row"), cell, id=place)


# --- tags -----------------------------------------------------------------------------------------------------------


def _tags(building: Building, sheets: Sequence[Sheet]) -> list[tuple[str, Drawing]]:
    """Stamp and drawing of every tag that *sheets* hold, in walking order; drawn as two to a page, whatever they are
    printed on: as large as a phone is wide, it can be read."""
    codes = dict(part for sheet in sheets if sheet.kind == "tags" for part in sheet.parts)
    own = standard(building.job)
    return [(codes[f"Tag {c.name}"], tag(building, c, own)[0]) for c in building.columns if f"Tag {c.name}" in codes]


def _strip(
    building: Building, columns: Sequence[Column], names: dict[str, str], tags: Sequence[tuple[str, Drawing]]
) -> Html:
    """The tags side by side, each as wide as the phone."""
    found = []
    for i, (column, (code, drawing)) in enumerate(zip(columns, tags, strict=True)):
        name = names[column.name]
        around = _around(names, columns[i - 1], column, columns[(i + 1) % len(columns)])
        found.append(
            element(
                "article",
                element("h3", text(f"Tag {column.name}  ·  stamp {code}")),
                picture(drawing, _said(building, column, code)),
                element("div", *around, class_="around"),
                id=f"tag-{name}",
                class_="tag",
            )
        )
    return element(
        "section",
        element("h2", text("Tags"), id="tags-head"),
        element("p", text("One swipe a tag, in walking order.")),
        element(
            "div", Html("\n".join(found)), class_="strip", tabindex="0", role="region", aria_label="Tags side by side"
        ),
        id="tags",
        aria_labelledby="tags-head",
    )


def _around(names: dict[str, str], before: Column, column: Column, after: Column) -> list[Html]:
    """The ways from a tag to those beside it and to its line in the list."""
    return [
        element(
            "a",
            text(f"‹ {before.name}"),
            href=f"#tag-{names[before.name]}",
            aria_label=f"‹ {before.name}  ·  tag before",
        ),
        element(
            "a",
            text("In the list"),
            href=f"#row-{names[column.name]}",
            aria_label=f"In the list  ·  column {column.name}",
        ),
        element(
            "a",
            text(f"{after.name} ›"),
            href=f"#tag-{names[after.name]}",
            aria_label=f"{after.name} ›  ·  next tag",
        ),
    ]


def _said(building: Building, column: Column, code: str) -> str:
    """A tag in words, for whoever has it read aloud."""
    style = building.job.style
    cuts = [f"{': '.join(w for w in row[:2] if w)}: {show(row[2], style)}" for row in rows_of(column)]
    return "; ".join(
        [
            f"Tag {column.name}, stamp {code}",
            f"offset {show(abs(column.offset), style)}, {offset_from(column).removesuffix(' by')}",
            column.seat,
            column.longer,
            *([AGAIN] if column.flagged else []),
            *cuts,
        ]
    )
