"""Whether the number to which a leak was joined goes on, so that the hazard is open under one of them.

Common practice, no source: a hazard is ended by no more than another number for it.
"""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.joins import Join, join
from repairlog.trade.leak import leak
from repairlog.trade.rests import rests_of
from tests.makers import book as m
from tests.makers.told import story

LEAK, OTHER, THIRD = m.new_id(), m.new_id(), m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}
JOINED = m.ending(LEAK, how="joined", joined_to=OTHER)


def to(this: str, other: str | None, *, in_error: bool = False) -> Join:
    return Join(id=UUID(this), to=UUID(other) if other else None, in_error=in_error)


def stands(*said: dict[str, Any], joins: list[Join]) -> tuple[str, list[str]]:
    found = leak(standing(story(OPENED, *said)), rests=rests_of(joins))
    assert found is not None
    return found.status, [gap.code for gap in found.gaps]


@pytest.mark.parametrize(
    ("joins", "expected"),
    [
        ([], ("ended", [])),
        ([to(OTHER, None)], ("ended", [])),
        ([to(OTHER, THIRD), to(THIRD, None)], ("ended", [])),
        ([to(OTHER, LEAK)], ("open", ["joined_in_a_ring"])),
        ([to(OTHER, THIRD), to(THIRD, LEAK)], ("open", ["joined_in_a_ring"])),
        ([to(OTHER, THIRD), to(THIRD, OTHER)], ("ended", [])),
        ([to(OTHER, None, in_error=True)], ("open", ["joined_to_one_opened_in_error"])),
        ([to(OTHER, THIRD), to(THIRD, None, in_error=True)], ("ended", [])),
    ],
)
def test_a_leak_is_ended_where_what_it_was_joined_to_leads_on(
    joins: list[Join], expected: tuple[str, list[str]]
) -> None:
    """A ring farther on, and one farther on that was opened in error, keep the other number open, not this one."""
    assert stands(JOINED, joins=joins) == expected


def test_a_later_ending_in_another_way_ends_what_a_ring_keeps_open() -> None:
    found = leak(
        standing(story(OPENED, JOINED, m.ending(LEAK, how="no_reading", happened="2026-03-06"))),
        rests=rests_of([to(OTHER, LEAK)]),
    )
    assert found is not None
    assert (found.status, found.ending and found.ending.on, found.joined_to) == ("ended", "2026-03-06", UUID(OTHER))


def test_how_a_leak_was_joined_is_read_from_its_own_entries_alone() -> None:
    assert join(standing(story(OPENED, JOINED))) == to(LEAK, OTHER)
    assert join(standing(story(OPENED))) == to(LEAK, None)
    assert join(standing(story(OPENED, JOINED, m.void(LEAK)))) == to(LEAK, None, in_error=True)
    assert join(standing(story(OPENED, m.ending(LEAK, how="opened_in_error")))) == to(LEAK, None, in_error=True)
    assert join(standing(story(JOINED))) is None
