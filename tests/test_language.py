"""Words in other languages: the catalogues, and whole packets in which nothing is left out and everything fits."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from importlib.resources import files
from pathlib import Path

import boxes
import catalogue as drawn
import jobs
import pytest
from test_cli import DONE, run

import fonts
from layouts import languages
from layouts.building import Building, lay_out
from layouts.languages import CHOICES, ENGLISH, NAMES
from sheets import packet, rod, tag
from sheets.audit import differences
from sheets.forms import normal, runs, taken_out
from sheets.kinds import KINDS
from sheets.lanes import Lane
from sheets.language import speaking
from sheets.lettering import face, missing
from sheets.own_words import speech
from sheets.paper import PAPERS
from sheets.shapes import Group

# --- the catalogues --------------------------------------------------------------------------------------------------


def test_every_file_is_a_language_and_is_asked_for_by_its_name() -> None:
    found = {Path(p.name).stem for p in files(languages).iterdir() if p.name.endswith(".toml")}
    assert found == set(NAMES)
    assert (ENGLISH, "spanish", "english and spanish") == CHOICES


def of_sheets(name: str) -> set[str]:
    """The texts of a language that are not those of the terminal."""
    read = tomllib.loads(files(languages).joinpath(f"{name}.toml").read_text(encoding="utf-8"))["texts"]
    return {form for part, texts in read.items() if not part.startswith("terminal") for form in texts}


def quoted(english: str) -> str:
    """The normal form of a text of the terminal."""
    return taken_out(runs(frozenset(), True), english, [])


@pytest.mark.parametrize("name", NAMES)
def test_every_value_stands_once_on_both_sides(name: str) -> None:
    for english, other in languages.catalogue(name).texts.items():
        holes = re.findall(r"\{(\d*)\}", other)
        assert sorted(map(int, holes)) == list(range(english.count("{}"))), english
        assert not re.search(r"\d", re.sub(r"\{\d+\}", "", other)), english  # a number comes from the job alone


@pytest.mark.parametrize("name", NAMES)
def test_every_english_text_is_in_its_normal_form(name: str) -> None:
    sheets = of_sheets(name)
    for english in languages.catalogue(name).texts:
        plain = normal(english) if english in sheets else quoted(english)
        assert plain.replace("()", "{}") == english, english
        assert english == english.strip(" .;:"), english


@pytest.mark.parametrize("name", NAMES)
def test_every_letter_can_be_printed(name: str) -> None:
    entries = languages.catalogue(name)
    sheets = of_sheets(name)
    printed = [other for english, other in entries.texts.items() if english in sheets]
    for other in [*printed, *entries.joins.values()]:
        assert missing(other + other.upper()) == "", other


def test_the_faces_have_the_letters_of_spanish() -> None:
    for cut in fonts.CUTS:
        assert face(cut).missing("áéíóúüñÁÉÍÓÚÜÑ¿¡") == ""


def test_a_text_that_stands_twice_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "double.toml").write_text('code = "xx"\n[joins]\n[texts.a]\n"x" = "y"\n[texts.b]\n"x" = "z"\n')
    monkeypatch.setattr(languages, "_HERE", tmp_path)
    with pytest.raises(ValueError, match="twice: x"):
        languages.catalogue("double")


def test_a_rod_lies_alike_whatever_was_drawn_in_another_language_before() -> None:
    """The short point of this rod has a longer name in Spanish, and another place."""
    changes = {"roof.end_overhang": "18", "roof.overhang": "18", "truss.top_chord": "2x6"}

    def lanes(language: str) -> list[tuple[Lane, ...]]:
        building = jobs.build({**changes, "job.language": language})
        with speaking(speech(building)):
            return [laid.lanes for laid in rod.lay_all(building, PAPERS["letter"])]

    rod._lay.cache_clear()
    spanish = lanes("spanish")
    assert lanes("english") != spanish
    rod._lay.cache_clear()
    assert lanes("english") != spanish
    assert lanes("spanish") == spanish


def test_the_language_of_a_job_is_one_that_there_is() -> None:
    assert speech(jobs.build()) is None
    (problem,) = jobs.problems(jobs.job_text({"job.language": "latin"}))
    assert problem.place == "job.language"
    assert '"spanish"' in problem.right or "spanish" in problem.right


# --- whole packets ---------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def cases(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, Building, packet.Packet]]:
    """The gallery's jobs, the metric one and some of the combinations, drawn in Spanish."""
    folder = tmp_path_factory.mktemp("spanish")
    found = [*drawn.gallery("spanish", folder), *drawn.jobs_of("spanish"), *drawn.combined("spanish", 16)]
    return [(name, building, made) for name, building, kinds in found for made in drawn.draw(building, kinds)]


