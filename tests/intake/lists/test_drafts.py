"""What a row says: the entries that it becomes, and the cells that send it back."""

from __future__ import annotations

from typing import Any

import pytest

from repairlog.intake.lists import Refusal, read_columns
from repairlog.intake.lists.drafts import Drafts, drafts_of
from repairlog.intake.lists.file import Row
from repairlog.intake.lists.refusal import Refused
from tests.makers.old_lists import COLUMNS, HEADER

ROW = "700001,14 QUARRY LN,,HARROWSEDGE,4/10/16,Not Found Yet,2A,4/11/16,"
OF_LIST = {"happened": "2016-12-31", "happened_known": "on_or_before"}
REPAIR = '[repair]\nlasting = "permanent"\noutcome = "tight"\nmethod = "clamp"\n'


def drafts(row: str = ROW, *, columns: str = COLUMNS, header: str = HEADER) -> Drafts:
    cells = dict(zip(header.split(","), row.split(","), strict=True))
    return drafts_of(Row(2, cells), read_columns(columns.encode()))


def said(row: str = ROW, **how: str) -> list[dict[str, Any]]:
    """What is said in each entry after the opening."""
    return [dict(draft.said) for draft in drafts(row, **how).later]


def sent_back(row: str, **how: str) -> list[tuple[str, str, str]]:
    """Column, cell and code of each thing that speaks against the row."""
    with pytest.raises(Refused) as caught:
        drafts(row, **how)
    assert {refusal.line for refusal in caught.value.refusals} == {2}
    return [(refusal.column, refusal.cell, refusal.code) for refusal in caught.value.refusals]


def with_column(name: str, role: str, *, also: str = "") -> dict[str, str]:
    """The list with a column more, of that role."""
    columns = COLUMNS.replace("[columns]", f'[columns]\n{role} = "{name}"') + also
    return {"columns": columns, "header": f"{HEADER},{name}"}


def test_a_repaired_leak_is_opened_graded_and_ended_as_listed_and_nothing_is_made_up() -> None:
    read = drafts()
    assert (read.number, read.identity) == ("700001", ())
    assert dict(read.opened.said) == {
        "kind": "leak_opened",
        "detected_by": "listed",
        "happened": "2016-04-10",
        "number": "700001",
        "house_number": "14",
        "street": "QUARRY LN",
        "town": "HARROWSEDGE",
    }
    assert said() == [
        {"kind": "grade_set", "grade": "2A", "happened": "2016-04-11", "rank": 2},
        {"kind": "leak_ended", "how": "repaired", "happened": "2016-04-11"},
    ]


def test_an_entry_knows_the_columns_that_it_comes_from() -> None:
    read = drafts()
    assert read.opened.columns["street"] == read.opened.columns["house_number"] == "Where"
    assert [dict(draft.columns) for draft in read.later] == [
        {"grade": "Grade", "happened": "Repaired"},
        {"happened": "Repaired"},
    ]


def test_a_cross_street_in_place_of_a_number_leaves_the_number_out() -> None:
    opened = drafts(ROW.replace("14 QUARRY LN,", "QUARRY LN,@ GREEN ST")).opened.said
    assert (opened.get("house_number"), opened["street"], opened["cross_street"]) == (None, "QUARRY LN", "@ GREEN ST")


def test_a_class_column_is_a_grade_on_its_own_day() -> None:
    assert said(ROW.replace("Not Found Yet", "3"))[0] == {"kind": "grade_set", "grade": "3", "happened": "2016-05-15"}


def test_a_word_that_is_no_grade_is_a_note_of_that_day() -> None:
    assert said(ROW.replace("Not Found Yet", "Missed 2"))[2] == {
        "kind": "note",
        "text": "Class in May: Missed 2",
        "happened": "2016-05-15",
    }


def test_a_blank_grade_is_nothing() -> None:
    assert [each["kind"] for each in said(ROW.replace("2A", ""))] == ["leak_ended"]


def test_a_grade_without_a_day_of_its_own_stands_as_of_the_list() -> None:
    columns = COLUMNS.replace('[[grade_on]]\ncolumn = "Grade"\non_column = "Repaired"\n', "")
    columns = columns.replace("[columns]", '[columns]\ngrade = "Grade"')
    assert said(columns=columns)[0] == {"kind": "grade_set", "grade": "2A", "rank": 2} | OF_LIST


def test_a_grade_on_a_day_that_is_left_blank_stands_as_of_the_list() -> None:
    columns = COLUMNS.replace('on_column = "Repaired"', 'on_column = "Reported"')
    assert (
        said(ROW.replace("4/10/16", ""), columns=columns)[0]
        == {"kind": "grade_set", "grade": "2A", "rank": 2} | OF_LIST
    )


