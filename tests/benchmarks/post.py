"""`post`: one Save of a crew, a repair with three materials and its test, on a leak that has four entries."""

from __future__ import annotations

from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure
from tests.benchmarks.posting import MOST, Call, figure_of, measured
from tests.benchmarks.repairs import leaks, lots, repair
from tests.makers.book import Book

AIMS = {"sqlite": 7.0, "postgresql": 5.0}


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: entries in the book. As many are posted, but no more than `MOST`: two a call, each on its own leak."""

    def filled(book: Book) -> list[Call]:
        lots_used = lots(book)
        return [repair(leak, lots=lots_used) for leak in leaks(book, how_many=max(1, min(rows, MOST) // 2))]

    posted = measured(at, filled, entries=rows)
    return figure_of(
        posted,
        name="post",
        database=database,
        rows=rows,
        aim=AIMS[database],
        floor_aim=", aim at most 3",
        what="the same rows as prepared statements through the driver, one transaction a call, the same durability",
    )
