"""A dig as it stands, and what in its record does not hold up.

Source of a ticket being asked for: 49 CFR 196.103 (a), as of 20 June 2026. All else is common practice, no source.
"""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.dig import Dig, Owed, dig
from repairlog.trade.gap import Gap
from repairlog.trade.tied import OutsideNumber, outside_numbers, streets_that_are_the_same
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.told import story, told

DIG, LEAK, AREA = m.new_id(), m.new_id(), m.new_id()
OPENED = {
    "kind": "dig_opened",
    "id": DIG,
    "area": AREA,
    "happened": "2026-03-05 08:30",
    "ticket": "T-10418",
    "leaks": [{"key": "l1", "leak": LEAK}],
}


def of(*said: dict[str, Any], opened: dict[str, Any] = OPENED) -> Dig:
    as_is = dig(standing(story(opened, *said)))
    assert as_is is not None
    return as_is


def at(hour: str, entry: dict[str, Any]) -> dict[str, Any]:
    return entry | {"happened": f"2026-03-05 {hour}"}


def test_a_dig_is_what_its_entries_say_in_the_order_they_happened() -> None:
    owed = d.owed(DIG)
    as_is = of(
        d.found(DIG),
        owed,
        d.backfilled(DIG, happened="2026-03-06 10:00"),
        d.found(DIG, happened="2026-03-05 08:40", found="nothing"),
    )
    assert (as_is.leaks, as_is.ticket, as_is.found, as_is.status) == ((UUID(LEAK),), "T-10418", "source", "backfilled")
    assert (as_is.backfilled_on, as_is.gaps) == ("2026-03-06", ())
    assert as_is.owed == (
        Owed(
            entry=UUID(owed["id"]),
            on="2026-03-05",
            what="asphalt, 4 ft by 6 ft",
            by_on="2026-04-30",
            owed_by="the paving contractor",
            restored_on="",
        ),
    )


def test_entries_that_open_none_tell_of_no_dig() -> None:
    assert (dig([]), dig(story(d.found(DIG)))) == (None, None)


def test_a_dig_is_restored_when_all_that_was_owed_is_done_and_it_is_filled() -> None:
    asphalt, curb = at("10:18", d.owed(DIG)), at("10:18", d.owed(DIG, what="curb", by_on="2026-04-01"))
    filled, done = at("10:15", d.backfilled(DIG)), at("10:19", d.restored(DIG))
    only_asphalt = done | {"owed": asphalt["id"]}
    assert [
        of(*said).status
        for said in (
            (),
            (asphalt, done),
            (filled,),
            (filled, asphalt, curb, only_asphalt),
            (filled, asphalt, curb, done),
            (filled, asphalt, curb, done, m.void(done["id"])),
            (filled, asphalt, curb, done, m.void(DIG)),
        )
    ] == ["open", "open", "backfilled", "backfilled", "restored", "backfilled", "opened_in_error"]
    assert [each.what for each in of(filled, asphalt, curb, only_asphalt).still_owed] == ["curb"]


def test_what_is_owed_earliest_comes_first_and_what_has_no_day_last() -> None:
    days = ("2026-05-01", "", "2026-04-30")
    owed = [d.owed(DIG, what=f"by {day}", by_on=day or None) for day in days]
    assert [each.by_on for each in of(*owed).still_owed] == ["2026-04-30", "2026-05-01", ""]


def test_restoring_settles_only_what_was_owed_before_it() -> None:
    later = at("10:20", d.owed(DIG, what="curb"))
    assert [each.restored_on for each in of(at("10:18", d.owed(DIG)), at("10:19", d.restored(DIG)), later).owed] == [
        "2026-03-05",
        "",
    ]


@pytest.mark.parametrize(
    ("understood", "code"),
    [
        ({}, None),
        ({"ticket_from_on": "2026-03-05", "ticket_from_at": "2026-03-05T08:29:00.000Z"}, None),
        ({"ticket_from_on": "2026-03-05", "ticket_from_at": "2026-03-05T08:30:00.000Z"}, None),
        ({"ticket_from_on": "2026-03-05", "ticket_from_at": "2026-03-05T08:31:00.000Z"}, "dug_before_the_ticket"),
        ({"ticket_until_on": "2026-03-05", "ticket_until_at": "2026-03-05T08:29:00.000Z"}, "dug_after_the_ticket"),
        ({"ticket_until_on": "2026-03-05", "ticket_until_at": "2026-03-05T08:30:00.000Z"}, None),
        ({"ticket_from_on": "2026-03-05"}, None),
        ({"ticket_from_on": "2026-03-06"}, "dug_before_the_ticket"),
        ({"ticket_until_on": "2026-03-04"}, "dug_after_the_ticket"),
        ({"ticket_until_on": "2026-03-04", "happened_known": "on_or_before"}, None),
    ],
)
def test_digging_outside_the_tickets_time_is_raised_by_moment_else_by_day(
    understood: dict[str, str], code: str | None
) -> None:
    # Both ends counted in: common practice, no source.
    as_is = dig([told(0, OPENED, understood=understood)])
    assert as_is is not None
    assert [gap.code for gap in as_is.gaps] == ([code] if code else [])


