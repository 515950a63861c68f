"""Typed long after the work: by its writing and not its receipt, from when an area says, paper told apart.

Decided by us, no source: no rule that was read says how soon.
"""

from __future__ import annotations

from dataclasses import replace
from uuid import UUID

import pytest

from repairlog.trade.area import Area
from repairlog.trade.dig import dig
from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests, rests_of
from repairlog.trade.typed_after import BESIDE_THE_WORK
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.told import told

LEAK, AREA, OTHER = m.new_id(), m.new_id(), m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": AREA, "happened": "2026-03-05 12:00"}
SEEN = c.moment(LEAK, happened="2026-03-03 12:00")


def sealed(index, said, *, received="2026-03-06T12:00:00.000Z", **also):
    moments = {"received": received} | also.pop("moments", {})
    return replace(told(index, said, **also), moments=moments)


def gaps(*entries, rests=None):
    found = leak([sealed(0, OPENED), *entries], rests=rests or Rests())
    assert found is not None
    return list(found.gaps)


def gap(code, of, **facts):
    return Gap(code=code, entry=UUID(of["id"]), facts=facts)


@pytest.mark.parametrize(
    ("received", "days"),
    [("2026-03-10T12:00:00.000Z", ""), ("2026-03-10T12:00:00.001Z", "7"), ("2026-03-20T12:00:00.000Z", "17")],
)
def test_a_week_after_is_not_long_and_any_moment_later_is(received, days):
    """A week is ours: no rule says how soon a record is to be made."""
    expected = [gap("typed_long_after", SEEN, days=days, hours="168")] if days else []
    assert gaps(sealed(1, SEEN, received=received)) == expected


@pytest.mark.parametrize(
    ("received", "raised"),
    [("2026-03-04T11:59:00.000Z", 0), ("2026-03-04T12:00:00.000Z", 0), ("2026-03-04T12:01:00.000Z", 1)],
)
def test_what_the_area_said_by_then_counts_instead(received, raised):
    of_a_day = sealed(1, SEEN, received=received, understood={"typed_within": "24 h"})
    assert gaps(of_a_day) == [gap("typed_long_after", SEEN, days="1", hours="24")] * raised


def test_what_was_written_at_the_truck_and_sent_long_after_accuses_nobody():
    """The device's clock says when it was written, less what it was fast by; the receipt says nothing of that."""
    late = "2026-04-20T12:00:00.000Z"
    at_the_truck = {"written": "2026-03-03T12:20:00.000Z", "offset_ms": 0}
    by_a_fast_clock = {"written": "2026-03-10T12:59:00.000Z", "offset_ms": 3_600_000}
    assert [gaps(sealed(1, SEEN, received=late, moments=each)) for each in (at_the_truck, by_a_fast_clock)] == [[], []]


def test_what_was_keyed_from_paper_is_told_apart():
    keyed = SEEN | {"typed_from": "paper"}
    assert gaps(sealed(1, keyed, received="2026-03-20T12:00:00.000Z")) == [
        gap("keyed_from_paper_long_after", SEEN, days="17", hours="168")
    ]


def test_what_was_typed_at_one_time_is_said_once_and_of_another_time_again():
    later, again = c.moment(LEAK, happened="2026-03-04 12:00"), c.moment(LEAK, happened="2026-03-05 12:00")
    one, other = "2026-03-20T12:00:00.000Z", "2026-03-21T12:00:00.000Z"
    story = [sealed(1, later, received=one), sealed(2, SEEN, received=one), sealed(3, again, received=other)]
    assert gaps(*story) == [
        gap("typed_long_after", SEEN, days="17", hours="168"),
        gap("typed_long_after", again, days="16", hours="168"),
    ]


def test_a_day_without_its_hour_counts_by_days_in_its_zone():
    on_a_day = SEEN | {"happened": "2026-03-03"}
    assert gaps(sealed(1, on_a_day, received="2026-03-10T23:59:00.000Z")) == []
    assert [each.code for each in gaps(sealed(1, on_a_day, received="2026-03-11T00:00:00.000Z"))] == [
        "typed_long_after"
    ]


def test_an_old_list_is_always_late_and_never_said_to_be():
    assert gaps(sealed(1, SEEN, received="2030-01-01T00:00:00.000Z", by={"sure": "import"})) == []


@pytest.mark.parametrize("kind", BESIDE_THE_WORK)
def test_what_only_adds_to_a_record_is_never_late(kind):
    beside = {"kind": kind, "id": m.new_id(), "subject": LEAK, "happened": "2026-03-03"}
    beside |= {"about": OPENED["id"], "gap": "grade_not_known"} if kind == "gap_set_aside" else {}
    assert gaps(sealed(1, beside, received="2026-04-20T12:00:00.000Z")) == []


def test_a_dig_is_asked_the_same():
    opened = {"kind": "dig_opened", "id": m.new_id(), "area": AREA, "happened": "2026-03-03 12:00", "ticket": "T-1"}
    found = dig([sealed(0, opened, received="2026-03-11T12:00:00.000Z")])
    assert found is not None
    assert list(found.gaps) == [gap("typed_long_after", opened, days="8", hours="168")]


@pytest.mark.parametrize(("says", "raised"), [(None, 0), (True, 0), (False, 1)])
@pytest.mark.parametrize("by", ["who did it", "who did a task of it", "another"])
def test_accepting_ones_own_work_is_raised_only_where_the_area_says_that_nobody_does(says, raised, by):
    area = Area(
        id=UUID(AREA),
        name="E",
        code="ES",
        zone="UTC",
        elevation="",
        lel_basis="5.0",
        settings_version=2,
        own_acceptance=says,
    )
    me = [{"key": "d1", "person": OTHER}]
    attempt = m.attempt(LEAK, people=[{"key": "p1", "person": OTHER}] if by == "who did a task of it" else [])
    review = m.review(LEAK, attempt["id"])
    story = [
        told(1, attempt, by={"did": me} if by == "who did it" else {}),
        told(2, review, by={"did": me}),
    ]
    found = [each for each in gaps(*story, rests=rests_of([area])) if each.code == "accepted_by_who_did_it"]
    assert found == [gap("accepted_by_who_did_it", review)] * (raised if by != "another" else 0)
