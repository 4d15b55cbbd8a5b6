"""What only several fields of a job together can tell."""

from __future__ import annotations

from typing import Any

import pytest
from jobs import Raw, job, job_text, problems
from opened import DOOR, wrongs

NO_ENDS: dict[str, Any] = {"building.front_columns": [], "building.back_columns": []}


@pytest.mark.parametrize(
    ("changes", "place", "says"),
    [
        ({"building.bays": ["24'", "23'-11"]}, "building.bays", "add up to 47'-11\". They must add up to"),
        ({"building.bays": 1}, "building.bays", "makes bays of 48'-0\". From 2'-0\" to 30'-0\"."),
        ({"building.bays": 25}, "building.bays", 'makes bays of 23 1/16"'),  # 576 / 25 = 23.04
        ({"lumber.stock": []}, "lumber.stock", "is empty"),
        ({"column.stock": []}, "column.stock", "is empty"),
        # 4 x 9 1/4 and two girts of 3 1/2 and a foot make 56, over 48
        ({"truss.bearing": "4'", "grade.board": "2x10", "grade.boards": 4}, "truss.bearing", "is too low"),
        ({"girts.edge": "top", "grade.boards": 2}, "grade.boards", "where tops are marked"),
        ({"roof.soffit": "level"}, "roof.soffit", "needs an overhang"),
        # a step of 8 1/2: boards of 9 1/4 inside lie in one another, girts of 3 1/2 outside do not
        (
            {"girts.place": "both", "girts.inside": "2x10", "girts.spacing": "fixed", "girts.step": "8 1/2"},
            "girts.inside",
            "lie in one another",
        ),
        # a 2x8 is 7 1/4 wide, columns of 2x6 are 5 1/2 deep
        ({"corners.board": "2x8"}, "corners.board", 'is 7 1/4" wide, and the corner columns are 5 1/2" deep'),
        ({"girts.place": "inside", "girts.top": "12'-2"}, "girts.top", "above the bearing, where the trusses stand"),
    ],
)
def test_fields_that_do_not_go_together(changes: dict[str, Any], place: str, says: str) -> None:
    found = problems(job_text(changes))
    assert {p.place for p in found} == {place}
    assert says in str(found[0])


def test_a_corner_board_may_be_as_wide_as_the_columns_are_deep() -> None:
    assert not problems(job_text({"corners.board": "2x6"}))
    assert not problems(job_text({"corners.board": "2x8", "column.depth": "7 1/4"}))


def test_rows_on_the_inside_may_not_lie_in_one_another() -> None:
    """Boards of 9 1/4 at equal steps under 8 1/2: every girt in the next one, the last in the top girt."""
    found = problems(job_text({"girts.place": "inside", "girts.board": "2x10", "girts.step": "8 1/2"}))
    assert {p.place for p in found} == {"girts.step", "truss.bearing"}
    assert all("lie in one another" in str(p) for p in found)


def test_bays_may_be_off_by_rounding_only() -> None:
    assert job({"building.bays": ["24'", "23'-11 31/32"], "lumber.stock": ["24'"]}).building.bays == (288, 287.96875)
    assert problems(job_text({"building.bays": ["24'", "23'-11 15/16"]}))


def test_the_largest_column_goes_into_the_narrowest_building() -> None:
    """16 + 12 is under half of 8 ft."""
    smallest = {"building.width": "8'", "column.depth": "16", "column.width": "12"} | NO_ENDS
    assert problems(job_text(smallest)) == []


def test_several_of_them_come_in_one_run() -> None:
    text = job_text({"building.bays": 1, "roof.soffit": "level", "lumber.stock": []})
    assert {p.place for p in problems(text)} == {"building.bays", "roof.soffit", "lumber.stock"}


def test_heights_are_from_the_grade_line_unless_the_job_says_floor() -> None:
    assert job({"grade.floor": "4"}).bearing == 144
    from_floor = job({"grade.floor": "4", "truss.heights_from": "floor"})
    assert from_floor.floor_shift == 4
    assert from_floor.bearing == 148  # 144 + 4


