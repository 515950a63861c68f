"""Which links a page offers between which things. Decided by us, no source."""

from __future__ import annotations

from repairlog.entries.kinds import SUBJECT_KINDS
from repairlog.entries.tied import WAYS
from repairlog.trade.links import BETWEEN, LINKED, others


def test_every_way_of_the_kind_is_offered_between_two_leaks_and_no_other_anywhere() -> None:
    assert set(BETWEEN["leak", "leak"]) == set(WAYS)
    assert {way for ways in BETWEEN.values() for way in ways} == set(WAYS)
    assert all(ways and len(set(ways)) == len(ways) for ways in BETWEEN.values())


def test_links_are_between_kinds_of_subjects_that_there_are() -> None:
    assert {kind for pair in BETWEEN for kind in pair} <= set(SUBJECT_KINDS)
    assert (LINKED, others("leak"), others("lot")) == (
        ("leak", "dig", "call", "place"),
        ("leak", "dig", "call", "place"),
        (),
    )
