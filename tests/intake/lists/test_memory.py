"""A list of any length takes no more memory than a short one: nothing of a row outlives its call."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest

from repairlog.entries.entry import Entry, Standing
from repairlog.intake.lists import Tally
from repairlog.intake.lists.drafts import Draft, Drafts
from repairlog.intake.lists.file import Row
from repairlog.records.post.stories import Story
from tests.makers.book import Book
from tests.makers.old_lists import taken, written

OF_ROWS = (Row, Draft, Drafts, Entry, Standing, Story)


@pytest.mark.parametrize("only_look", [False, True])
def test_as_much_is_held_after_the_last_rows_as_after_the_first(
    sqlite_book: Book, tmp_path: Path, only_look: bool
) -> None:
    held: list[int] = []

    def count(_tally: Tally) -> None:
        gc.collect()
        held.append(sum(type(each) in OF_ROWS for each in gc.get_objects()))

    file = written(tmp_path / "list.csv", how_many=420)
    for _time in range(2):  # the second time it is all in the book, where it was not only looked at
        held.clear()
        taken(sqlite_book, file, only_look=only_look, tell=count)
        assert len(held) > 3
        assert max(held[1:]) < 1.2 * held[0]
