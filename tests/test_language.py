"""Words in other languages: nothing of a job is changed by a translation, nothing is left out, everything fits."""

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

import fonts
from layouts import languages
from layouts.building import Building, lay_out
from layouts.languages import CHOICES, ENGLISH, NAMES, Catalogue
from sheets import packet, tag
from sheets.audit import differences
from sheets.kinds import KINDS
from sheets.language import Said, Speech, both, normal, speaking, spoken, turn
from sheets.lettering import face, missing, width, write
from sheets.own_words import speech
from sheets.paper import PAPERS
from sheets.shapes import Group, Recorder, Text
from sheets.wrapping import wrap

OURS = Catalogue(
    "ours",
    "xx",
    {"and": "et", "to": "ad", "of": "de", "or": "aut"},
    {
        "cut {}": "caede {0}",
        "the board": "tabula",
        "from {} up to {}": "usque ad {1} ex {0}",
        "Wall {}": "Murus {0}",
        "Girt {} bottom": "Trabs {0} infra",
        "broken {} and {}": "fracta {0} {0}",
        "wrong {}": "falsa {0} 7",
        "seen from {}": "visa ab {0}",
    },
)


def say(text: str, *own: str) -> str:
    return Speech(OURS, frozenset(own)).turned(text)


# --- one text --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("english", "form"),
    [
        ('COLUMN 3/8" LONGER', "COLUMN {} LONGER"),
        ("13'-9 1/16\" from A1", "{} from {}"),
        ("4193 mm from A1", "{} from {}"),
        ("Girt 3 2x6 bottom", "Girt {} bottom"),
        ("header 2x6 #23 9'-0\", bottom at 7'-4 1/2\"", "header {}, bottom at {}"),
        ("walls A, B and 1", "walls {}"),
        ("Walls A and 1", "Walls {}"),
        ("lane 3 of 12", "lane {}"),
        ("above the line: A1, A2 to B7", "above the line: {}"),
        ("A larger offset", "A larger offset"),
        ("NOT A LIFT PLAN", "NOT A LIFT PLAN"),
        ("over A is", "over {} is"),
        ("roof 18.4° at 5/12", "roof {} at {}"),
        ("page 3 of 9  ·  stamp WXYZA", "page {}  ·  stamp {}"),
        ("{} is not ours", "() is not ours"),
    ],
)
def test_what_a_job_puts_into_a_text_is_taken_out_of_its_normal_form(english: str, form: str) -> None:
    assert normal(english) == form


@pytest.mark.parametrize(
    ("english", "other"),
    [
        ('cut 3/8"', 'caede 3/8"'),
        ('Cut 3/8".', 'Caede 3/8".'),
        ("CUT A1 AND A2", "CAEDE A1 ET A2"),
        ("from A1 up to B7", "usque ad B7 ex A1"),
        ("cut 1, 2 and 3", "caede 1, 2 et 3"),
        ("Cut 4. Wall A  ·  the board; from 1 up to 2", "Caede 4. Murus A  ·  tabula; usque ad 2 ex 1"),
        ("the board (cut 3)", "tabula (caede 3)"),
        ("GIRT 3 2x6 bottom", "TRABS 3 2x6 infra"),
        ("13'-9 1/16\"", "13'-9 1/16\""),
        ("A1 to A3", "A1 ad A3"),
    ],
)
def test_a_text_is_turned_whole(english: str, other: str) -> None:
    assert say(english) == other


@pytest.mark.parametrize("text", ["nothing we know", "cut 3; nothing we know", "broken 1 for 2", "wrong 3"])
def test_what_the_catalogue_lacks_or_would_change_stays_english_and_is_told(text: str) -> None:
    own = Speech(OURS)
    assert own.turned(text) == text
    assert own.missed == {text}


def test_a_value_that_is_lost_or_doubled_keeps_the_text_english() -> None:
    assert say("broken A1; and A2") == "broken A1; and A2"
    found = Speech(OURS)
    assert found.turned("broken 14 and the 15") == "broken 14 and the 15"


