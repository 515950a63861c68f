"""Invented old lists of repairs, with the troubles of real ones, and the columns files that say what they mean."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from repairlog.access import Actor, Membership
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.intake.lists import Importing, Tally, read_columns, take
from tests.makers.book import RECEIVED, Book

HEADER = "Leak No,Where,Near,Town,Reported,Class in May,Grade,Repaired,Remark"

COLUMNS = """
kind = "repairs"
identity = "number"
dates = { order = "month day year", two_digit_years_from = 1950 }
listed_on = 2016-12-31
[columns]
number = "Leak No"
address = "Where"
cross_street = "Near"
town = "Town"
reported = "Reported"
repaired = "Repaired"
note = "Remark"
[[grade_on]]
column = "Class in May"
on = 2016-05-15
[[grade_on]]
column = "Grade"
on_column = "Repaired"
[words]
"Not Found Yet" = "no entry"
"2A" = { keep = true, rank = 2 }
"""

STREETS = ("QUARRY LN", "TANNERS ROW", "MILL LN", "SALTPAN RD", "HARROW ST", "CHANDLERS WAY")
TOWNS = ("HARROWSEDGE", "EASTMARSH", "NETHERWICK")


def rows(how_many: int) -> Iterator[str]:
    """So many rows, each a leak of its own with two or three entries after its opening."""
    for place in range(how_many):
        month, day, days = place % 11 + 1, place % 28 + 1, place % 3
        street = STREETS[place % len(STREETS)] + (f" {place // 600}" if place >= 600 else "")
        was = ("Not Found Yet", "3", "2A", "2")[place % 4]
        repaired = f"{month}/{min(day + days, 28)}/16"
        near = "@ GREEN ST" if place % 17 == 0 else ""
        where = street if place % 17 == 0 else f"{place % 240 + 1} {street}"
        town = TOWNS[place % len(TOWNS)]
        yield f"{700_000 + place},{where},{near},{town},{month}/{day}/16,{was},{place % 3 + 1},{repaired},"


def written(file: Path, *, how_many: int) -> Path:
    """A list of so many rows in that file, with a mark of its byte order and lone carriage returns."""
    return put(file, rows(how_many), end="\r", encoding="utf-8-sig")


def put(
    file: Path, lines: Iterator[str] | Sequence[str], *, header: str = HEADER, end: str = "\n", encoding: str = "utf-8"
) -> Path:
    """A list of these rows in that file."""
    with file.open("w", encoding=encoding, newline="") as out:
        out.writelines(f"{line}{end}" for line in (header, *lines))
    return file


def importer(book: Book) -> Actor:
    """The book's administrator, taking a list in."""
    held = Membership(role="administrator", area=None, from_on="2025-01-02")
    return Actor(person=book.everyone.person, sure="import", memberships=(held,))


def taken(
    book: Book,
    file: Path,
    *,
    columns: str = COLUMNS,
    area: str = "",
    only_look: bool = False,
    tell: Callable[[Tally], None] = lambda _tally: None,
    meanwhile: Callable[[], object] = lambda: None,
) -> Tally:
    """What became of the rows of that list, taken into an area of the book or only looked at. `meanwhile`: what
    others do after each look into the book, before it is written."""

    def moments() -> Moments:
        meanwhile()
        return Moments(received=RECEIVED)

    of = Importing(
        store=book.store,
        area=read_id(area or book.area),
        columns=read_columns(columns.encode()),
        actor=importer(book),
        moments=moments,
        only_look=only_look,
    )
    return take(of, file, tell=tell)
