"""The file of a list: its line endings, its marks, its quotation marks, and rows that cannot be told apart."""

from __future__ import annotations

from pathlib import Path

import pytest

from repairlog.intake.lists import ColumnsWrong, FileWrong, Refusal, Wrong, read_columns
from repairlog.intake.lists.file import Row, opened

COLUMNS = """
kind = "leaks"
listed_on = 2016-12-31
dates = { order = "month day year" }
[columns]
number = "No"
town = "Town"
"""


def read(file: Path, raw: bytes, *, also: str = "") -> list[tuple[int, list[str]] | Refusal]:
    """The rows of a file of these bytes: the line of each, and its cells."""
    file.write_bytes(raw)
    with opened(file, read_columns(f"{also}{COLUMNS}".encode())) as found:
        assert found.header == ("No", "Town")
        return [(row.line, list(row.cells.values())) if isinstance(row, Row) else row for row in found.rows]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "list.csv"


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_any_line_ending_is_read_with_a_mark_before_it_or_without(file: Path, end: bytes, mark: bytes) -> None:
    raw = mark + end.join([b"No,Town", b"1,Harrowsedge", b"", b"2, Netherwick ", b",", b"3"])
    assert read(file, raw) == [(2, ["1", "Harrowsedge"]), (4, ["2", "Netherwick"]), (6, ["3", ""])]


def test_a_cell_between_quotation_marks_may_hold_separators_and_lines(file: Path) -> None:
    raw = b'No,Town\r1,"Harrowsedge, the ""old"" part\rby the mill"\r2,x\r'
    assert read(file, raw) == [(2, ["1", 'Harrowsedge, the "old" part\nby the mill']), (4, ["2", "x"])]


def test_a_row_with_more_cells_than_columns_is_sent_back_and_the_next_is_read(file: Path) -> None:
    facts = {"got": "3", "most": "2"}
    sent_back = Refusal(line=2, cell="the old part", code="more_cells_than_columns", facts=facts)
    assert read(file, b"No,Town\n1,Harrowsedge,the old part\n2,x,\n") == [sent_back, (3, ["2", "x"])]


def test_a_quotation_mark_inside_a_cell_sends_that_row_back_alone(file: Path) -> None:
    sent_back = Refusal(line=3, code="rows_run_together", facts={"last": "3"})
    assert read(file, b'No,Town\n1,x\n2,"Mill" End\n3,y\n') == [(2, ["1", "x"]), sent_back, (4, ["3", "y"])]


def test_a_quotation_mark_that_is_never_closed_says_how_far_it_reaches(file: Path) -> None:
    sent_back = Refusal(line=3, code="rows_run_together", facts={"last": "5"})
    assert read(file, b'No,Town\n1,x\n2,"Mill\n3,y\n4,z\n') == [(2, ["1", "x"]), sent_back]


def test_another_encoding_and_another_separator(file: Path) -> None:
    also = 'encoding = "windows-1252"\nseparator = ";"\n'
    assert read(file, b"No;Town\n1;H\xf6he, East\n", also=also) == [(2, ["1", "Höhe, East"])]


def test_a_byte_that_is_no_text_stays_in_its_cell(file: Path) -> None:
    assert read(file, b"No,Town\n1,H\xf6he\n2,x\n") == [(2, ["1", "H\udcf6he"]), (3, ["2", "x"])]


@pytest.mark.parametrize(
    ("raw", "reason"),
    [(b"", "no_rows"), (b"\n,,\n", "no_rows"), (b"PK\x03\x04zip", "spreadsheet"), (b'"No\n', "header_unreadable")],
)
def test_what_is_no_list_says_so(file: Path, raw: bytes, reason: str) -> None:
    with pytest.raises(FileWrong) as caught:
        read(file, raw)
    assert caught.value.reason == reason


def test_a_file_that_is_not_in_its_encoding_says_from_which_line_on(file: Path) -> None:
    with pytest.raises(FileWrong) as caught:
        read(file, "No,Town\n1,x\n".encode("utf-16") + b"\x00", also='encoding = "utf-16"\n')
    assert (caught.value.reason, caught.value.facts) == ("not_in_its_encoding", {"line": "3"})


def test_columns_that_the_list_lacks_are_named_with_what_it_has(file: Path) -> None:
    file.write_bytes(b"No.,Town,Town\n")
    with pytest.raises(ColumnsWrong) as caught, opened(file, read_columns(COLUMNS.encode())):
        pass
    assert caught.value.wrongs == [
        Wrong(key="columns.number", code="column_unknown", got="No", expected="No., Town, Town", perhaps="No."),
        Wrong(key="columns.town", code="column_twice", got="Town"),
    ]
