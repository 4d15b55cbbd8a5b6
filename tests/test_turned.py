"""One text turned into another language: its values stay, its words are taken whole or not at all."""

from __future__ import annotations

import pytest

import fonts
from layouts.languages import Catalogue
from sheets.forms import normal
from sheets.language import Said, both, speaking, spoken, turn
from sheets.lettering import width, write
from sheets.shapes import Group, Recorder, Text
from sheets.speech import Speech
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