# --- made tops ------------------------------------------------------------------------------------------------------

MADE: dict[str, Any] = {"column.notch": "12'-6", "column.ears": "16", "column.treated": "all"}


@pytest.mark.parametrize(
    ("changes", "place", "says"),
    [
        # the top is cut: nothing of a made one
        ({"column.notch": "12'-6"}, "column.notch", "is of a made top, and the top is cut"),
        ({"column.ears": "16"}, "column.ears", 'Give column.trims = "bottom" or "none".'),
        # the bottom is cut
        ({**MADE, "column.trims": "bottom", "column.treated": "end"}, "column.trims", "would cut off the treated end"),
        (
            {"column.trims": "bottom", "column.treated": "all"},
            "column.notch",
            'must be given where column.trims = "bot',
        ),
        ({**MADE, "column.trims": "bottom", "column.centre_ply": "11'"}, "column.centre_ply", "asks for a seat block"),
        # neither is
        ({"column.trims": "none"}, "column.notch", "or give column.centre_ply for a seat block"),
        (
            {**MADE, "column.trims": "none", "column.centre_ply": "11'"},
            "column.centre_ply",
            "stands beside column.notch",
        ),
        # 132 + 12 reaches the bearing of 144 and not past it
        (
            {"column.trims": "none", "column.centre_ply": "11'", "column.ears": "12"},
            "column.ears",
            "must reach past the bearing, 12'-0\"",
        ),
    ],
)
def test_columns_that_cannot_be_made_so(changes: dict[str, Any], place: str, says: str) -> None:
    found = problems(job_text(changes))
    assert [p.place for p in found] == [place]
    assert says in str(found[0])


@pytest.mark.parametrize(
    "changes",
    [
        {**MADE, "column.trims": "bottom"},
        {**MADE, "column.trims": "bottom", "column.treated": "none"},
        {**MADE, "column.trims": "none", "column.treated": "end"},
        {"column.trims": "none", "column.centre_ply": "11'", "column.ears": "12 1/16"},
        {"column.centre_ply": "11'"},
    ],
)
def test_columns_that_can(changes: dict[str, Any]) -> None:
    assert problems(job_text(changes)) == []


def test_a_bottom_cut_without_a_notch_off_a_treated_end_is_told_both() -> None:
    assert {p.place for p in problems(job_text({"column.trims": "bottom"}))} == {"column.trims", "column.notch"}


def test_a_notch_that_cannot_be_read_is_told_once() -> None:
    text = job_text({"column.trims": "none", "column.notch": "twelve"})
    assert [p.place for p in problems(text)] == ["column.notch"]


# --- limits of the grade line ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "place", "says"),
    [
        ({"grade.most": "1/2"}, "grade.most", 'leaves no room for a line. At least grade.least, 1"'),
        ({"grade.floor_at": "4"}, "grade.floor_at", "Name the point it is measured from: grade.benchmark"),
        ({"grade.floor_at": "-4"}, "grade.floor_at", "is above or below no point"),
        # the floor stands 3 1/2 over the board's bottom edge, and may come 1/2 lower than wanted
        ({"grade.cover": "4"}, "grade.cover", 'Up to 3 1/2", or a higher grade.floor'),
        ({"grade.cover": "4 1/16", "grade.benchmark": "BM"}, "grade.cover", 'is more than any line gives. Up to 4"'),
    ],
)
def test_limits_that_leave_no_line(changes: dict[str, Any], place: str, says: str) -> None:
    found = problems(job_text(changes))
    assert [p.place for p in found] == [place]
    assert says in str(found[0])


@pytest.mark.parametrize(
    "changes",
    [
        {"grade.most": "1"},
        {"grade.most": "1/2", "grade.line": "44"},  # the least offset is for a line that is chosen
        {"grade.benchmark": "BM", "grade.floor_at": "-4"},
        {"grade.benchmark": "BM", "grade.cover": "4"},
        {"grade.cover": "3 1/2"},
        {"grade.benchmark": "BM in the north wall"},  # as long as a file of readings may call it
    ],
)
def test_limits_that_leave_one(changes: dict[str, Any]) -> None:
    assert problems(job_text(changes)) == []


