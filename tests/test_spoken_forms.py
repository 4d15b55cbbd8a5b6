"""What of a text is a value, and where it is taken apart, so that one entry of a catalogue serves many jobs."""

from __future__ import annotations

from pathlib import Path

import boxes
import catalogue as drawn
import jobs
import pytest

from layouts import carriers, nails
from layouts.building import Building
from layouts.languages import catalogue
from layouts.lengths import Style
from layouts.problems import JobRefused
from sheets import packet
from sheets.forms import normal
from sheets.load import load
from sheets.own_words import of_job
from sheets.paper import PAPERS
from sheets.speech import Speech

CARRIERS = {
    "carrier.board": "2x12",
    "carrier.where": "both",
    "carrier.boards": 2,
    "carrier.let_in": "1 1/2",
    "tops.seat": "flat",
    "roof.soffit": "none",
}
SIZES = ("3 1/4 x 5", "4 x 6", "6 x 9 1/4")
ROWS = {"A1": 45, "A2": "45 3/8", "C1": "42 1/2", "B1": 47}
"""Of the smallest building: corners, a column of a sidewall and one of an endwall."""


def turned(text: str, *own: str) -> str:
    return str(Speech(catalogue("spanish"), frozenset(own)).turned(text))


# --- values ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ('Reading 3.516 ft (42.192"), line 3.203 ft (38 7/16").', "Reading {}, line {}."),
        ("LINE READING 4.62 ft (1408.176 mm)", "LINE READING {}"),
        ('Reading 1133 mm (44.606"), line 1104.9 mm (43 1/2").', "Reading {}, line {}."),
        ('Reading 46 3/8" (1177.925 mm), line 44.685" (1135 mm).', "Reading {}, line {}."),
        ('reads -0.312 ft (3 3/4")', "reads {}"),
        ("Guard against falls from 6 ft (29 CFR 1926.501)", "Guard against falls from {} ft ({} CFR {})"),
        ("hand-lifted walls of 10 ft and more", "hand-lifted walls of {} ft and more"),
    ],
)
def test_what_a_rod_in_feet_reads_is_one_value(text: str, form: str) -> None:
    """With the length behind it; feet before something else in brackets are words of ours."""
    assert normal(text) == form


def test_its_feet_are_turned_and_its_numbers_stay() -> None:
    assert turned('→ 3.203 ft (38 7/16") TAKEN') == '→ 3.203 pies (38 7/16") TOMADA'
    assert turned("READS 4.62 FT (1408 MM)") == "LEE 4.62 PIES (1408 MM)"


def test_a_block_between_names_of_a_crew_is_one_value() -> None:
    assert normal("blocking A2-ÄÖ 0", frozenset({"ÄÖ 0"})) == "blocking {}"
    assert turned("A: blocking A2-ÄÖ 0, blocking A2-A3", "ÄÖ 0") == "A: bloques A2-ÄÖ 0, bloques A2-A3"


def test_every_board_of_a_carrier_of_four_has_its_name_in_spanish() -> None:
    """Two boards on either face of the columns are four rows: each has its face and its number."""
    job = jobs.job({**CARRIERS, "job.language": "spanish"})
    names = [row.name for row in carriers.rows(job, 144.0)]
    assert names == ["Carrier outside 1", "Carrier outside 2", "Carrier inside 1", "Carrier inside 2"]
    spoken = of_job(job)
    assert spoken
    assert [spoken.turned(name) for name in names] == [
        "Viga de apoyo exterior 1",
        "Viga de apoyo exterior 2",
        "Viga de apoyo interior 1",
        "Viga de apoyo interior 2",
    ]
    assert spoken.turned("A: carrier outside 1 to 2, carrier inside 1 to 2") == (
        "A: viga de apoyo exterior 1 a 2, viga de apoyo interior 1 a 2"
    )


