"""Records of one person or one lot that were made one: work under either name is held against what both say, in
whichever order that came, and apart again where it is taken back."""

from __future__ import annotations

import random
from datetime import date
from typing import Any

import pytest

from repairlog.access import EVERYTHING
from repairlog.records.queries.crews import crews_in
from repairlog.records.queries.instruments_listed import WantedInstruments as Wanted
from repairlog.records.queries.instruments_listed import instruments_listed
from repairlog.records.queries.leaks import Wanted as WantedLeaks
from repairlog.records.queries.leaks import how_many_leaks
from repairlog.records.queries.work import work_in_hand
from repairlog.records.rebuild import check, rebuild
from repairlog.records.tables import worked
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.copies import rows
from tests.makers.together import together

NO_QUALIFICATION = "qualification_not_on_the_books"
BETWEEN = "lot_used_between_its_last_days"


def raised(book: m.Book, *codes: str) -> list[str]:
    """The codes that are raised of all leaks, of these; a check finds the same rows."""
    assert check(book.store).differences == ()
    return sorted(row["code"] for row in rows(book.store, worked.GAP) if row["code"] in codes)


def done_by(book: m.Book, person: str, **fields: Any) -> None:
    """A clamp is installed by that person on 5 March 2026."""
    leak = m.leak(book)
    people = [{"key": "p1", "person": person, "task": "install clamp"}]
    book.say(leak, m.attempt(leak["id"], people=people, **fields))


def same(kept: str, other: str, **fields: Any) -> dict[str, Any]:
    return d.made_one(kept, other, **fields)


def two(book: m.Book) -> tuple[str, str]:
    kept, other = m.person("J. Farrow"), m.person("Jo Farrow")
    book.say(kept, other)
    return str(kept["id"]), str(other["id"])


@pytest.mark.parametrize("worked_as_kept", [True, False])
def test_somebody_qualified_under_either_name_is_qualified_until_the_names_are_parted(
    open_book: m.Book, worked_as_kept: bool
) -> None:
    kept, other = two(open_book)
    done_by(open_book, kept if worked_as_kept else other)
    open_book.say(m.qualified(other if worked_as_kept else kept))
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]
    one = same(kept, other)
    open_book.say(one)
    assert raised(open_book, NO_QUALIFICATION) == []
    apart = m.void(one["id"])
    open_book.say(apart)
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]
    open_book.say(m.void(apart["id"]))
    assert raised(open_book, NO_QUALIFICATION) == []
    rebuild(open_book.store)
    assert raised(open_book, NO_QUALIFICATION) == []


def test_a_qualification_that_comes_late_on_the_other_record_settles_the_gap(open_book: m.Book) -> None:
    kept, other = two(open_book)
    open_book.say(same(kept, other))
    done_by(open_book, kept)
    late = m.qualified(other)
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]
    open_book.say(late)
    assert raised(open_book, NO_QUALIFICATION) == []
    open_book.say(m.corrected(late["id"], ("until_on", "2026-03-04")))
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]


def test_what_is_suspended_on_one_record_is_suspended_under_both_names(open_book: m.Book) -> None:
    kept, other = two(open_book)
    done_by(open_book, other)
    open_book.say(same(kept, other), m.qualified(other))
    stops = m.unqualified(kept, happened="2026-02-01")
    open_book.say(stops)
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]
    open_book.say(m.corrected(stops["id"], ("happened", "2026-01-05")))  # on the day of the evaluation: nobody knows
    assert raised(open_book, NO_QUALIFICATION) == []


def test_a_chain_of_three_and_a_ring_are_one_person_and_a_link_taken_out_parts_them(open_book: m.Book) -> None:
    kept, other = two(open_book)
    third = m.person("J. L. Farrow")
    open_book.say(third, m.qualified(third["id"]))
    done_by(open_book, kept)
    first, second = same(kept, other), same(other, third["id"])
    open_book.say(second)
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]
    open_book.say(first)
    assert raised(open_book, NO_QUALIFICATION) == []
    back = same(third["id"], kept)  # a ring
    open_book.say(back)
    open_book.say(m.void(first["id"]))
    assert raised(open_book, NO_QUALIFICATION) == []  # the other way round they are one still
    elsewhere = m.corrected(back["id"], ("other", str(open_book.officer.person)))
    open_book.say(elsewhere)
    assert raised(open_book, NO_QUALIFICATION) == [NO_QUALIFICATION]
    open_book.say(m.void(elsewhere["id"]))
    assert raised(open_book, NO_QUALIFICATION) == []


