"""Any list taken away as CSV: the same filter at the same address with `as=csv`, all its rows and not a page of them.

`frame/listing` gives a list so: `after(last)` gives the rows that follow the row `last` (the first ones for None, none
at the end), `AT_ONCE` at the most, by keyset and in the asker's scope. Nothing is noted of who takes what.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from tempfile import SpooledTemporaryFile
from typing import Any
from urllib.parse import urlencode

from flask import request
from werkzeug.wrappers import Response

from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker
from repairlog.words import _

AT_ONCE = 1000
"""Rows that are read at once: what is in memory at any time."""

IN_MEMORY = 1_000_000
"""Bytes from which on the file lies on disk until it is sent."""

A_PIECE = 64 * 1024
"""Bytes that are sent at once."""

PAGES = ("as", "older", "newer", "saved")
"""What an address says beside its filter; none of it is taken along."""

FORMULA = (*"=+-@\t\r\n", *"\N{FULLWIDTH EQUALS SIGN}\N{FULLWIDTH PLUS SIGN}\N{FULLWIDTH HYPHEN-MINUS}")
"""What a spreadsheet may take for the beginning of a formula. Source: OWASP, CSV Injection."""

Columns = Mapping[str, Callable[[Any], str | int]]
"""By the word at its head, what a row has in the column: text as it is written in the book, or a whole number."""

After = Callable[[Any | None], Sequence[Any]]
"""The rows that follow that row, at most `AT_ONCE` of them."""


def csv_wanted() -> bool:
    """Whether the address asks for the list as a file."""
    return request.args.get("as") == "csv"


def csv_address(*, without: Collection[str] = ()) -> str:
    """Where the list that is shown is given as a file: this address with its filter. `without`: names in it that could
    not be read and that the list was not filtered by."""
    kept = [(name, text) for name, text in request.args.items(multi=True) if name not in (*PAGES, *without) and text]
    return f"{request.path}?{urlencode([*kept, ('as', 'csv')])}"


def as_csv(*, name: str, areas: Sequence[Area], columns: Columns, after: After) -> Response:
    """The answer that gives all rows as a file. `name`: of the list; `areas`: those whose rows these may be: both stand
    in the file's name, with today's day.

    The file is UTF-8 with the mark that spreadsheets know it by, otherwise as RFC 4180 has it. It is read
    `AT_ONCE` rows at a time and sent once it is whole: nobody takes a part for the whole.
    """
    rows = (row for page in _pages(after) for row in page)
    area = areas[0].code if len(areas) == 1 else _("all areas")
    file, length = _file(columns, rows)
    answer = Response(_pieces(file))
    answer.call_on_close(file.close)
    answer.headers["Content-Type"] = "text/csv; charset=utf-8; header=present"
    answer.headers["Content-Disposition"] = f'attachment; filename="{file_name(name, area, asker().on)}"'
    answer.content_length = length
    return answer


def file_name(*parts: str) -> str:
    """`leaks-ES-2026-03-05.csv`: letters, digits and hyphens alone, whatever the parts hold."""
    plain = (re.sub(r"[^A-Za-z0-9]+", "-", part).strip("-") for part in parts)
    return "-".join(filter(None, plain)) + ".csv"


def neutral(cell: str | int) -> str:
    """The cell as it stands in the file. Text that a spreadsheet might work out instead of showing it, behind blanks
    too, begins with an apostrophe there, by which it is text; a number is a number."""
    if isinstance(cell, int):
        return str(cell)
    return f"'{cell}" if cell.startswith(FORMULA) or cell.lstrip().startswith(FORMULA) else cell


def _pages(after: After) -> Iterator[Sequence[Any]]:
    last = None
    while page := after(last):
        yield page
        last = page[-1]


def _file(columns: Columns, rows: Iterable[Any]) -> tuple[Any, int]:
    """The file, to be read from its beginning, and its length in bytes."""
    file: Any = SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115 - the answer closes it
    text = io.TextIOWrapper(file, encoding="utf-8-sig", errors="replace", newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([neutral(cell(row)) for cell in columns.values()] for row in rows)
    text.flush()
    text.detach()
    length = file.tell()
    file.seek(0)
    return file, length


def _pieces(file: Any) -> Iterator[bytes]:
    with file:
        while piece := file.read(A_PIECE):
            yield piece