def test_a_leak_without_a_day_of_its_report_was_reported_on_or_before_the_list() -> None:
    assert dict(drafts(ROW.replace("4/10/16", "")).opened.said).items() >= OF_LIST.items()


def test_a_remark_is_a_note_as_of_the_list() -> None:
    assert said(ROW + "by the pole")[-1] == {"kind": "note", "text": "by the pole"} | OF_LIST


def test_an_attempt_is_made_only_where_the_list_means_one() -> None:
    assert said(columns=COLUMNS + REPAIR)[1:] == [
        {
            "kind": "repair_attempted",
            "lasting": "permanent",
            "outcome": "tight",
            "method": "clamp",
            "happened": "2016-04-11",
        },
        {"kind": "leak_ended", "how": "repaired", "happened": "2016-04-11"},
    ]


@pytest.mark.parametrize(
    "how", ['lasting = "temporary"\noutcome = "tight"', 'lasting = "permanent"\noutcome = "not_tight"']
)
def test_a_repair_that_the_list_calls_temporary_or_not_tight_ends_nothing(how: str) -> None:
    assert [each["kind"] for each in said(columns=f"{COLUMNS}[repair]\n{how}\n")] == ["grade_set", "repair_attempted"]


def test_what_was_done_is_a_note_where_no_attempt_can_be_made_of_it() -> None:
    told = said(f"{ROW},clamp", **with_column("Method", "method"))
    assert told[-1] == {"kind": "note", "text": "Method: clamp", "happened": "2016-04-11"}
    assert told[-2] == {"kind": "leak_ended", "how": "repaired", "happened": "2016-04-11"}


def test_what_leaked_is_a_source_as_of_the_list() -> None:
    told = said(f"{ROW},CI", **with_column("Pipe", "material", also='"CI" = "cast_iron"\n[constants]\npart = "main"\n'))
    assert told[0] == {"kind": "source_added", "part": "main", "material": "cast_iron"} | OF_LIST


def test_the_wrapping_put_back_is_a_field_of_the_attempt() -> None:
    told = said(f"{ROW},tape", **with_column("Wrapped", "coating_put_back", also=REPAIR))
    assert told[1].items() >= {"kind": "repair_attempted", "coating": "tape"}.items()


def test_a_list_of_leaks_says_nothing_of_repairs() -> None:
    columns = COLUMNS.replace('"repairs"', '"leaks"').replace('repaired = "Repaired"\n', "")
    assert [each["kind"] for each in said(columns=columns)] == ["grade_set"]


def test_without_a_number_the_named_cells_make_the_leak_and_a_day_is_the_same_however_written() -> None:
    columns = COLUMNS.replace('identity = "number"', 'identity = ["Where", "Town", "Reported"]')
    columns = columns.replace('number = "Leak No"\n', "")
    one = drafts(columns=columns)
    other = drafts(ROW.replace("QUARRY LN", "Quarry  Ln").replace("4/10/16", "2016-04-10"), columns=columns)
    assert (one.number, one.identity) == ("", ("14 quarry ln", "harrowsedge", "2016-04-10"))
    assert other.identity == one.identity


@pytest.mark.parametrize(
    ("word", "text"),
    [("note", "Town: HARROWSEDGE"), ("no entry", None)],
)
def test_a_word_means_the_same_in_any_column(word: str, text: str | None) -> None:
    read = drafts(columns=f'{COLUMNS}"harrowsedge" = "{word}"\n')
    assert "town" not in read.opened.said
    assert [draft.said["text"] for draft in read.later if draft.said["kind"] == "note"] == ([text] if text else [])


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        (ROW.replace("4/11/16", ""), [("Repaired", "", "repaired_day_missing")]),
        (ROW.replace("4/11/16", "soon"), [("Repaired", "soon", "day_unreadable")]),
        (ROW.replace("4/10/16", "4/31/16"), [("Reported", "4/31/16", "no_day_in_that_order")]),
        (ROW.replace("700001", ""), [("Leak No", "", "number_missing")]),
        (
            ROW.replace("4/10/16", "x").replace("4/11/16", "y"),
            [("Reported", "x", "day_unreadable"), ("Repaired", "y", "day_unreadable")],
        ),
    ],
)
def test_a_cell_that_cannot_be_read_sends_the_row_back(row: str, expected: list[tuple[str, str, str]]) -> None:
    assert sent_back(row) == expected


def test_a_word_may_send_the_row_back() -> None:
    assert sent_back(ROW, columns=f'{COLUMNS}"HARROWSEDGE" = "refuse"\n') == [("Town", "HARROWSEDGE", "word_refused")]


def test_a_refusal_says_what_was_expected() -> None:
    with pytest.raises(Refused) as caught:
        drafts(ROW.replace("4/11/16", "soon"))
    assert caught.value.refusals == [
        Refusal(line=2, column="Repaired", cell="soon", code="day_unreadable", facts={"order": "month day year"})
    ]
