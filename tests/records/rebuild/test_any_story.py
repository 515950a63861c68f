"""Whatever is said in whatever order, the door leaves every table as the journal alone would have it."""

from __future__ import annotations

import pytest

from repairlog.records.rebuild import check
from repairlog.records.verify import verify
from tests.makers import any_story, book

CALLS = 24


def holds(store, seed, *, every):
    story = any_story.begun(book.opened(store), seed=seed)
    for call in range(1, CALLS + 1):
        any_story.go_on(story)
        if call % every == 0:
            assert (seed, call, check(store).differences) == (seed, call, ())
    assert verify(store).problems == ()
    assert len(story.told) > CALLS, f"{story.refused} calls of {CALLS} could not be read"


@pytest.mark.parametrize("seed", range(60))
def test_the_door_and_the_journal_never_disagree(sqlite_store, seed):
    holds(sqlite_store, seed, every=8)


@pytest.mark.parametrize("seed", range(60, 66))
def test_the_door_and_the_journal_never_disagree_on_postgresql(postgresql_store, seed):
    holds(postgresql_store, seed, every=24)
