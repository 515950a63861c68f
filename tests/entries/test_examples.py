"""The examples of entries: of every kind, and each can be posted alone, in any order, and twice."""

from __future__ import annotations

from typing import Any

import pytest

from repairlog.entries.example_ids import OTHER_AREA
from repairlog.entries.examples import AREA, CREW_LEADER, EXAMPLES, STANDS_BEFORE, Raw
from repairlog.entries.ids import is_version
from repairlog.entries.kinds import KINDS
from repairlog.records.store import Store
from repairlog.records.verify import verify
from tests.makers.examples import LATER, POSTED, example_book, named


def ids_in(value: Any) -> set[str]:
    """Every id that stands somewhere in an entry."""
    if isinstance(value, dict | list):
        inner = value.values() if isinstance(value, dict) else value
        return set().union(*map(ids_in, inner))
    id = str(value).partition("/")[0]
    return {id} if is_version(id, 7) else set()


def test_every_kind_has_an_example() -> None:
    assert set(EXAMPLES) == set(KINDS)
    assert {raw["kind"] for raws in EXAMPLES.values() for raw in raws} == set(KINDS)


def test_no_example_speaks_about_another() -> None:
    own = [raw["id"] for raws in EXAMPLES.values() for raw in raws]
    before = {AREA, OTHER_AREA, CREW_LEADER, *(raw["id"] for raw in STANDS_BEFORE)}
    assert len({*own, *before}) == len(own) + len(STANDS_BEFORE) + 3
    named = {raw["id"]: ids_in(raw) - {raw["id"]} - before for raws in EXAMPLES.values() for raw in raws}
    assert {id: ids for id, ids in named.items() if ids} == {}


@pytest.mark.parametrize("raw", POSTED, ids=named)
def test_an_example_is_posted_alone_and_twice(sqlite_store: Store, raw: Raw) -> None:
    book = example_book(sqlite_store)
    (first,) = book.say(dict(raw), moments=LATER)
    (again,) = book.say(dict(raw), moments=LATER)
    assert (first.new, again.new, (first.index, first.leaf)) == (True, False, (again.index, again.leaf))
    assert verify(sqlite_store).problems == ()


def test_the_examples_are_posted_in_one_call_and_backwards(store: Store) -> None:
    book = example_book(store)
    assert [receipt.new for receipt in book.say(*map(dict, reversed(POSTED)), moments=LATER)] == [True] * len(POSTED)
    assert verify(store).problems == ()


def test_every_example_and_what_stands_before_them_has_an_id_of_its_own():
    ids = [raw["id"] for raw in (*STANDS_BEFORE, *(each for every in EXAMPLES.values() for each in every))]
    assert sorted(ids) == sorted(set(ids))
