"""The reader of PDF files on files written by hand: every number of what it reads, and the words for what is none of
ours. The pages are 2 in by 1 in, 72 points to an inch."""

from __future__ import annotations

import pytest
from pdf_by_hand import WISHES, file

from sheets import audit_pdf
from sheets.audit_model import Read, Run
from sheets.audit_svg import Unreadable


def page(content: str, more: str = "", box: str = "0 0 144 72") -> Read:
    """What is read of a page with this content."""
    (read,) = audit_pdf.read(file(content, page=more, box=box)).pages
    return read


def near(*numbers: float) -> object:
    """These numbers, as single precision keeps them."""
    return pytest.approx(numbers, abs=1e-6)


# --- the file --------------------------------------------------------------------------------------------------------


def test_a_file_that_is_right() -> None:
    found = audit_pdf.read(file("", "0 0 m 72 36 l S"))
    assert found.wrong == ()
    assert [len(one.strokes) for one in found.pages] == [0, 1]
    assert audit_pdf.wrong(file("")) == ()


WRONG = {
    "scaled": (WISHES.replace("/PrintScaling /None", ""), "PrintScaling None", "no PrintScaling None"),
    "scaled by name": (WISHES.replace("/None", "/AppDefault"), "PrintScaling None", "no PrintScaling None"),
    "both sides": (WISHES.replace("/Simplex", "/DuplexFlipLongEdge"), "Duplex Simplex", "another Duplex"),
    "no word of sides": (WISHES.replace("/Duplex /Simplex", ""), "Duplex Simplex", "another Duplex"),
}


@pytest.mark.parametrize("what", WRONG)
def test_what_a_viewer_may_do(what: str) -> None:
    wishes, want, found = WRONG[what]
    data = file("", wishes=wishes)
    assert audit_pdf.read(data).wrong == (("viewer preferences", want, found),)
    assert audit_pdf.wrong(data) == (("viewer preferences", want, found),)


def test_what_is_wrong_with_a_file() -> None:
    cut = file("").rstrip()[:-1]
    assert audit_pdf.wrong(cut) == (("end of the file", "%%EOF", "cut off"),)
    assert audit_pdf.wrong(file("") + b" \n\n") == ()
    unit = file("", page="/UserUnit 1.001")
    assert audit_pdf.wrong(unit) == (("page", "points of 1/72 in", "a UserUnit"),)
    assert audit_pdf.wrong(file("", wishes="") + b"x") == (
        ("viewer preferences", "PrintScaling None", "no PrintScaling None"),
        ("viewer preferences", "Duplex Simplex", "another Duplex"),
        ("end of the file", "%%EOF", "cut off"),
    )


@pytest.mark.parametrize("data", [b"", b"%PDF-1.7 not at all", b"<svg/>"])
def test_what_is_no_pdf(data: bytes) -> None:
    for read in (audit_pdf.read, audit_pdf.wrong):
        with pytest.raises(Unreadable) as told:
            read(data)
        assert str(told.value) == "not to be read (PDFium error 3)"


def test_a_page_that_is_not_to_be_read() -> None:
    data = file("", "")
    with pytest.raises(Unreadable) as told:
        audit_pdf.read(data.replace(b"5 0 obj\n<< /Type /Page ", b"5 0 obj\n<< /Type /Pane "))
    assert str(told.value) == "page 2 is not to be read"


# --- the page --------------------------------------------------------------------------------------------------------

CROPPED = "a page box that begins elsewhere or is cropped"


@pytest.mark.parametrize(
    ("box", "more", "width", "height", "odd"),
    [
        ("0 0 144 72", "", 2.0, 1.0, []),
        ("0 0 612 792", "/CropBox [0 0 612 792]", 8.5, 11.0, []),
        ("0 0 144 72", "/CropBox [0 0 144 71]", 2.0, 1.0, [CROPPED]),
        ("0 0 144 72", "/CropBox [1 0 144 72]", 2.0, 1.0, [CROPPED]),
        ("36 0 180 72", "", 2.0, 1.0, [CROPPED]),
        ("0 -36 144 36", "", 2.0, 1.0, [CROPPED]),
        ("0 0 144 72", "/Rotate 90", 2.0, 1.0, ["a page that is turned"]),
        ("0 0 144 72", "/Rotate 180", 2.0, 1.0, ["a page that is turned"]),
        ("0 0 144 72", "/Rotate 360", 2.0, 1.0, []),
        ("0 0 144 72", "/Annots [<< /Type /Annot /Subtype /Link /Rect [0 0 9 9] >>]", 2.0, 1.0, ["an annotation"]),
        ("", "", 0.0, 0.0, []),
    ],
)
def test_the_sides_of_a_page(box: str, more: str, width: float, height: float, odd: list[str]) -> None:
    read = page("", more, box)
    assert (read.width, read.height) == near(width, height)
    assert read.odd == odd
    assert (read.strokes, read.outlines, read.runs) == ([], [], [])