# --- openings -------------------------------------------------------------------------------------------------------


def test_an_opening_that_cannot_be_read_leaves_the_others_to_be_judged() -> None:
    found = wrongs({**DOOR, "width": "wide"}, {**DOOR, "name": "D8", "wall": "Q"}, {**DOOR, "name": "N7", "bay": 40})
    assert [place for place, _ in found] == ["opening 1.width", "opening 2.wall", "opening 3.bay"]


@pytest.mark.parametrize("key", ["name", "wall", "width", "height"])
def test_what_an_opening_must_say(key: str) -> None:
    ((place, words),) = wrongs({**DOOR, key: Raw("")})
    assert place == f"opening 1.{key}"
    assert "must be given" in words


def test_openings_are_not_judged_on_walls_that_cannot_be_read() -> None:
    found = wrongs({**DOOR, "wall": "Q"}, building__bays="six")
    assert [place for place, _ in found] == ["building.bays"]


def test_a_header_that_no_board_reaches_over_is_told() -> None:
    """Bays of 20 ft and boards of 16: told once, as it is without the door."""
    changes: dict[str, Any] = {"building__length": "40'", "building__bays": 2, "lumber__stock": ["16'"]}
    assert {place for place, _ in wrongs({**DOOR, "bay": 1}, **changes)} == {"building.bays"}


# --- fields under a heading that is not theirs ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "value", "right"),
    [
        ("job.bays", 6, "It stands under [building]: is that heading missing?"),
        ("job.line", "girts", "It stands under [building] or [grade]: is that heading missing?"),
        ("truss.sill", "4'", "It stands under [[opening]]: is that heading missing?"),
        ("truss.spares", 2, "It stands under [lumber]: is that heading missing?"),
        ("truss.tag", 2, "Known: "),
    ],
)
def test_a_field_of_another_part_is_told_where_it_stands(key: str, value: object, right: str) -> None:
    (found,) = problems(job_text({key: value}))
    assert (found.place, found.wrong) == (key, "is not a field.")
    assert found.right.startswith(right)


def test_a_job_without_the_heading_of_its_building_is_told_so_and_right_with_it() -> None:
    text = job_text({})
    assert text.count("[building]\n") == 1
    found = {p.place: p.right for p in problems(text.replace("[building]\n", ""))}
    assert found["job.bays"] == found["job.length"] == "It stands under [building]: is that heading missing?"
    assert found["job.width"] == "It stands under [building] or [column] or [[opening]]: is that heading missing?"
    assert not problems(text)


def test_a_field_under_no_heading_is_told_where_it_stands() -> None:
    first, *more = problems(f"bays = 6\n{job_text({})}")
    assert (first.place, more) == ("bays", [])
    assert first.right == "It stands under [building]: is that heading missing?"
    (first,) = problems(f"zzzz = 6\n{job_text({})}")
    assert first.right.startswith("Known: job, building")


def test_a_slip_in_an_opening_is_told_its_own_field() -> None:
    door = '[[opening]]\nname = "D"\nwall = "A"\nkind = "walk"\nwidth = "3\'"\nheight = "6\'-8"\n'
    found = {p.place: p.right for p in problems(f"{job_text({})}{door}bays = 2\nspares = 2\n")}
    assert found["opening 1.bays"] == "Did you mean bay?"
    assert found["opening 1.spares"] == "It stands under [lumber]: is that heading missing?"


def test_a_column_is_not_called_like_a_remark() -> None:
    """A line of readings that begins with # is passed over, and the column's reading with it."""
    (found,) = problems(job_text({"names.A1": "#2"}))
    assert str(found).endswith(
        "names.A1 = #2: begins with #, and a line of readings that begins so is a remark. Leave the # out, like 2."
    )
    assert not problems(job_text({"names.A1": "2"}))
    assert not problems(job_text({"names.A1": "No#2"}))
    (found,) = problems(job_text({"names.A1": "#"}))
    assert found.right == "Leave the # out."