def test_words_of_the_crew_keep_their_own_and_and_of() -> None:
    """Also where they stand in a row of values, whose joining words are ours: A1 and A2 and the crew's."""
    assert turned("Job of Pete and Sons  ·  Wall A", "Job of Pete and Sons") == "Job of Pete and Sons  ·  Pared A"
    assert turned("Weather dry and still; read by J. Hollis.", "dry and still", "J. Hollis") == (
        "Clima dry and still; leyó J. Hollis."
    )
    assert turned("columns A1 and A2 and North and South", "North and South") == "columnas A1 y A2 y North and South"
    assert turned("columns A1 and A2", "A1 and A2") == "columnas A1 y A2"


def test_the_note_that_we_ask_for_is_ours() -> None:
    """A point that is read again is noted as a check-back: the field sheet says so too, in its own language."""
    noted = load(Path(__file__).parents[1] / "gallery" / "larkspur" / "job.toml").readings
    assert "check-back" in noted.notes["A1"]
    spoken = of_job(jobs.job({"job.language": "spanish"}), noted)
    assert spoken
    assert spoken.turned("DIFFERENCE: check-back less START") == "DIFERENCIA: relectura menos INICIO"


def test_an_opening_that_is_called_by_its_kind_has_its_kind_turned() -> None:
    assert turned("Walk WALK 900 mm", "Walk") == "Walk PUERTA 900 mm"
    assert turned("Office WALK 900 mm", "Office") == "Office PUERTA 900 mm"


@pytest.mark.parametrize(
    ("species", "said"),
    [
        ("southern pine", "southern pine (pino del sur)"),
        ("douglas fir-larch", "douglas fir-larch (abeto Douglas y alerce)"),
        ("hem-fir", "hem-fir (tsuga y abeto)"),
        ("spruce-pine-fir", "spruce-pine-fir (pícea, pino y abeto)"),
    ],
)
def test_every_species_is_told_as_it_is_stamped_and_in_spanish(species: str, said: str) -> None:
    spoken = of_job(jobs.job({"job.language": "spanish", "wood.species": species}))
    assert spoken
    found = spoken.turned(
        f"estimated from the sizes entered, {species}, 36.2 lb/ft³ dry, 37.7 lb/ft³ rained on,"
        " 55.2 lb/ft³ fresh from treating."
    )
    assert found == (
        f"estimado de las medidas dadas, {said}, 36.2 lb/pie³ seca, 37.7 lb/pie³ llovida, 55.2 lb/pie³ recién tratada."
    )


# --- parts -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            'highest seat D1 reads 44", at least 1" wanted below the line, which makes 43", but there 2 piers would be'
            " out of tolerance",
            'el asiento más alto D1 lee 44", se quiere al menos 1" bajo la línea, lo que da 43", pero ahí 2 pilas'
            " quedarían fuera de tolerancia",
        ),
        (
            "girt 2 2267 mm and header n3 2286 mm stand less than 25 mm apart",
            "larguero 2 2267 mm y cabezal n3 2286 mm quedan a menos de 25 mm",
        ),
        (
            "TOP of endwall columns, 30.3°, high on the left, part 1 of 2",
            "PUNTA de columnas de extremo, 30.3°, alta a la izquierda, parte 1 de 2",
        ),
        (
            'pack the column on its left out by 2 13/16" (seen from outside);',
            'calce la columna de su izquierda 2 13/16" hacia el vano (visto desde afuera);',
        ),
        ("INNER PLIES HIGH EDGE toward A4", "CAPAS INTERIORES CANTO ALTO hacia A4"),
        (
            "TOP of endwall columns, INNER PLIES, 4/12, high on the right",
            "PUNTA de columnas de extremo, CAPAS INTERIORES, 4/12, alta a la derecha",
        ),
        (
            "Rows Girt 6 to Inside girt 8, walls 6 and 1, ends toward wall A",
            "Filas Larguero 6 a Larguero int. 8, paredes 6 y 1, extremos hacia la pared A",
        ),
        (
            "girt to column (72), corner board, filler, block (24)",
            "larguero a columna (72), tabla de esquina, relleno, bloque (24)",
        ),
    ],
)
def test_a_text_is_taken_apart_where_its_parts_change(text: str, said: str) -> None:
    assert turned(text) == said