def test_all_that_is_odd_about_a_page() -> None:
    note = "/Rotate 90 /Annots [<< /Type /Annot /Subtype /Link /Rect [0 0 9 9] >>]"
    assert page("", note, "1 0 144 72").odd == [CROPPED, "a page that is turned", "an annotation"]


def test_a_picture_is_none_of_ours() -> None:
    picture = "q 36 0 0 36 0 0 cm BI /W 1 /H 1 /CS /G /BPC 8 ID x EI Q"
    read = page(f"0 0 m 72 0 l S {picture} {picture}")
    assert read.odd == ["a picture or a form"] * 2
    assert len(read.strokes) == 1


# --- strokes ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("content", "stroke"),
    [
        ("0.72 w 36 18 m 108 54 l S", (0.5, 0.25, 1.5, 0.75, 0.01, 0.0)),
        ("36 18 m 108 54 l S", (0.5, 0.25, 1.5, 0.75, 1 / 72, 0.0)),
        ("7.2 w [3 3] 0 d 0 72 m 144 0 l S", (0.0, 1.0, 2.0, 0.0, 0.1, 1.0)),
        ("[3] 0 d [] 0 d 0 72 m 144 0 l S", (0.0, 1.0, 2.0, 0.0, 1 / 72, 0.0)),
        ("q 1 0 0 1 36 18 cm 0 0 m 36 18 l S Q", (0.5, 0.25, 1.0, 0.5, 1 / 72, 0.0)),
        ("q 0.5 0 0 0.25 36 18 cm 72 72 m 144 144 l S Q", (1.0, 0.5, 1.5, 0.75, 1 / 72, 0.0)),
        ("q 0 1 -1 0 72 0 cm 36 18 m 54 36 l S Q", (0.75, 0.5, 0.5, 0.75, 1 / 72, 0.0)),
        ("q 1 0.5 0.25 1 0 0 cm 36 36 m 72 0 l S Q", (0.625, 0.75, 1.0, 0.5, 1 / 72, 0.0)),
    ],
)
def test_a_stroke(content: str, stroke: tuple[float, ...]) -> None:
    read = page(content)
    assert read.strokes == [near(*stroke)]
    assert (read.outlines, read.runs, read.odd) == ([], [], [])


def test_strokes_in_the_order_of_the_file() -> None:
    read = page("0 0 m 72 0 l S 0 36 m 72 36 l S [1] 0 d 0 72 m 72 72 l S")
    assert [stroke[1] for stroke in read.strokes] == near(0.0, 0.5, 1.0)
    assert [stroke[5] for stroke in read.strokes] == [0.0, 0.0, 1.0]


# --- outlines --------------------------------------------------------------------------------------------------------

TRIANGLE = "0 0 m 72 0 l 72 36 l h"
CORNERS = (0.0, 0.0, 1.0, 0.0, 1.0, 0.5)


@pytest.mark.parametrize(
    ("paint", "grey", "width"),
    [
        ("f", 0.0, 0.0),
        ("0.6 g @ f", 153 / 255, 0.0),
        ("1 g @ f", 1.0, 0.0),
        ("0.2 0.2 0.2 rg @ f", 51 / 255, 0.0),
        ("0.2 g 1.44 w @ B", 51 / 255, 0.02),
        ("1.44 w 0.2 g @ S", -1.0, 0.02),
        ("1 0 0 rg @ f", 2.0, 0.0),
        ("0 1 0 rg @ f", 2.0, 0.0),
        ("0 0 1 rg @ f", 2.0, 0.0),
        ("0.6 g /Half gs @ f", 2.0, 0.0),
    ],
)
def test_an_outline(paint: str, grey: float, width: float) -> None:
    read = page(paint.replace("@", TRIANGLE) if "@" in paint else f"{TRIANGLE} {paint}")
    assert read.outlines == [near(*CORNERS, grey, width)]
    assert (read.strokes, read.runs, read.odd) == ([], [], [])


def test_a_box_is_closed_with_its_first_corner_once() -> None:
    box = near(0.5, 0.25, 1.5, 0.25, 1.5, 0.75, 0.5, 0.75, 0.0, 0.0)
    assert page("36 18 m 108 18 l 108 54 l 36 54 l h f").outlines == [box]
    assert page("q 0.5 0 0 0.5 18 9 cm 36 18 m 180 18 l 180 90 l 36 90 l h f Q").outlines == [
        near(0.5, 0.25, 1.5, 0.25, 1.5, 0.75, 0.5, 0.75, 0.0, 0.0)
    ]


def test_a_way_there_and_back_is_no_box() -> None:
    """Three corners, the last one the first, are kept as they are."""
    assert page("0 0 m 72 36 l 0 0 l f").outlines == [near(0.0, 0.0, 1.0, 0.5, 0.0, 0.0, 0.0, 0.0)]


def test_two_corners_that_are_filled_are_no_stroke() -> None:
    read = page("0 0 m 72 36 l B")
    assert (read.strokes, len(read.outlines)) == ([], 1)
    assert read.outlines[0][-2:] == near(0.0, 1 / 72)


# --- runs ------------------------------------------------------------------------------------------------------------