def lots(book: m.Book, *last_days: str | None) -> list[str]:
    """Deliveries of one lot number with these last days."""
    said = {"kind": "lot_received", "area": book.area, "item": "primer", "happened": "2025-02-03"}
    made = [
        said | {"id": m.new_id(), "lot_number": f"P-{place}"} | ({"expires_on": day} if day else {})
        for place, day in enumerate(last_days)
    ]
    book.say(*made)
    return [str(each["id"]) for each in made]


def used(book: m.Book, lot: str) -> None:
    """It is used on 5 March 2026."""
    leak = m.leak(book)
    book.say(leak, m.attempt(leak["id"], materials=[{"key": "m1", "lot": lot}]))


@pytest.mark.parametrize(
    ("last_days", "code"),
    [
        (("2026-03-04", "2026-03-04"), "expired_lot_used"),
        (("2026-03-04", None), "expired_lot_used"),
        ((None, "2026-03-04"), "expired_lot_used"),
        (("2026-03-04", "2026-03-05"), BETWEEN),
        (("2026-03-05", "2026-03-04"), BETWEEN),
        (("2026-03-05", "2026-03-06"), ""),
        ((None, None), ""),
    ],
)
def test_a_lot_had_expired_once_every_last_day_was_over_and_between_them_it_is_a_question(
    open_book: m.Book, last_days: tuple[str | None, ...], code: str
) -> None:
    kept, other = lots(open_book, *last_days)
    used(open_book, kept)
    open_book.say(same(kept, other))
    assert raised(open_book, "expired_lot_used", BETWEEN) == ([code] if code else [])
    open_book.say(m.corrected(other, ("expires_on", "2026-12-31")), m.corrected(kept, ("expires_on", "2026-12-31")))
    assert raised(open_book, "expired_lot_used", BETWEEN) == []


def test_a_lot_quarantined_under_one_number_is_so_under_both_until_either_is_released(open_book: m.Book) -> None:
    kept, other = lots(open_book, None, None)
    used(open_book, kept)
    open_book.say(same(kept, other), s.quarantined(other, happened="2026-03-01"))
    assert raised(open_book, "quarantined_lot_used") == ["quarantined_lot_used"]
    released = s.released(kept, happened="2026-03-02")
    open_book.say(released)
    assert raised(open_book, "quarantined_lot_used") == []
    open_book.say(m.void(released["id"]), s.released(other, happened="2026-03-04"))
    assert raised(open_book, "quarantined_lot_used") == []


def test_a_lot_scrapped_under_one_number_was_scrapped_under_both(open_book: m.Book) -> None:
    kept, other = lots(open_book, None, None)
    used(open_book, kept)
    open_book.say(same(kept, other), s.scrapped(other, happened="2026-03-01"))
    assert raised(open_book, "scrapped_lot_used") == ["scrapped_lot_used"]


@pytest.mark.parametrize("seed", range(3))
def test_in_any_order_the_same_is_raised(open_book: m.Book, seed: int) -> None:
    kept, other = two(open_book)
    lot, also = lots(open_book, "2026-03-04", "2026-12-31")
    leak = m.leak(open_book)
    open_book.say(leak)
    people = [{"key": "p1", "person": kept, "task": "install clamp"}]
    attempt = m.attempt(leak["id"], people=people, materials=[{"key": "m1", "lot": lot}])
    told = [same(kept, other), same(lot, also), attempt, m.qualified(other), s.quarantined(also, happened="2026-03-01")]
    random.Random(seed).shuffle(told)
    for each in told:
        open_book.say(each)
    assert raised(open_book, NO_QUALIFICATION, BETWEEN, "quarantined_lot_used") == [BETWEEN, "quarantined_lot_used"]


def test_a_repair_and_what_makes_its_crew_one_with_another_at_once_see_each_other(open_book: m.Book) -> None:
    kept, other = two(open_book)
    leak = m.leak(open_book)
    open_book.say(leak, m.qualified(kept))
    people = [{"key": "p1", "person": other, "task": "install clamp"}]
    calls = [same(kept, other), m.attempt(leak["id"], people=people)]
    together(2, lambda place: open_book.say(calls[place]))
    assert raised(open_book, NO_QUALIFICATION) == []


def read_with(book: m.Book, instrument: str, on: str) -> None:
    """Something is read with that instrument on that day."""
    leak = m.leak(book, happened="2026-01-02")
    book.say(leak, m.visit(leak["id"], instrument_used=instrument, happened=on))


