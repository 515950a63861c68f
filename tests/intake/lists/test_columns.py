"""Reading a columns file: what it declares, and everything that is wrong in it, each with its place."""

from __future__ import annotations

import re

import pytest

from repairlog.intake.lists import ColumnsWrong, Wrong, read_columns
from repairlog.intake.lists.columns import TOP
from repairlog.intake.lists.declared import REPAIR, ROLES, Columns, Graded, Word
from repairlog.shipped import config
from repairlog.words.lists import wrong_line
from tests.makers.old_lists import COLUMNS

LEAST = """
kind = "repairs"
listed_on = 2016-12-31
dates = { order = "day month year" }
[columns]
number = "No"
repaired = "Done"
"""


def wrongs(told: str) -> list[Wrong]:
    with pytest.raises(ColumnsWrong) as caught:
        read_columns(told.encode())
    return caught.value.wrongs


def wrong(told: str) -> tuple[str, str, str, str]:
    """Key, code, what came, what was perhaps meant, of the one thing that is wrong."""
    (only,) = wrongs(told)
    assert wrong_line(only).endswith((".", ".]", "”]."))
    return only.key, only.code, only.got, only.perhaps


def changed(old: str, new: str, *, of: str = LEAST) -> str:
    assert old in of
    return of.replace(old, new)


def test_a_columns_file_is_read_with_what_it_leaves_out() -> None:
    assert read_columns(LEAST.encode()) == Columns(
        kind="repairs",
        order="day month year",
        two_digit_years_from=None,
        listed_on="2016-12-31",
        encoding="utf-8",
        separator=",",
        identity=(),
        of={"number": "No", "repaired": "Done"},
        grades=(),
        words={},
        constants={},
        repair={},
    )


def test_days_and_words_of_the_list_are_read() -> None:
    read = read_columns(COLUMNS.encode())
    assert read.two_digit_years_from == 1950
    assert read.grades == (
        Graded(column="Class in May", on="2016-05-15"),
        Graded(column="Grade", on_column="Repaired"),
    )
    assert read.words == {"not found yet": Word(does="nothing"), "2a": Word(does="keep", rank=2)}