H = 0.646  # em: where the ink of a Helvetica H ends (Adobe Font Metrics, B 77 0 646 718)


def words(shown: str, matrix: str = "1 0 0 1 36 18", size: float = 14.4, before: str = "") -> str:
    """The operators of a run."""
    return f"BT /H {size} Tf {before} {matrix} Tm ({shown}) Tj ET "


def one(content: str) -> Run:
    read = page(content)
    assert (len(read.runs), read.odd) == (1, [])
    return read.runs[0]


def test_a_run() -> None:
    found = one(words("H"))
    assert found[:5] == near(0.5, 0.25, 0.2, 0.0, 0.0)
    assert (found.words, found.typed) == ("H", None)
    assert found.wide == pytest.approx(H * 0.2, abs=0.004)


def test_a_run_that_reads_up_the_page() -> None:
    found = one(words("H", "0 1 -1 0 36 18"))
    assert found[:5] == near(0.5, 0.25, 0.2, 1.0, 0.0)
    assert found.words == "H"
    assert found.wide == pytest.approx(H * 0.2, abs=0.004)


@pytest.mark.parametrize(("matrix", "size"), [("2 0 0 2 36 18", 7.2), ("0 0.5 -0.5 0 36 18", 28.8)])
def test_the_size_of_a_run(matrix: str, size: float) -> None:
    found = one(words("H", matrix, size))
    assert found[:3] == near(0.5, 0.25, 0.2)


@pytest.mark.parametrize(("before", "grey"), [("0.6 g", 153 / 255), ("1 g", 1.0), ("1 0 0 rg", 2.0), ("/Half gs", 2.0)])
def test_the_grey_of_a_run(before: str, grey: float) -> None:
    assert one(words("H", before=before)).grey == pytest.approx(grey)


TWISTED = [
    *("1 0 0 1.1 36 18", "1 0.1 0 1 36 18", "1 0 0.1 1 36 18", "-1 0 0 -1 72 36", "-1 0 0 1 72 18"),
    *("0 1 -1.1 0 36 18", "0 1 1 0 36 18", "0 -1 1 0 36 18", "0.1 1 -1 0 36 18", "0.1 1 -1 0.1 36 18"),
]


@pytest.mark.parametrize("matrix", TWISTED)
def test_a_run_that_is_twisted(matrix: str) -> None:
    read = page(words("H", matrix))
    assert read.odd == [f"a run that is twisted: {read.runs[0].words}"]
    assert read.runs[0].words.strip() == "H"


def test_words_as_they_show() -> None:
    assert one(words("NAIL 13'-9")).words == "NAIL 13'-9"
    assert one(words("\xe5l")).words == "ål"
    read = page(words("TOP") + words("END", "1 0 0 1 90 50"))
    assert [found.words.strip() for found in read.runs] == ["TOP", "END"]


def test_a_hyphen_where_a_word_may_go_on_in_the_next_line() -> None:
    read = page(words("two-", "1 0 0 1 36 40") + words("ply", "1 0 0 1 36 20"))
    assert [found.words.strip() for found in read.runs] == ["two-", "ply"]


# --- words to copy ---------------------------------------------------------------------------------------------------


def copied(text: str, *runs: str) -> str:
    return f"/Span << /ActualText {text} >> BDC {' '.join(runs)} EMC "


def test_words_to_copy_are_kept_apart() -> None:
    found = one(copied("(9 1/2)", words("H")))
    assert (found.words, found.typed) == ("H", "9 1/2")
    assert one(copied("()", words("H"))).typed == ""
    assert one(copied("<FEFF00390020>", words("H"))).typed == "9 "
    assert one(copied("<FEFF2014>", words("H"))).typed == "—"
    assert one(copied("<E9>", words("H"))).typed == "é"
    assert one(copied("<FE>", words("H"))).typed == "þ"


def test_runs_of_a_length_share_what_is_copied() -> None:
    content = copied("(9 1/2)", words("9"), words("1", "1 0 0 1 50 18")) + words("TOP", "1 0 0 1 70 18")
    content += copied("(8)", words("8", "1 0 0 1 36 50"))
    read = page(content)
    assert [(found.words.strip(), found.typed) for found in read.runs] == [
        ("9", "9 1/2"),
        ("1", "9 1/2"),
        ("TOP", None),
        ("8", "8"),
    ]


def test_a_mark_without_words_and_one_in_another() -> None:
    assert one(f"/Artifact BMC {words('H')} EMC").typed is None
    assert one(f"/Artifact BMC {copied('(9)', words('H'))} EMC").typed == "9"
    assert one(f"/P << /MCID 0 >> BDC {copied('(9)', words('H'))} EMC").typed == "9"
    found = one(copied("(9)", f"/Artifact BMC {words('H')} EMC"))
    assert (found.words, found.typed) == ("H", "9")


def test_the_same_mark_on_the_next_page() -> None:
    """What one page gives for copying is none of the next."""
    first, second = audit_pdf.read(file(copied("(9)", words("H")), copied("(8)", words("H")))).pages
    assert [run.typed for run in (*first.runs, *second.runs)] == ["9", "8"]
