"""Everything that is said of an old list has its sentence, and none is kept that nothing says."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from repairlog.intake.lists import Refusal, Wrong
from repairlog.words import complaints, lists
from repairlog.words.lists import counts, file_sentence, raised_line, sentence, wrong_line
from tests.house import reading

FACTS = {
    "order": "month day year",
    "kind": "grade_set",
    "stands": "2",
    "came": "3",
    "got": "9",
    "most": "8",
    "last": "7",
}


def _calls(*names: str) -> Iterator[ast.Call]:
    files = sorted((reading.ROOT / "repairlog/intake/lists").glob("*.py"))
    files += [reading.ROOT / "repairlog/cli/import_list.py"]
    for tree in (ast.parse(file.read_text()) for file in files):
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and reading.name_called(node) in names:
                yield node


def _texts(value: ast.expr) -> list[str]:
    if isinstance(value, ast.IfExp):
        return _texts(value.body) + _texts(value.orelse)
    return [value.value] if isinstance(value, ast.Constant) and isinstance(value.value, str) else []


def _codes(place: int, *names: str) -> set[str]:
    """The codes that these functions are called with: the argument of that place, or the one named code."""
    found = {
        text for call in _calls(*names) for word in call.keywords if word.arg == "code" for text in _texts(word.value)
    }
    return found | {text for call in _calls(*names) if len(call.args) > place for text in _texts(call.args[place])}


ROW = _codes(1, "refuse") | _codes(0, "CellUnclear") | _codes(9, "Refusal")
COLUMNS = _codes(1, "wrong") | _codes(9, "Wrong")
FILE = _codes(0, "FileWrong")


def test_the_codes_are_found() -> None:
    assert {"day_unreadable", "word_refused", "says_otherwise", "rows_run_together"} <= ROW
    assert {"key_unknown", "column_unknown", "kind_differs", "lasting_and_outcome"} <= COLUMNS
    assert {"no_rows", "not_in_its_encoding"} <= FILE


@pytest.mark.parametrize("code", sorted(ROW))
def test_why_a_row_was_sent_back_is_a_sentence_with_something_to_do(code: str) -> None:
    message, hint = sentence(Refusal(line=2, column="Where", cell="x", code=code, facts=FACTS))
    assert (message[-1], hint[-1], "{" in message + hint) == (".", ".", False)


@pytest.mark.parametrize("code", sorted(COLUMNS))
def test_what_is_wrong_in_a_columns_file_is_told_with_its_key(code: str) -> None:
    told = wrong_line(Wrong(key="columns.town", code=code, got="Twon", expected="this, that", perhaps="Town"))
    assert told.startswith("columns.town: ")
    assert told.endswith(" Perhaps “Town” is meant.")


@pytest.mark.parametrize("reason", sorted(FILE))
def test_why_a_file_is_no_list_is_a_sentence(reason: str) -> None:
    assert file_sentence(reason, {"said": "x", "line": "3"}).endswith(".")


def test_no_sentence_is_kept_that_nothing_says() -> None:
    own = {*lists._of_days(), *lists._of_rows(), *lists._of_the_book()}
    assert (own - ROW, {*lists._of_columns()} - COLUMNS) == (set(), set())


def test_a_complaint_of_a_field_is_said_of_its_cell() -> None:
    refusal = Refusal(line=2, column="Where", cell="x" * 300, code="too_long", facts={"got": "300", "longest": "200"})
    assert sentence(refusal) == complaints.sentence(lists._AsComplaint(refusal))
    assert sentence(refusal)[0] == "The text has 300 characters; 200 is the most."


def test_what_became_of_the_rows_is_said_for_one_and_for_many() -> None:
    one = counts(rows=1, taken=1, already_here=0, refused=0, only_looked=False)
    assert one == "1 row read: 1 taken in, 0 in the book already, 0 sent back."
    assert counts(rows=2, taken=1, already_here=1, refused=0, only_looked=True).startswith(
        "2 rows read, nothing written:"
    )


def test_a_gap_that_has_no_words_of_its_own_is_told_by_its_code() -> None:
    assert raised_line("ended_twice", 2) == "2 raised: ended_twice (ended_twice)"
    assert raised_line("grade_not_known", 2).startswith("2 raised: a grade of which no rank is known")