def test_a_ticket_that_had_run_out_is_told_with_its_days() -> None:
    as_is = dig([told(0, OPENED, understood={"ticket_until_on": "2026-03-04"})])
    assert as_is is not None
    facts = {"dug_on": "2026-03-05", "until_on": "2026-03-04"}
    assert as_is.gaps == (Gap(code="dug_after_the_ticket", entry=UUID(DIG), facts=facts),)


@pytest.mark.parametrize(
    ("said", "codes"),
    [
        (at("08:29", d.backfilled(DIG)), ["backfilled_before_it_was_dug"]),
        (at("08:30", d.backfilled(DIG)), []),
        (at("08:31", d.backfilled(DIG)), []),
        (d.backfilled(DIG, happened="2026-03-05"), []),
        (d.found(DIG, found="nothing", source=m.new_id()), ["dry_and_yet_a_source"]),
        (d.found(DIG, found="nothing"), []),
        (d.found(DIG, source=m.new_id()), []),
        (d.restored(DIG, owed=m.new_id()), ["restoration_not_of_this_dig"]),
        (d.restored(DIG, owed=DIG), ["restoration_not_of_this_dig"]),
        (at("08:29", d.backfilled(DIG)) | {"happened_known": "on_or_before"}, []),
    ],
)
def test_what_contradicts_itself_is_raised(said: dict[str, Any], codes: list[str]) -> None:
    assert [gap.code for gap in of(said).gaps] == codes


def test_a_dig_without_a_ticket_is_raised_and_one_opened_in_error_raises_what_stands_on_it() -> None:
    assert [gap.code for gap in of(opened={**OPENED, "ticket": None}).gaps] == ["no_locate_ticket"]
    found = d.found(DIG)
    stands_on = Gap(code="stands_on_a_dig_opened_in_error", entry=UUID(found["id"]))
    assert of(found, m.void(DIG), opened={**OPENED, "ticket": None}).gaps == (stands_on,)


def test_every_number_of_somebody_elses_is_found_whichever_entry_gives_it() -> None:
    added = d.number(DIG)
    gone = d.number(DIG, number="C-2")
    place = {"kind": "place_added", "id": m.new_id(), "happened": "2026-01-02", "area": AREA, "what": "service"}
    place |= {"outside_numbers": [{"key": "n1", "what": "premise", "number": "40-118-2"}]}
    found = list(outside_numbers(standing(story({**OPENED, "permit": "P-3"}, added, gone, m.void(gone["id"])))))
    assert found == [
        OutsideNumber(entry=UUID(DIG), row="ticket", what="one-call ticket", number="T-10418"),
        OutsideNumber(entry=UUID(DIG), row="permit", what="permit", number="P-3"),
        OutsideNumber(entry=UUID(added["id"]), row="", what="claim", number="C-2026-55"),
    ]
    assert [(each.row, each.number) for each in outside_numbers(story(place))] == [("outside_numbers.n1", "40-118-2")]


def test_streets_made_one_in_error_are_two_again() -> None:
    said = d.streets(AREA, ("Quarry Lane", "Harrowsedge"), ("Quarry Ln", ""))
    told_once = list(streets_that_are_the_same(story(said)))
    assert [(kept.name, other.name, other.town) for _id, kept, other in told_once] == [("Quarry Lane", "Quarry Ln", "")]
    assert list(streets_that_are_the_same(standing(story(said, m.void(said["id"]))))) == []


def test_whoever_is_named_alone_beside_a_dig_is_not_on_the_books() -> None:
    did = {"did": [{"key": "d1", "person": m.new_id()}, {"key": "d2", "named": "a helper"}]}
    filled = d.backfilled(DIG, happened="2026-03-06 10:00")
    as_is = dig([told(0, OPENED), told(1, filled, by=did)])
    assert as_is is not None
    gap = Gap(code="person_not_on_the_books", entry=UUID(filled["id"]), row="did.d2", facts={"named": "a helper"})
    assert as_is.gaps == (gap,)


@pytest.mark.parametrize(
    ("seen", "raised"),
    [
        ({"happened": "2026-03-05 10:14"}, False),
        ({"happened": "2026-03-05 10:15"}, False),
        ({"happened": "2026-03-05 10:16"}, True),
        ({"happened": "2026-03-05"}, False),
        ({"happened": "2026-03-06"}, True),
        ({"happened": "2026-03-06", "happened_known": "on_or_before"}, False),
    ],
)
def test_a_pipe_looked_at_after_its_dig_was_backfilled_is_raised(seen: dict[str, str], raised: bool) -> None:
    pipe = d.exposed(DIG, **seen)
    facts = {"done_on": seen["happened"][:10], "backfilled_on": "2026-03-05"}
    gap = Gap(code="pipe_looked_at_after_it_was_backfilled", entry=UUID(pipe["id"]), facts=facts)
    assert of(d.backfilled(DIG), pipe).gaps == ((gap,) if raised else ())


def test_between_two_fillings_of_a_dig_its_pipe_may_have_been_looked_at() -> None:
    again = d.backfilled(DIG, happened="2026-03-06 12:00")
    assert of(d.backfilled(DIG), again, d.exposed(DIG, happened="2026-03-06 11:00")).gaps == ()
