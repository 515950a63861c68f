"""A list of any length takes no more memory than a short one."""

from __future__ import annotations

import gc
import tracemalloc
from pathlib import Path

from tests.makers.book import Book
from tests.makers.old_lists import taken, written


def peak(book: Book, file: Path, *, only_look: bool = False) -> int:
    """The most bytes that were held at once while the list was taken in."""
    gc.collect()
    tracemalloc.start()
    try:
        tally = taken(book, file, only_look=only_look)
        assert tally.refused == 0
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


def test_six_times_the_rows_take_no_more_memory(sqlite_book: Book, tmp_path: Path) -> None:
    warm, short, long = (written(tmp_path / f"{rows}.csv", how_many=rows) for rows in (100, 300, 1800))
    peak(sqlite_book, warm)
    first = peak(sqlite_book, short)
    assert peak(sqlite_book, long) < 1.2 * first
    assert peak(sqlite_book, long, only_look=True) < 1.2 * first
