"""The watch of a leak passes from one named person to the next: what does not hold up of it.

Common practice, no source.
"""

from __future__ import annotations

from uuid import UUID

import pytest

from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.told import story

LEAK, JO, LU, KAY = (m.new_id() for _ in range(4))
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}


def gaps(*said):
    found = leak(story(OPENED, *said), rests=Rests())
    assert found is not None
    return list(found.gaps)


def hands(hour, **who):
    return {"kind": "watch_handed", "id": m.new_id(), "leak": LEAK, "happened": f"2026-03-03 {hour}", **who}


def test_a_watch_that_goes_to_nobody_is_raised():
    nobody = hands("09:00", from_person=JO)
    assert gaps(nobody) == [Gap(code="watch_handed_to_nobody", entry=UUID(nobody["id"]))]
    assert gaps(hands("09:00", from_person=JO, to_named="night crew leader")) == []


@pytest.mark.parametrize(
    ("gives", "raised"), [({"from_person": LU}, False), ({"from_person": KAY}, True), ({"from_named": "K."}, False)]
)
def test_a_watch_comes_from_whoever_had_it(gives, raised):
    first, then = hands("09:00", from_person=JO, to_person=LU), hands("14:00", to_person=JO, **gives)
    expected = Gap(code="watch_handed_by_another", entry=UUID(then["id"]), facts={"handed_on": "2026-03-03"})
    assert gaps(first, then) == ([expected] if raised else [])


def test_whoever_left_the_site_handed_nothing_on():
    first, then = hands("09:00", from_person=JO, to_person=LU), hands("14:00", from_person=KAY, to_person=JO)
    left = c.moment(LEAK, moment="left_site", happened="2026-03-03 12:00")
    assert gaps(first, left, then) == []


def test_whoever_took_the_watch_last_has_it_until_the_site_is_left():
    first, then = hands("09:00", from_person=JO, to_person=LU), hands("14:00", from_person=LU, to_person=JO)
    made_safe = c.moment(LEAK, moment="area_made_safe", happened="2026-03-03 15:00")
    left = c.moment(LEAK, moment="left_site", happened="2026-03-03 16:00")
    stories = [(first, then), (first, then, made_safe, m.note(LEAK)), (first, then, left), (left, hands("17:00"))]
    found = [leak(story(OPENED, *said), rests=Rests()).watch for said in stories]
    assert [str(each.id) if each else "" for each in found] == [then["id"], then["id"], "", stories[-1][1]["id"]]