NO_CALIBRATION, RETIRED = "calibration_not_on_the_books", "retired_instrument_used"


@pytest.mark.parametrize("read_as_kept", [True, False])
def test_a_reading_is_held_against_the_calibrations_of_both_records_of_an_instrument(open_book, read_as_kept):
    kept, other = m.instrument(open_book), m.instrument(open_book, mark="G3")
    open_book.say(kept, other, m.calibrated(other["id"] if read_as_kept else kept["id"]))
    read_with(open_book, kept["id"] if read_as_kept else other["id"], "2026-03-04")
    assert raised(open_book, NO_CALIBRATION) == [NO_CALIBRATION]
    one = same(kept["id"], other["id"])
    open_book.say(one)
    assert raised(open_book, NO_CALIBRATION) == []
    late = {"happened": "2026-03-03", "result": "out_of_tolerance"}
    open_book.say(m.calibrated(kept["id"], **late))  # the last one counts, on whichever of them it stands
    assert raised(open_book, NO_CALIBRATION) == [NO_CALIBRATION]
    open_book.say(m.calibrated(other["id"], happened="2026-03-03"))  # of one day, nobody knows which came last
    assert raised(open_book, NO_CALIBRATION) == []
    open_book.say(m.void(one["id"]))
    assert raised(open_book, NO_CALIBRATION) == ([NO_CALIBRATION] if read_as_kept else [])


def test_an_instrument_of_two_records_is_retired_when_both_are(open_book):
    kept, other = m.instrument(open_book), m.instrument(open_book, mark="G3")
    open_book.say(kept, other, m.calibrated(kept["id"]), same(kept["id"], other["id"]))
    retired = [
        {"kind": "instrument_retired", "id": m.new_id(), "subject": each["id"], "happened": on, "reason": "worn out"}
        for each, on in ((other, "2026-02-01"), (kept, "2026-03-03"))
    ]
    read_with(open_book, other["id"], "2026-03-04")
    open_book.say(retired[0])
    assert raised(open_book, RETIRED) == []
    open_book.say(retired[1])
    assert raised(open_book, RETIRED) == [RETIRED]
    listed = Wanted(on=date(2026, 3, 2), soon_until=date(2026, 3, 2))
    with open_book.store.reading() as tx:
        found = instruments_listed(EVERYTHING, tx, asked=listed, after=None, most=9)
    assert [(row.mark, row.standing(on="2026-03-02", soon_until="2026-03-02")) for row in found] == [("G-3", "valid")]


def test_the_list_tells_the_last_calibration_of_either_record(open_book):
    one, two, three = (m.instrument(open_book, mark=mark) for mark in ("G-3", "G3", "G 3"))
    open_book.say(one, two, three, same(two["id"], three["id"]), same(one["id"], two["id"]))
    open_book.say(m.calibrated(one["id"]), m.calibrated(three["id"], happened="2026-03-03", next_due_on="2026-06-03"))
    listed = Wanted(on=date(2026, 5, 2), soon_until=date(2026, 5, 2))
    with open_book.store.reading() as tx:
        found = instruments_listed(EVERYTHING, tx, asked=listed, after=None, most=9)
    assert [(row.mark, row.calibrated_on, row.until_on) for row in found] == [("G-3", "2026-03-03", "2026-06-03")]


def test_work_given_to_one_record_of_a_crew_is_in_the_hands_of_who_is_in_another(open_book):
    who = str(open_book.crew.person)
    kept = m.crew(open_book)
    nobody_else = [{"key": "m1", "person": str(open_book.officer.person)}]
    other, leak = m.crew(open_book, name="Truck four", members=nobody_else), m.leak(open_book)
    open_book.say(kept, other, leak, m.given(leak["id"], crew=other["id"]))

    def seen() -> tuple[int, int, int, list[str]]:
        with open_book.store.reading() as tx:
            mine = work_in_hand(EVERYTHING, tx, person=m.read_id(who), on=date(2026, 3, 6), most=9)
            of_crew = [
                how_many_leaks(EVERYTHING, tx, where=WantedLeaks(crew=m.read_id(each["id"]))) for each in (kept, other)
            ]
            return len(mine), *of_crew, [row.name for row in crews_in(EVERYTHING, tx)]

    assert seen() == (0, 0, 1, ["Truck 4", "Truck four"])
    one = same(kept["id"], other["id"])
    open_book.say(one)
    assert seen() == (1, 1, 1, ["Truck 4"])
    open_book.say(m.void(one["id"]))
    assert seen() == (0, 0, 1, ["Truck 4", "Truck four"])