@pytest.mark.parametrize(
    ("means", "word"),
    [
        ('"note"', Word(does="note")),
        ('"refuse"', Word(does="refuse")),
        ('"cast_iron"', Word(does="value", value="cast_iron")),
        ("{ keep = true }", Word(does="keep")),
        ('{ value = "2A", rank = 2 }', Word(does="value", value="2A", rank=2)),
    ],
)
def test_what_a_word_may_mean(means: str, word: Word) -> None:
    assert read_columns(f'{LEAST}[words]\n"Class  Two" = {means}\n'.encode()).words == {"class two": word}


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        (changed('kind = "repairs"', 'kind = "repair"'), ("kind", "not_one_of", "repair", "repairs")),
        (changed('kind = "repairs"', ""), ("kind", "missing", "", "")),
        (changed("listed_on", "listed"), None),
        (changed("2016-12-31", '"31.12.2016"'), ("listed_on", "not_a_day", "31.12.2016", "")),
        (changed("2016-12-31", "2016-12-31T10:00:00"), ("listed_on", "not_a_day", "2016-12-31 10:00:00", "")),
        (changed("day month", "day mont"), ("dates.order", "not_one_of", "day mont year", "day month year")),
        (changed(" }", ", two_digit_years_from = 50 }"), ("dates.two_digit_years_from", "not_a_year", "50", "")),
        (changed("[columns]", "[colums]"), None),
        (changed("number =", "numbre ="), None),
        (changed('"No"', "7"), ("columns.number", "not_text", "7", "")),
        (changed('"No"', '" "'), ("columns.number", "not_text", " ", "")),
        (changed('repaired = "Done"', ""), ("columns.repaired", "repaired_missing", "", "")),
        (changed('"repairs"', '"leaks"'), ("columns.repaired", "not_of_open_leaks", "", "")),
        (changed('number = "No"', ""), ("identity", "identity_missing", "", "")),
        (changed("[columns]", 'identity = ["No"]\n[columns]'), ("identity", "number_or_identity", "", "")),
        (changed("[columns]", 'identity = "row"\n[columns]'), ("identity", "not_an_identity", "row", "")),
        (changed("[columns]", 'encoding = "utf-9"\n[columns]'), ("encoding", "encoding_unknown", "utf-9", "utf-8")),
        (changed("[columns]", 'encoding = "rot13"\n[columns]'), ("encoding", "encoding_unknown", "rot13", "")),
        (changed("[columns]", 'separator = ":"\n[columns]'), ("separator", "not_one_of", ":", "")),
        (LEAST + 'address = "A"\nstreet = "S"\n', ("columns.address", "address_or_its_parts", "", "")),
        (LEAST + '[[grade_on]]\ncolumn = "G"\n', ("grade_on 1", "one_of_on_and_on_column", "", "")),
        (
            LEAST + '[[grade_on]]\ncolumn = "G"\non = 2016-05-15\non_column = "D"\n',
            ("grade_on 1", "one_of_on_and_on_column", "", ""),
        ),
        (LEAST + '[[grade_on]]\ncolumn = "G"\non = "May"\n', ("grade_on 1.on", "not_a_day", "May", "")),
        (LEAST + '[grade_on]\ncolumn = "G"\n', ("grade_on", "not_a_list_of_tables", "{'column': 'G'}", "")),
        (LEAST + '[words]\nMissed = "no enrty"\n', ("words.Missed", "word_unclear", "no enrty", "no entry")),
        (LEAST + "[words]\nMissed = 3\n", ("words.Missed", "not_a_meaning", "3", "")),
        (LEAST + "[words]\nMissed = { keep = false }\n", ("words.Missed", "not_a_meaning", "{'keep': False}", "")),
        (LEAST + "[words]\n2A = { keep = true, rank = 0 }\n", ("words.2A.rank", "not_a_rank", "0", "")),
        (LEAST + '[constants]\nmaterial = "iron"\n', ("constants.material", "not_one_of", "iron", "cast_iron")),
        (LEAST + '[constants]\nstreet = "S"\n', ("constants.street", "key_unknown", "street", "cross_street")),
        (LEAST + 'town = "T"\n[constants]\ntown = "U"\n', ("constants.town", "column_or_constant", "", "")),
        (LEAST + '[repair]\nlasting = "permanent"\n', ("repair", "lasting_and_outcome", "lasting", "")),
        (LEAST + "words = 3\n", ("columns.words", "key_unknown", "words", "")),
    ],
)
def test_what_is_wrong_is_told_with_its_place(told: str, expected: tuple[str, str, str, str] | None) -> None:
    if expected is not None:
        assert wrong(told) == expected
    else:
        unknown = next(each for each in wrongs(told) if each.code == "key_unknown")
        assert unknown.perhaps in ("listed_on", "columns", "number")


def test_everything_wrong_is_told_at_once() -> None:
    found = wrongs('kind = "x"\nlisted_on = 1\n[columns]\nnumber = 3\n')
    assert [(each.key, each.code) for each in found] == [
        ("dates.order", "missing"),
        ("kind", "not_one_of"),
        ("listed_on", "not_a_day"),
        ("columns.number", "not_text"),
    ]


@pytest.mark.parametrize("raw", [b"kind = repairs", b"kind = \xff"])
def test_what_is_no_toml_says_so(raw: bytes) -> None:
    with pytest.raises(ColumnsWrong) as caught:
        read_columns(raw)
    (only,) = caught.value.wrongs
    assert wrong_line(only).startswith("It cannot be read as TOML: ")


def test_the_example_that_is_shipped_is_read_and_shows_every_key() -> None:
    example = (config() / "columns.example.toml").read_text()
    assert read_columns(example.encode()).kind == "repairs"
    shown = set(re.findall(r"^(?:# )?\[?\[?([a-z_]+)\]?\]?(?: =.*)?$", example, flags=re.M))
    assert {*TOP, *ROLES, *REPAIR, "on", "on_column", "column"} - shown == set()
