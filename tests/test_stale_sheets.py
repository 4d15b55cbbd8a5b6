"""The packet of stale sheets: which sheets it holds, how it goes on from itself, and what its audit finds."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import boxes
import jobs
import pytest
from compared import AGAIN, FIXED, LETTER, READ, building, codes, item, names, printed, release, saved, words
from faults import edited, reads
from msgspec.structs import replace

from layouts.building import Building
from layouts.problems import JobRefused
from sheets import audit_stale, changes, packet, pdf, svg
from sheets.audit import differences
from sheets.compare import compare, refuse_same, stale
from sheets.packet import Packet
from sheets.paper import PAPERS
from sheets.sides import as_printed, of_job, of_packet

__all__ = ["printed", "saved"]


# --- stale sheets printed anew ----------------------------------------------------------------------------------------


def test_a_stale_packet_holds_the_stale_sheets_alone_and_reads_back_right(printed: Path, tmp_path: Path) -> None:
    made = building(rows={"A3": "45 13/16", "C1": "44 1/2"})
    found, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    # two tags that stood on pages with good ones before stand on one page now
    assert [s.title for s in built.sheets if s.kind == "tags"] == ["Tags A3 and C1"]
    walls = [f"Wall {name}{what}" for name in "AC1" for what in ("", ", lift and nails")]
    assert [s.title for s in built.sheets if s.kind == "walls"] == walls
    assert built.sheets[0].kind == "index"
    assert not [s for s in built.sheets if s.kind == "rods"]
    assert built.whole == ()
    now = codes(made)
    for sheet in (s for s in built.sheets if s.kind != "index"):
        for title, code in sheet.parts or ((sheet.title, sheet.stamp),):
            assert code == now[title]
    assert names(found) == [
        "Tag A3",
        "Tag C1",
        "Wall A",
        "Wall C",
        "Wall 1",
        "Cut sheet",
        "Mark table",
        "Grade sheet",
        "Index",
    ]


def test_a_rod_is_printed_whole(printed: Path, tmp_path: Path) -> None:
    made = building({"truss.bearing": "12'-1"})
    _, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    assert [s.title for s in built.sheets if s.kind == "rods"] == [
        t
        for t in codes(made)
        if "lane" in t and not t.startswith("Roof rod")  # no slope is another one
    ]
    assert len(built.whole) == 2


def test_the_changes_page_tells_which_old_tags_come_off(printed: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER)
    assert built is not None
    found = [t.words for t in boxes.written(built.sheets[0].page.drawing.shapes)]
    at = found.index("Tag A3")
    assert found[at : at + 3] == ["Tag A3", codes(building())["Tag A3"], codes(made)["Tag A3"]]
    assert "TAKE OFF THE COLUMNS" in found
    assert not [t for t in found if str(printed.parent) in t], "no whole path on a sheet"


@pytest.mark.parametrize("name", ["letter", "a4", "legal"])
@pytest.mark.parametrize("given", [{"truss.bearing": "13'"}, {"girts.step": "18"}, {"job.units": "metric"}])
def test_words_of_the_changes_pages_stand_clear(name: str, given: dict[str, Any]) -> None:
    one = of_job(building(), "the packet of last week, which has a long name")
    metric = "job.units" in given
    made = jobs.build(base=jobs.METRIC) if metric else building(given, {"A2": "47 1/8"})
    found = compare(one, of_job(made, "new"))
    bodies = changes.pages(found, made.job.job.name, PAPERS[name])
    assert bodies
    for body in bodies:
        assert boxes.faults(body.drawing, body.paper) == []


def test_nothing_stale_nothing_printed(printed: Path) -> None:
    found, built = stale(printed, building(), LETTER)
    assert not found.stale
    assert built is None


def test_a_tag_that_only_comes_off_is_told_by_the_changes_page_alone(tmp_path: Path) -> None:
    packet.save(packet.build(building(), LETTER, "tags"), tmp_path / "tags")
    made = jobs.build(FIXED, {name: value for name, value in READ.items() if name != "A2"})
    found, built = stale(tmp_path / "tags", made, LETTER)
    assert [(i.name, i.state) for i in found.items] == [("Tag A2", "gone")]
    assert release(built, made, tmp_path / "stale") == []
    assert sorted(p.name for p in (tmp_path / "stale").glob("*.pdf")) == ["index.pdf"]


def test_of_one_kind_alone(printed: Path, tmp_path: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER, "tags")
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    assert [s.title for s in built.sheets] == ["Changes", "Tag A3"]
    # what was left as it is, is told the next time
    after = compare(of_packet(tmp_path / "stale"), of_job(made, "new"))
    assert names(after) == ["Wall A", "Cut sheet", "Mark table", "Grade sheet", "Index"]
    before = codes(building())
    assert item(after, "Wall A").old == (before["Wall A"], before["Wall A, lift and nails"])


def test_the_next_change_goes_on_from_the_stale_packet(printed: Path, tmp_path: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "one") == []
    assert not compare(of_packet(tmp_path / "one"), of_job(made, "new")).stale
    after = building(rows={**AGAIN, "C2": "45"})
    found, built = stale(tmp_path / "one", after, LETTER)
    # A3 is not told again
    assert names(found) == ["Tag C2", "Wall C", "Cut sheet", "Mark table", "Grade sheet", "Index"]
    # C2: 45 5/16 − 43 = 2 5/16, 45 − 43 = 2
    assert words(found, "Tag C2")[0] == 'offset: was 2 5/16", now 2"'
    assert release(built, after, tmp_path / "two") == []
    assert not compare(of_packet(tmp_path / "two"), of_job(after, "new")).stale
    assert names(compare(of_packet(tmp_path / "two"), of_job(made, "new")))[0] == "Tag C2"


def test_stale_sheets_on_other_paper_carry_the_stamps_that_are_printed(printed: Path, tmp_path: Path) -> None:
    made = building({"truss.bearing": "12'-1"})
    _, built = stale(printed, made, PAPERS["a4"])
    assert release(built, made, tmp_path / "stale") == []
    assert built is not None
    assert built.held is not None
    told = [t.words for s in built.sheets for t in boxes.written(s.page.drawing.shapes) if s.kind == "index"]
    rods = [s.stamp for s in built.sheets if s.kind == "rods" and s.title.startswith("Sidewall")]
    assert all(any(code in text for text in told) for code in rods)
    assert not compare(of_packet(tmp_path / "stale"), of_job(made, "new")).stale


def test_a_stale_packet_can_be_drawn_again_for_the_audit(printed: Path, tmp_path: Path) -> None:
    made = building(rows=AGAIN)
    _, built = stale(printed, made, LETTER)
    assert release(built, made, tmp_path / "stale") == []
    paper, only, held = as_printed(tmp_path / "stale")
    assert (paper, only) == ("letter", None)
    again = packet.build(made, LETTER, only, held=held)
    assert audit_stale.stale(tmp_path / "stale", again) == []
    assert as_printed(printed) == ("letter", None, None)
    later = packet.build(building(), LETTER, only, held=held)
    assert any(line.startswith("Tag A3: stale") for line in audit_stale.stale(tmp_path / "stale", later))


def test_the_packet_itself_is_no_place_for_its_stale_sheets(printed: Path, tmp_path: Path) -> None:
    with pytest.raises(JobRefused, match=r"--out = .*is the packet that is compared"):
        refuse_same(tmp_path / "nowhere" / ".." / "printed", printed)
    refuse_same(tmp_path / "other", printed)


# --- the audit of a stale packet --------------------------------------------------------------------------------------


@pytest.fixture
def fresh(printed: Path, tmp_path: Path) -> tuple[Packet, Building, Path]:
    """A stale packet with two tags: as drawn, its building, its folder."""
    made = building(rows={"A3": "45 13/16", "C1": "44 1/2"})
    _, built = stale(printed, made, LETTER)
    assert built is not None
    packet.save(built, tmp_path / "stale", svg_parts=True)
    assert differences(built, made, tmp_path / "stale") == []
    return built, made, tmp_path / "stale"


def at(built: Packet, title: str) -> int:
    return next(i for i, sheet in enumerate(built.sheets) if sheet.title == title)


def test_a_tag_drawn_wrong_is_found(fresh: tuple[Packet, Building, Path]) -> None:
    """The sheet's own code draws another bearing, and the files hold what it drew."""
    built, made, folder = fresh
    place = at(built, "Tags A3 and C1")
    sheet = built.sheets[place]
    # C1: 44 1/2 − 43 = 1 1/2; 12' + 1 1/2 = 12'-1 1/2": drawn as 13'-1 1/2"
    drawing = edited(sheet.page.drawing, reads("12'–1", "13'–1"), inside="tag-C1")
    wrong = replace(
        built,
        sheets=(
            *built.sheets[:place],
            replace(sheet, page=replace(sheet.page, drawing=drawing)),
            *built.sheets[place + 1 :],
        ),
    )
    packet.save(wrong, folder)
    found = [str(d) for d in differences(wrong, made, folder)]
    assert any("tag C1, cut BEARING" in line and "12'-1 1/2" in line for line in found)


