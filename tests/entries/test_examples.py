"""The examples of entries: one of every kind, and each can be posted alone, in any order, and twice."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from repairlog.access.posts import POSTS
from repairlog.entries.entry import Moments
from repairlog.entries.examples import AREA, CREW_LEADER, EXAMPLES, FIRST_DAY, STANDS_BEFORE, Raw
from repairlog.entries.ids import is_version
from repairlog.entries.kinds import KINDS
from repairlog.records.verify import verify
from tests.makers import book as m

EVERY = [pytest.param(raw, id=f"{kind}-{place}") for kind, raws in EXAMPLES.items() for place, raw in enumerate(raws)]
LATER = Moments(received=datetime(2026, 11, 2, 9, 0, tzinfo=UTC))


def ids_in(value: object) -> set[str]:
    """Every id that stands somewhere in an entry."""
    if isinstance(value, dict):
        return set().union(*(ids_in(each) for each in value.values()))
    if isinstance(value, list):
        return set().union(*(ids_in(each) for each in value))
    id = str(value).partition("/")[0]
    return {id} if is_version(id, 7) else set()


def demo_ground(store: Any) -> m.Book:
    """A book with what the examples speak about."""
    book = m.opened(store)
    day = {"happened": FIRST_DAY}
    area = {"kind": "area_opened", "id": AREA, "name": "Harrowsedge", "code": "HS", "zone": "America/New_York"} | day
    leader = {"kind": "person_added", "id": CREW_LEADER, "name": "I. Sabo"} | day
    book.say(area, leader, *map(dict, STANDS_BEFORE), moments=LATER)
    return book


def test_every_kind_has_an_example():
    assert set(EXAMPLES) == set(KINDS) == set(POSTS)


def test_no_example_speaks_about_another():
    own = [raw["id"] for raws in EXAMPLES.values() for raw in raws]
    before = [raw["id"] for raw in STANDS_BEFORE]
    assert len({*own, *before}) == len(own) + len(before)
    named = {raw["id"]: ids_in(raw) - {raw["id"]} for raws in EXAMPLES.values() for raw in raws}
    assert {id: ids - {AREA, CREW_LEADER, *before} for id, ids in named.items()} == dict.fromkeys(named, set())


@pytest.mark.parametrize("raw", [each for each in EVERY if each.values[0]["kind"] != "operator_opened"])
def test_an_example_is_posted_alone_and_twice(sqlite_store: Any, raw: Raw):
    book = demo_ground(sqlite_store)
    (first,) = book.say(dict(raw), moments=LATER)
    (again,) = book.say(dict(raw), moments=LATER)
    assert (first.new, again.new, (first.index, first.leaf)) == (True, False, (again.index, again.leaf))
    assert verify(sqlite_store).problems == ()


def test_the_examples_are_posted_in_one_call_and_backwards(sqlite_store: Any):
    book = demo_ground(sqlite_store)
    call = [dict(raw) for raws in EXAMPLES.values() for raw in raws if raw["kind"] != "operator_opened"]
    assert [receipt.new for receipt in book.say(*reversed(call), moments=LATER)] == [True] * len(call)
