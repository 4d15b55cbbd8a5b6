"""The page for the phone changed in one place, the way a slip of its writer would: every change is told, with both
values, and nothing else is."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from pathlib import Path

import faults
import pytest
from faults import Bench
from msgspec.structs import replace

from layouts.building import Building
from layouts.costs import Cost, Warned
from layouts.lengths import show
from sheets import audit_html, audit_phone, html, packet
from sheets.audit_model import Difference, Plan
from sheets.audit_stale import stale
from sheets.audit_svg import Unreadable

FILE = "index.html"


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    """Tags alone: their page has a list, a strip and sheets."""
    return faults.bench(tmp_path_factory.mktemp("phone") / "tags", "tags")


@pytest.fixture
def spoil(bench: Bench) -> Callable[..., list[Difference]]:
    """What is told of the page with one thing in it put for another, the first time it stands there."""
    path = bench.folder / FILE
    whole = path.read_bytes()

    def spoiled(old: str, new: str, after: str = "") -> list[Difference]:
        text = whole.decode()
        at = text.index(old, text.index(after) if after else 0)
        path.write_text(text[:at] + new + text[at + len(old) :], encoding="utf-8", newline="\n")
        try:
            return list(audit_phone.check(bench.packet, bench.building, bench.folder, Plan))
        finally:
            path.write_bytes(whole)

    return spoiled


Spoil = Callable[..., list[Difference]]


def one(found: list[Difference], place: str) -> Difference:
    """The only thing that is told, and it is about this place."""
    assert [d.place for d in found] == [place], found
    return found[0]


def low(building: Building) -> tuple[str, str, str]:
    """A column with a fraction in its offset: its name, the offset, another one."""
    column = next(c for c in building.columns if "/" in show(c.offset, building.job.style))
    want = show(column.offset, building.job.style)
    return column.name, want, show(column.offset + 1, building.job.style)


# --- what it says -----------------------------------------------------------------------------------------------------


def test_a_page_that_is_right_passes(bench: Bench) -> None:
    assert list(audit_phone.check(bench.packet, bench.building, bench.folder, Plan)) == []
    assert bench.found() == []


def test_an_offset_in_the_list(bench: Bench, spoil: Spoil) -> None:
    name, want, other = low(bench.building)
    found = one(spoil(audit_text(want), audit_text(other), f'id="row-{name}"'), f"column {name}, offset")
    assert (found.want, found.found) == (want, other)


def audit_text(words: str) -> str:
    return html.text(words)


def test_a_cut_in_the_list(bench: Bench, spoil: Spoil) -> None:
    column = bench.building.columns[2]
    cut = column.cuts[0]
    want = show(column.up(cut.station), bench.building.job.style)
    found = spoil(audit_text(want), audit_text(want.replace("'-", "'-1", 1)), f'id="row-{column.name}"')
    assert one(found, f"column {column.name}, {cut.name} {cut.where}").want == want


def test_two_heights_in_each_others_place(bench: Bench, spoil: Spoil) -> None:
    """Both figures are on the line still."""
    column = bench.building.columns[0]
    style = bench.building.job.style
    long, short = (show(column.up(c.station), style) for c in (column.cuts[2], column.cuts[1]))
    old = f"LONG POINT <i>inside face</i></span> <b>{audit_text(long)}"
    told = spoil(old, old.replace(audit_text(long), audit_text(short)), f'id="row-{column.name}"')
    assert (one(told, f"column {column.name}, LONG POINT inside face").found) == short


@pytest.mark.parametrize("word", ["LOW", "LONGER"])
def test_high_for_low(bench: Bench, spoil: Spoil, word: str) -> None:
    told = spoil(word, {"LOW": "HIGH", "LONGER": "SHORTER"}[word], 'id="row-A2"')
    assert one(told, "column A2").want in (bench.building.columns[1].seat, bench.building.columns[1].longer)


def test_what_is_read_aloud_for_a_tag(bench: Bench, spoil: Spoil) -> None:
    name, want, other = low(bench.building)
    told = spoil(f"offset {escape(want)}", f"offset {escape(other)}", f'id="tag-{name}"')
    assert one(told, f"tag {name}, read aloud").want.startswith(f"offset {want}")


def test_a_figure_in_a_tags_picture(bench: Bench, spoil: Spoil) -> None:
    """The great figures of the offset: told against the drawing and against the layout."""
    name, want, _ = low(bench.building)
    whole = want.split()[0]
    told = spoil(f">{whole}</text>", f">{int(whole) + 1}</text>", f'id="tag-{name}"')
    assert {d.sheet for d in told} == {f"{FILE} tag {name}"}
    assert any(d.place == f"tag {name}, offset" and d.want == want for d in told)
    assert any(f"'{int(whole) + 1}'" in d.found for d in told)


def test_a_line_in_a_picture_moved(bench: Bench, spoil: Spoil) -> None:
    """Two thousandths of an inch: twice what may be."""
    text = (bench.folder / FILE).read_text(encoding="utf-8")
    stroke = re.search(r'd="M(\d+) ', text[text.index('id="page-1"') :])
    assert stroke is not None
    told = spoil(f'd="M{stroke[1]} ', f'd="M{int(stroke[1]) + 2} ', 'id="page-1"')
    assert [d.sheet for d in told] == [f"{FILE} page 1 ({bench.packet.sheets[0].title})"]


def test_words_squeezed_in_a_picture(spoil: Spoil) -> None:
    assert spoil('textLength="', 'textLength="1', 'id="page-1"')


def test_a_stamp(bench: Bench, spoil: Spoil) -> None:
    code = bench.packet.sheets[0].parts[0][1]
    assert one(spoil(code, "22222", "<article"), "tags").found.endswith("stamp 22222")
    code = bench.packet.sheets[1].stamp
    assert one(spoil(code, "22222", 'id="page-2"'), "sheets").found.endswith("stamp 22222")


def test_a_warning_left_out_or_changed(bench: Bench, spoil: Spoil) -> None:
    warning = bench.building.warnings[0]
    found = one(spoil(f"<li>{audit_text(warning)}</li>", ""), "warnings")
    assert found.found.startswith(f"{len(bench.building.warnings) - 1}:")
    found = one(spoil(audit_text(warning), "All is well.", 'id="warnings"'), "warnings")
    assert (found.want, found.found) == (warning, "All is well.")


def test_a_column_left_out(bench: Bench, spoil: Spoil) -> None:
    text = (bench.folder / FILE).read_text(encoding="utf-8")
    row = re.search(r'<tr id="row-A2">.*?</tr>', text, re.DOTALL)
    assert row is not None
    assert any(d.place == "columns" for d in spoil(row[0], ""))


def test_a_name_that_leads_to_another_tag(spoil: Spoil) -> None:
    assert one(spoil('href="#tag-A2"', 'href="#tag-A3"'), "link A2").found.startswith("Tag A3 · stamp ")


def test_another_job(spoil: Spoil, bench: Bench) -> None:
    name = bench.building.job.job.name
    assert one(spoil(f"<h1>{name}", "<h1>Another barn"), "name").want == name


# --- what has no business in it ---------------------------------------------------------------------------------------

MORE = {
    "script": ("<main>", "<main><script>1</script>", "script"),
    "event": ("<main>", '<main onclick="1">', "onclick"),
    "picture": ("<main>", '<main><img src="https://example.com/a">', "img"),
    "address": ('href="#sheets"', 'href="https://example.com/"', "https://example.com/"),
    "style": ('style="--in:', 'style="background:url(a);--in:', "background"),
    "drawn event": ("<path ", '<path onload="1" ', "onload"),
    "drawn link": ("<text ", '<image href="a"/><text ', "image"),
    "comment": ("<main>", "<main><!-- a -->", "comment"),
    "open": ("</section>", "", "open"),
    "twice": ('id="tags"', 'id="sheets"', "more than one sheets"),
    "nowhere": ('href="#sheets"', 'href="#shets"', "nowhere"),
}


@pytest.mark.parametrize("what", MORE)
def test_what_has_no_business_in_it(spoil: Spoil, what: str) -> None:
    old, new, named = MORE[what]
    assert any(named in difference.found for difference in spoil(old, new))


def test_another_typeface_or_policy(spoil: Spoil) -> None:
    assert one(spoil("base64,AAEAAAA", "base64,AAEAAAB"), "style").found == "another file"
    assert one(spoil("default-src 'none'".replace("'", "&#x27;"), "default-src *"), "policy")


@pytest.mark.parametrize("source", [b"", b"\xff", b"<svg >", b"<svg viewBox='0 0 1 1'><text></svg>"])
def test_what_is_no_page_is_told(bench: Bench, source: bytes, tmp_path: Path) -> None:
    (tmp_path / FILE).write_bytes(source)
    assert list(audit_phone.check(bench.packet, bench.building, tmp_path, Plan))


def test_a_page_that_is_not_to_be_read_says_so() -> None:
    with pytest.raises(Unreadable):
        audit_html.read(b'<svg viewBox="0 0 1 1"><text></svg>')


def test_a_file_that_is_missing(bench: Bench, tmp_path: Path) -> None:
    assert [str(d) for d in audit_phone.check(bench.packet, bench.building, tmp_path, Plan)] == [
        f"{FILE}: file: should be there, is missing"
    ]


# --- later ------------------------------------------------------------------------------------------------------------


def test_a_later_audit_tells_a_page_that_was_changed_or_is_stale(bench: Bench) -> None:
    path = bench.folder / FILE
    whole = path.read_bytes()
    assert stale(bench.folder, bench.packet) == []
    try:
        path.write_bytes(whole.replace(b"LOW", b"HIGH", 1))
        assert stale(bench.folder, bench.packet) == [f"{FILE}: changed on disk since it was printed"]
        path.unlink()
        assert stale(bench.folder, bench.packet) == [f"{FILE}: missing"]
    finally:
        path.write_bytes(whole)
    warned = replace(bench.building, warned=(*bench.building.warned, Warned(Cost.LOOK, "The laser was kicked.")))
    now = packet.build(warned, bench.packet.paper, "tags")
    assert stale(bench.folder, now) == [f"{FILE}: stale: the job now gives another"]
