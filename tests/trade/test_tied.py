"""Which records are the same, as the story of the one that is kept says it. Decided by us, no source."""

from __future__ import annotations

from uuid import UUID

from repairlog.entries.standing import standing
from repairlog.trade.tied import others_that_are_the_same
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.told import story


def test_of_two_that_say_the_same_the_one_that_happened_first_counts_whichever_came_in_first() -> None:
    kept, other = m.new_id(), m.new_id()
    second, first = (d.made_one(kept, other, happened=day) for day in ("2026-03-05", "2026-03-04"))
    for told in ((second, first), (first, second)):
        assert list(others_that_are_the_same(standing(story(*told)))) == [(UUID(first["id"]), UUID(other))]
