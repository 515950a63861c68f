"""Whatever is said in whatever order, the door leaves every table as the journal alone would have it."""

from __future__ import annotations

import pytest

from repairlog.records.post import fold_stale, ground
from repairlog.records.rebuild import check, expected
from repairlog.records.verify import verify
from tests.makers import any_story, book

CALLS = 24


@pytest.fixture(autouse=True)
def _few_subjects_at_once(request, monkeypatch):
    """A small book is folded in as many parts as a large one: one to three subjects at a time."""
    monkeypatch.setattr(expected, "SUBJECTS_AT_ONCE", 1 + request.getfixturevalue("seed") % 3)


def holds(store, seed, *, every):
    story = any_story.begun(book.opened(store), seed=seed)
    for call in range(1, CALLS + 1):
        any_story.go_on(story)
        if call % every == 0:
            assert (seed, call, check(store).differences) == (seed, call, ())
    assert verify(store).problems == ()
    assert len(story.told) > CALLS, f"{story.refused} calls of {CALLS} could not be read"


@pytest.mark.parametrize("seed", range(24))
def test_the_door_and_the_journal_never_disagree(sqlite_store, seed):
    holds(sqlite_store, seed, every=8)


@pytest.mark.parametrize("seed", range(100, 108))
def test_what_was_too_much_for_one_commit_is_stale_and_never_wrong(sqlite_store, seed, monkeypatch):
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", seed % 2)
    story = any_story.begun(book.opened(sqlite_store), seed=seed)
    for call in range(1, CALLS + 1):
        any_story.go_on(story)
        if call % 8 == 0:
            assert {each.because for each in check(sqlite_store).differences} <= {"stale"}
            fold_stale(sqlite_store)
            assert (seed, call, check(sqlite_store).differences) == (seed, call, ())


@pytest.mark.parametrize("seed", range(60, 64))
def test_the_door_and_the_journal_never_disagree_on_postgresql(postgresql_store, seed):
    holds(postgresql_store, seed, every=24)
