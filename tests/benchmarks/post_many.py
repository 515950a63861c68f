"""`post-many`: whole stories of leaks, 200 entries a call."""

from __future__ import annotations

from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure
from tests.benchmarks.posting import MOST, Call, figure_of, measured
from tests.benchmarks.repairs import lots, whole_story
from tests.makers.book import Book

ENTRIES_A_CALL = 200
AIM = 5.0


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: entries in the book; as many are posted, but no more than `MOST`."""
    a_call = min(ENTRIES_A_CALL, rows)

    def filled(book: Book) -> list[Call]:
        used = lots(book)
        calls: list[Call] = []
        for _call in range(max(1, min(rows, MOST) // a_call)):
            call: Call = []
            while len(call) < a_call:
                call += whole_story(book, lots=used)
            calls.append(call)
        return calls

    posted = measured(at, filled, entries=rows)
    return figure_of(
        posted,
        name="post-many",
        database=database,
        rows=rows,
        aim=AIM,
        what=f"executemany of the same rows through the driver, one transaction a call of {a_call} entries",
    )