def test_every_sheet_is_whole_in_spanish(cases: list[tuple[str, Building, packet.Packet]]) -> None:
    kinds = {sheet.kind for _, _, made in cases for sheet in made.sheets}
    assert kinds == {"index", *KINDS}
    for name, _, made in cases:
        assert made.speech
        assert drawn.leaves(made.speech) == {}, name


def test_nothing_is_read_aloud_by_the_name_of_its_layer(cases: list[tuple[str, Building, packet.Packet]]) -> None:
    """A layer of an SVG has a name of ours, in English; what a screen says of it is words, or nothing."""
    for name, _, made in cases:
        for sheet in made.sheets:
            groups = boxes.groups(sheet.page.drawing.shapes)
            assert [g.title for g in groups if g.title == g.name] == [], (name, sheet.title)


def test_every_text_of_the_catalogue_is_seen_on_some_sheet(
    cases: list[tuple[str, Building, packet.Packet]],
) -> None:
    used = {form for _, _, made in cases if made.speech for form in made.speech.used}
    assert sorted(of_sheets("spanish") - used - drawn.seldom("spanish")) == []
    # nor are those excused that are seen
    assert len(drawn.seldom("spanish") & used) < 10


def test_no_spanish_text_is_too_long(cases: list[tuple[str, Building, packet.Packet]]) -> None:
    """Words keep clear of one another and of lines, stay on the page, and are not shrunk below six points."""
    for name, _, made in cases:
        for sheet in made.sheets:
            shapes = sheet.page.drawing.shapes
            texts = [t for t in boxes.written(shapes) if t.words not in drawn.SMALL_IN_ENGLISH]
            assert boxes.overlaps(texts) == [], (name, sheet.title)
            assert boxes.small(texts) == [], (name, sheet.title)
            assert boxes.crossed(shapes) == [], (name, sheet.title)
            paper = made.paper.margin
            frame = boxes.Box(paper, paper, sheet.page.drawing.width - paper, sheet.page.drawing.height - paper)
            assert boxes.outside(texts, frame) == [], (name, sheet.title)


def test_numbers_are_those_of_the_english_packet(cases: list[tuple[str, Building, packet.Packet]]) -> None:
    """On tags, which are as many pages in any language."""
    for _, building, made in cases[:2]:
        job = building.job
        plain = jobs.replaced(job, "job", language=ENGLISH)
        english = packet.build(lay_out(plain, building.readings), made.paper, "tags")
        tags = [sheet for sheet in made.sheets if sheet.kind == "tags"]
        for mine, theirs in zip(tags, english.sheets, strict=True):
            assert figures(mine) == figures(theirs)


def figures(sheet: packet.Sheet) -> Counter[str]:
    """The numbers of a sheet without its stamps and page number."""
    shapes = [s for s in sheet.page.drawing.shapes if not (isinstance(s, Group) and s.name in ("footer", "stamp"))]
    return Counter(n for t in boxes.written(shapes) for n in re.findall(r"\d+", t.words))