def test_the_jobs_own_words_are_never_turned() -> None:
    assert say("seen from the board", "the board") == "visa ab the board"
    assert say("Wall A: the board", "nothing of ours") == "Murus A: tabula"
    # an opening that was called by a word of ours does not spoil our texts
    assert say("from A1 up to B7", "up") == "usque ad B7 ex A1"


def test_a_text_is_turned_once() -> None:
    with speaking(Speech(OURS)):
        once = turn("cut 3")
        assert isinstance(once, Said)
        assert turn(once) is once
        assert all(isinstance(line, Said) for line in wrap("the board " * 9, 0.2, fonts.REGULAR, 2.0))
    assert spoken() is None
    assert turn("cut 3") == "cut 3"


def test_words_are_measured_and_drawn_in_the_language_that_is_spoken() -> None:
    pen, english = Recorder(10, 10), width("the board", 1.0)
    with speaking(Speech(OURS)):
        wide = write(pen, 0, 0, "the board", 1.0)
        assert wide == width("the board", 1.0) == width(Said("tabula"), 1.0) != english
        pen.begin("some-name", "the board")
        write(pen, 0, 0, 'cut 3/8"', 1.0)
        pen.end()
    first, group = pen.drawing().shapes
    assert isinstance(first, Text)
    assert first.text == "tabula"
    assert isinstance(group, Group)
    assert group.title == "tabula"
    assert [s.title for s in group.shapes if isinstance(s, Group)] == ['caede 3/8"']


def test_two_languages_say_every_value_once() -> None:
    twice = Speech(OURS, beside=True)
    with speaking(twice):
        assert turn("cut 3") == "cut 3"
        with both():
            assert turn("cut 3") == "cut / caede 3"
            assert turn("Wall A: the board.") == "Wall / Murus A: the board / tabula."


# --- the catalogues --------------------------------------------------------------------------------------------------


def test_every_file_is_a_language_and_is_asked_for_by_its_name() -> None:
    found = {Path(p.name).stem for p in files(languages).iterdir() if p.name.endswith(".toml")}
    assert found == set(NAMES)
    assert (ENGLISH, "spanish", "english and spanish") == CHOICES


@pytest.mark.parametrize("name", NAMES)
def test_every_value_stands_once_on_both_sides(name: str) -> None:
    for english, other in languages.catalogue(name).texts.items():
        holes = re.findall(r"\{(\d*)\}", other)
        assert sorted(map(int, holes)) == list(range(english.count("{}"))), english
        assert not re.search(r"\d", re.sub(r"\{\d+\}", "", other)), english  # a number comes from the job alone


@pytest.mark.parametrize("name", NAMES)
def test_every_english_text_is_in_its_normal_form(name: str) -> None:
    for english in languages.catalogue(name).texts:
        assert normal(english) == english.replace("{}", "()"), english
        assert english == english.strip(" .;:"), english


@pytest.mark.parametrize("name", NAMES)
def test_every_letter_can_be_printed(name: str) -> None:
    entries = languages.catalogue(name)
    for other in [*entries.texts.values(), *entries.joins.values()]:
        assert missing(other + other.upper()) == "", other


def test_the_faces_have_the_letters_of_spanish() -> None:
    for cut in fonts.CUTS:
        assert face(cut).missing("áéíóúüñÁÉÍÓÚÜÑ¿¡") == ""


def test_a_text_that_stands_twice_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "double.toml").write_text('code = "xx"\n[joins]\n[texts.a]\n"x" = "y"\n[texts.b]\n"x" = "z"\n')
    monkeypatch.setattr(languages, "files", lambda _: tmp_path)
    with pytest.raises(ValueError, match="twice: x"):
        languages.catalogue("double")


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


def test_every_text_of_the_catalogue_is_seen_on_some_sheet(
    cases: list[tuple[str, Building, packet.Packet]],
) -> None:
    used = {form for _, _, made in cases if made.speech for form in made.speech.used}
    unseen = languages.catalogue("spanish").texts.keys() - used
    assert [form for form in unseen if not drawn.seldom(form)] == []
    # nor is one excused that is seen
    assert any(drawn.seldom(form) for form in unseen)


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