def test_a_spoilt_tag_is_found_in_every_file(fresh: tuple[Packet, Building, Path]) -> None:
    built, made, folder = fresh
    sheet = built.sheets[at(built, "Tags A3 and C1")]
    # 45 13/16 − 43 = 2 13/16: the figure 2 becomes a 3
    drawing = edited(sheet.page.drawing, reads("2", "3"), inside="tag-A3")
    svg.write(folder / "tags-001.svg", drawing, "spoilt")
    pdf.write(folder / "tags.pdf", [replace(sheet.page, drawing=drawing)], "spoilt")
    found = [str(d) for d in differences(built, made, folder)]
    assert any(line.startswith("tags-001.svg") and "tag A3, offset" in line for line in found)
    assert any(line.startswith("tags.pdf") and "tag A3, offset" in line for line in found)


def test_a_tag_that_should_be_in_the_packet_and_is_not_is_found(fresh: tuple[Packet, Building, Path]) -> None:
    built, made, folder = fresh
    assert built.held is not None
    more = replace(built, held=replace(built.held, columns=built.held.columns | {"A2"}))
    found = [str(d) for d in differences(more, made, folder)]
    assert "packet: Tag A2: should be on a sheet of tags, is on none" in found
    less = replace(built, held=replace(built.held, columns=frozenset({"A3"})))
    found = [str(d) for d in differences(less, made, folder)]
    assert "packet: Tag C1: should be not among the tags of this packet, is on a sheet" in found
    none = replace(built, sheets=built.sheets[:1])
    found = [str(d) for d in differences(none, made, folder)]
    assert "packet: Wall A: should be on a sheet of walls, is on none" in found
    assert "packet: cuts: should be in this packet, is no sheet of them" in found