def test_a_spanish_packet_is_read_back_as_strictly(tmp_path: Path) -> None:
    """Against its own layout it is right; against readings that are other by 1/16 in each tag is told."""
    made = jobs.job({**drawn.SMALL, "job.language": "spanish"})
    building = lay_out(made, jobs.every(made))
    for only in ("tags", "walls", "templates"):
        printed = packet.build(building, PAPERS["letter"], only)
        packet.save(printed, tmp_path / only, svg_parts=only == "tags")
        assert differences(printed, building, tmp_path / only) == [], only
    other = lay_out(made, jobs.every(made, 45.0625))
    printed = packet.build(building, PAPERS["letter"], "tags")
    told = {str(d) for d in differences(printed, other, tmp_path / "tags")}
    for column in building.columns:
        assert any(f"tag {column.name}, cut" in text or f"tag {column.name}, offset" in text for text in told)


def test_a_spanish_packet_is_released_by_the_command(tmp_path: Path) -> None:
    """In a process of its own, which has a second one write and read some of the files where the system forks."""
    job = tmp_path / "nave.toml"
    job.write_text(jobs.job_text({**drawn.SMALL, "job.language": "spanish"}), encoding="utf-8")
    done = run("print", job, "--out", tmp_path / "out")
    assert done.returncode == DONE, done.stderr
    assert "PARED 1" in (tmp_path / "out" / "index.html").read_text(encoding="utf-8").upper()


def test_a_read_back_in_spanish_finds_an_english_word(tmp_path: Path) -> None:
    """A file that says another word than its drawing is told, whatever language it is in."""
    made = jobs.job({**drawn.SMALL, "job.language": "spanish"})
    building = lay_out(made, jobs.every(made))
    english = lay_out(jobs.replaced(made, "job", language=ENGLISH), building.readings)
    packet.save(packet.build(english, PAPERS["letter"], "tags"), tmp_path / "t")
    assert differences(packet.build(building, PAPERS["letter"], "tags"), building, tmp_path / "t") != []


def test_a_tag_in_two_languages_says_both(tmp_path: Path) -> None:
    building = jobs.build({**drawn.SMALL, "job.language": "english and spanish"}, {"A1": 45, "A2": "45 3/8"})
    printed = packet.build(building, PAPERS["letter"])
    for sheet in printed.sheets:
        texts = [t.words for t in boxes.written(sheet.page.drawing.shapes)]
        assert any(" / " in text for text in texts) == (sheet.kind == "tags"), sheet.title
    assert printed.speech
    assert drawn.leaves(printed.speech) == {}
    with speaking(printed.speech):
        words = [t.words for t in boxes.written(tag.tag(building, building.columns[1])[0].shapes)]
    assert {"TOP / ARRIBA", "OUTSIDE / AFUERA", "BEARING / APOYO"} <= set(words)
    assert 'COLUMN / COLUMNA 3/8" LONGER / MÁS LARGA' in words
    packet.save(printed, tmp_path / "t")
    assert differences(printed, building, tmp_path / "t") == []


def test_a_packet_says_what_language_it_is_in(tmp_path: Path) -> None:
    made = jobs.job({**drawn.SMALL, "job.language": "spanish"})
    building = lay_out(made, jobs.every(made))
    packet.save(packet.build(building, PAPERS["letter"], "tags"), tmp_path / "t")
    pdf = (tmp_path / "t" / "tags.pdf").read_bytes()
    assert b"(es-US)" in pdf
    svg = (tmp_path / "t" / "tags-001.svg").read_text(encoding="utf-8")
    assert "Etiquetas A1 y A2" in svg


def test_developers_names_every_word_that_is_not_sure() -> None:
    """The table's Spanish words are those of the catalogue."""
    text = (Path(__file__).parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text.split("<!-- glossary -->")[1].split("<!-- /glossary -->")[0]
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in table.strip().splitlines()[2:]]
    assert len(rows) > 40
    said = " ".join(languages.catalogue("spanish").texts.values()).lower()
    assert any(row[2] for row in rows)
    for _, spanish, _ in rows:
        assert spanish.lower() in said, spanish


def test_the_file_reads_as_toml_in_any_order() -> None:
    read = tomllib.loads(files(languages).joinpath("spanish.toml").read_text(encoding="utf-8"))
    assert set(read) == {"code", "joins", "texts"}