def test_the_walking_order_is_none_for_the_yard() -> None:
    """Both were headed `order`; one column is walked by, of the other nails are bought."""
    assert turned("order") == "orden"
    assert turned("to order") == "por pedir"


# --- labels ----------------------------------------------------------------------------------------------------------


def label(language: str, size: str, **grade: str) -> Building:
    fields = {f"grade.{key}": value for key, value in grade.items()}
    return jobs.build({**drawn.SMALL, "job.language": language, "job.tags": size, **fields}, ROWS)


def words(building: Building) -> set[str]:
    """All that its labels say; none of it is left in English."""
    made = packet.build(building, PAPERS["letter"], "tags")
    for _ in made.parts():
        pass
    assert made.speech
    assert drawn.leaves(made.speech) == {}
    return {t.words for sheet in made.sheets for t in boxes.written(sheet.page.drawing.shapes)}


@pytest.mark.parametrize("size", SIZES)
def test_no_caption_of_a_label_stays_english(size: str) -> None:
    """Nor of a seat that stands above the line."""
    for line in ({}, {"line": "44"}):
        assert not {"TOP", "OUTSIDE", "THIS FACE", "THIS FACE OUTSIDE"} & words(label("spanish", size, **line))


def test_captions_of_a_close_label_are_the_short_ones() -> None:
    assert {"DESFASE, sube del extremo", "ESTA CARA AFUERA"} <= words(label("spanish", "3 1/4 x 5"))
    assert "DESFASE, BAJO EL EXTREMO" in words(label("spanish", "3 1/4 x 5", line="44"))


def test_a_label_in_two_languages_says_both_or_is_refused() -> None:
    """On the smaller ones there is no room for twice the words."""
    assert "OUTSIDE / AFUERA" in words(label("english and spanish", SIZES[-1]))
    said = words(label("english and spanish", "6 x 7"))
    assert {"OFFSET, up from the end / DESFASE, sube del extremo", "THIS FACE OUTSIDE / ESTA CARA AFUERA"} <= said
    for size in SIZES[:-1]:
        with pytest.raises(JobRefused, match=f"job.tags = {size}: is too small for the tag of A1, with 3 cuts"):
            words(label("english and spanish", size))


@pytest.mark.parametrize("size", ["6 x 7", "6 x 9 1/4", "9 x 9", "1", "2"])
@pytest.mark.parametrize("language", ["spanish", "english and spanish"])
def test_words_of_a_tag_keep_clear_of_one_another(language: str, size: str) -> None:
    """Nor is anything too small."""
    for sheet in packet.build(label(language, size), PAPERS["letter"], "tags").sheets:
        texts = list(boxes.written(sheet.page.drawing.shapes))
        assert boxes.overlaps(texts) == []
        assert boxes.small(texts) == []


@pytest.mark.parametrize("size", ["6.5 x 7.5", "7 x 8"])
def test_which_face_and_top_share_a_row_in_large_print_too(size: str) -> None:
    """Set as large as the height lets them, both in two languages, they would lie in one another."""
    given = {**drawn.SMALL, "job.language": "english and spanish", "job.tags": size, "job.print": "large"}
    for sheet in packet.build(jobs.build(given, ROWS), PAPERS["letter"], "tags").sheets:
        assert boxes.overlaps(list(boxes.written(sheet.page.drawing.shapes))) == []


def test_a_number_after_no_ends_no_sentence() -> None:
    """What a ring shank that no table holds is asked stayed in English for want of this."""
    asked = nails.question(nails.parse("4 x 3/16 ring", "in"), Style())
    assert "Design Aid No. 4: in that length it has" in asked
    said = turned(asked)
    assert "AWC Design Aid No. 4: " in said
    assert "It is not" not in said
    assert "in that length" not in said
