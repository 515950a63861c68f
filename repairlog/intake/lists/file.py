"""The file of a list: its header and its rows, one after the other, each with the line it begins on."""

from __future__ import annotations

import _csv
import csv
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from repairlog.intake.lists.columns import ColumnsWrong, Wrong, close_to
from repairlog.intake.lists.declared import Columns, columns_named
from repairlog.intake.lists.refusal import Refusal
from repairlog.intake.said import plain_text

SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")


class FileWrong(Exception):
    """The file is no list that can be read. `reason`: `no_rows`, `spreadsheet`, `header_unreadable`,
    `not_in_its_encoding`. `facts`: texts."""

    def __init__(self, reason: str, **facts: str) -> None:
        super().__init__(reason)
        self.reason = reason
        self.facts = facts


@dataclass(frozen=True, slots=True)
class Row:
    """A row as it stands in the file. `line`: where it begins, from 1. `cells`: by column, blank around them taken off;
    a cell that is left out at the end of a row is empty."""

    line: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class List:
    """An open list. `header`: its columns in their order. `rows`: what can be told apart as rows, to be read once; a
    Refusal stands in the place of what cannot."""

    header: tuple[str, ...]
    rows: Iterator[Row | Refusal]


@contextmanager
def opened(file: Path, columns: Columns) -> Iterator[List]:
    """The list in that file. Raises FileWrong, or ColumnsWrong where it lacks columns that the columns file names.

    Any of the three line endings is read. A byte that is no text in the encoding stays in its cell as half of a
    surrogate pair, so that its row can be sent back.
    """
    with file.open("rb") as beginning:
        if beginning.read(4) in SPREADSHEETS:
            raise FileWrong("spreadsheet")
    encoding = "utf-8-sig" if columns.encoding == "utf-8" else columns.encoding
    with file.open(encoding=encoding, errors="surrogateescape", newline="") as text:
        reader = csv.reader(text, delimiter=columns.separator, strict=True)
        header = _header(reader)
        _demand_columns(columns, header)
        yield List(header, _rows(reader, header))


def _header(reader: Iterator[list[str]]) -> tuple[str, ...]:
    try:
        return next(tuple(plain_text(name) for name in cells) for cells in reader if any(map(str.strip, cells)))
    except StopIteration:
        raise FileWrong("no_rows") from None
    except (csv.Error, UnicodeError) as problem:
        raise FileWrong("header_unreadable", said=str(problem)) from problem


def _demand_columns(columns: Columns, header: tuple[str, ...]) -> None:
    wrongs = []
    named = [name for name in header if name]
    for key, column in columns_named(columns):
        if column not in header:
            has = ", ".join(named)
            perhaps = close_to(column, named)
            wrongs.append(Wrong(key=key, code="column_unknown", got=column, expected=has, perhaps=perhaps))
        elif header.count(column) > 1:
            wrongs.append(Wrong(key=key, code="column_twice", got=column))
    if wrongs:
        raise ColumnsWrong(wrongs)


def _rows(reader: _csv.Reader, header: tuple[str, ...]) -> Iterator[Row | Refusal]:
    while True:
        line = reader.line_num + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            yield Refusal(line=line, code="rows_run_together", facts={"last": str(reader.line_num)})
            continue
        except UnicodeError as problem:
            raise FileWrong("not_in_its_encoding", line=str(line)) from problem
        texts = [plain_text(cell) for cell in cells]
        if not any(texts):
            continue
        if any(texts[len(header) :]):
            facts = {"got": str(len(texts)), "most": str(len(header))}
            yield Refusal(line=line, code="more_cells_than_columns", cell=texts[-1], facts=facts)
            continue
        texts += [""] * (len(header) - len(texts))
        yield Row(line, dict(zip(header, texts, strict=False)))
