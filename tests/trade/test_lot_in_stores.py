"""A lot in stores: where it lies, whether it may be used, how much should be there. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.amount import Amount, amount, left, total
from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.lot import lot, not_there_yet, was_quarantined, was_scrapped
from repairlog.trade.rests import rests_of
from tests.makers import book as m
from tests.makers import stores as s
from tests.makers.told import story

LOT, SHELF = m.new_id(), m.new_id()
RECEIVED = {
    "kind": "lot_received",
    "id": LOT,
    "area": m.new_id(),
    "item": "clamp",
    "lot_number": "C-1",
    "shelf": "bay 2",
    "happened": "2026-03-01",
}


def as_is(*entries):
    found = lot(standing(story(RECEIVED, *entries)))
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("24", Amount(number=Decimal(24), unit="")),
        ("24 each", Amount(number=Decimal(24), unit="")),
        (" 30  ft", Amount(number=Decimal(30), unit="ft")),
        ("2 boxes", Amount(number=Decimal(2), unit="box")),
        ("1 box", Amount(number=Decimal(1), unit="box")),
        ("40 Rolls", Amount(number=Decimal(40), unit="roll")),
        ("2 ms", Amount(number=Decimal(2), unit="ms")),
        ("2 lbs", Amount(number=Decimal(2), unit="lb")),
        ("0", Amount(number=Decimal(0), unit="")),
        ("2.5 lb", Amount(number=Decimal("2.5"), unit="lb")),
        ("half a tin", None),
        ("-2", None),
        ("24, of 30", None),
        ("3/4", Amount(number=Decimal("0.75"), unit="")),
        ("1 1/2 cans", Amount(number=Decimal("1.5"), unit="can")),
        ("1/3 can", None),
        ("12 3 in bolts", None),
        ("", None),
        ("1,000", None),
    ],
)
def test_an_amount_is_a_number_and_the_unit_that_the_item_is_counted_in(text, read):
    assert amount(text) == read


@pytest.mark.parametrize("each", ["each", "ea", "pc", "pcs", "piece", "pieces", "Pieces"])
def test_pieces_are_counted_alike_whatever_they_are_called(each):
    assert total([f"2 {each}", "1"]).sums == (Amount(number=Decimal(3), unit=""),)


def test_amounts_of_one_unit_are_added_and_no_unit_is_turned_into_another():
    found = total(["2 boxes", "1 box", "3", "half a tin", ""])
    assert ([str(each) for each in found.sums], found.unread) == (["3 boxes", "3"], ("half a tin",))


@pytest.mark.parametrize(
    ("taken", "there"), [([], "24"), (["2", "3 each"], "19"), (["25"], "-1"), (["2 ft"], None), (["some"], None)]
)
def test_what_should_be_there_is_told_where_all_can_be_counted(taken, there):
    assert left("24 each", taken) == (amount(there) if there and there[0] != "-" else left("24", taken))
    assert (str(left("24", taken)) if left("24", taken) else None) == there


def test_more_than_one_is_written_as_whoever_received_it_wrote_it():
    assert [str(each) for each in total(["1 roll", "1 roll"], like="60 rolls").sums] == ["2 rolls"]
    assert str(left("2 cans", ["1/2 can", "1/2 can"])) == "1 can"
    assert str(left("12 cans", ["1/4 can"])) == "11.75 cans"


def test_a_lot_lies_where_the_whole_of_it_was_last_brought():
    assert (as_is().lies_at, as_is().shelf) == ("bay 2", None)
    part = s.moved(LOT, shelf=SHELF, amount="6")
    assert as_is(part).lies_at == "bay 2"
    whole = s.moved(LOT, shelf=SHELF, named="", happened="2026-03-05")
    assert (as_is(part, whole).lies_at, as_is(part, whole).shelf) == ("", UUID(SHELF))
    assert as_is(whole, s.moved(LOT)).shelf == UUID(SHELF)  # the earlier move came in later


def test_a_lot_is_quarantined_until_it_is_released():
    assert as_is().status == "in_stock"
    found = as_is(s.quarantined(LOT), s.quarantined(LOT, happened="2026-03-04"))
    assert (found.status, found.quarantined) == ("quarantined", (("2026-03-03", ""),))
    found = as_is(s.quarantined(LOT), s.released(LOT), s.released(LOT, happened="2026-03-06"))
    assert (found.status, found.quarantined) == ("in_stock", (("2026-03-03", "2026-03-05"),))
    wrong = s.quarantined(LOT)
    assert as_is(wrong, m.void(wrong["id"])).quarantined == ()


@pytest.mark.parametrize(
    ("on", "was"),
    [("2026-03-02", False), ("2026-03-03", False), ("2026-03-04", True), ("2026-03-05", False), ("2026-03-06", False)],
)
def test_the_days_of_quarantine_and_release_accuse_nobody(on, was):
    assert was_quarantined(as_is(s.quarantined(LOT), s.released(LOT)), on=on) is was
    assert was_quarantined(as_is(s.quarantined(LOT)), on="2999-01-01")


@pytest.mark.parametrize(("on", "was"), [("2026-03-03", False), ("2026-03-04", False), ("2026-03-05", True)])
def test_a_lot_is_scrapped_after_the_day_on_which_the_whole_of_it_was(on, was):
    found = as_is(s.scrapped(LOT))
    assert (found.status, was_scrapped(found, on=on)) == ("scrapped", was)
    assert as_is(s.scrapped(LOT, amount="2")).status == "in_stock"
    assert as_is(s.scrapped(LOT), s.counted(LOT, happened="2026-03-05")).status == "in_stock"


def test_a_lot_that_was_counted_as_none_is_used_up_until_more_is_counted():
    none = s.counted(LOT, "0 each")
    assert as_is(none).status == "used_up"
    assert as_is(none, s.quarantined(LOT, happened="2026-03-05")).status == "used_up"
    assert as_is(none, s.counted(LOT, "3", happened="2026-03-05")).status == "in_stock"
    assert as_is(s.counted(LOT, "none that I can see")).status == "in_stock"


@pytest.mark.parametrize(
    ("on", "raised"),
    [
        ("2026-03-03", set()),
        ("2026-03-04", {"quarantined_lot_used"}),
        ("2026-03-05", {"scrapped_lot_used"}),
    ],
)
def test_a_repair_with_what_was_quarantined_or_scrapped_on_that_day_is_raised(on, raised):
    there = as_is(s.quarantined(LOT), s.released(LOT), s.scrapped(LOT))
    opened, attempt = (
        {"kind": "leak_opened", "id": m.new_id(), "area": there.area, "happened": "2026-03-01"},
        m.new_id(),
    )
    row = {"key": "m1", "lot": LOT}
    repair = m.attempt(opened["id"], id=attempt, happened=on, materials=[row])
    found = leak(standing(story(opened, repair)), rests=rests_of([there]))
    assert found is not None
    assert {gap.code for gap in found.gaps} & {"quarantined_lot_used", "scrapped_lot_used"} == raised


@pytest.mark.parametrize(("used_on", "raised"), [("2026-02-28", True), ("2026-03-01", False), ("2026-03-02", False)])
def test_a_lot_that_was_used_before_the_day_it_came_is_raised(used_on, raised):
    leak_id = m.new_id()
    opened = {"kind": "leak_opened", "id": leak_id, "area": m.new_id(), "happened": "2026-02-28"}
    used = m.attempt(leak_id, happened=f"{used_on} 10:00", materials=[{"key": "m1", "lot": LOT}])
    found = leak(standing(story(opened, used)), rests=rests_of([as_is()]))
    facts = {"lot_number": "C-1", "used_on": used_on, "received_on": "2026-03-01"}
    gap = Gap(code="lot_used_before_it_came", entry=UUID(used["id"]), row="materials.m1", facts=facts)
    assert found is not None
    assert list(found.gaps) == ([gap] if raised else [])


def test_of_a_lot_under_several_records_the_one_that_came_first_counts_and_a_day_nobody_knows_accuses_nobody():
    days = ("2026-03-01", "2026-03-05")
    first, second = (replace(as_is(), id=UUID(m.new_id()), received_on=on) for on in days)
    unknown, void = replace(first, received_on=""), replace(unknown_day(), void=True)
    asked = ([first, second], [second, first], [second], [second, unknown], [second, void], [void], [])
    assert [not_there_yet(records, on="2026-03-04") for records in asked] == ["", "", days[1], "", days[1], "", ""]


def unknown_day():
    listed = lot(standing(story(RECEIVED | {"happened_known": "on_or_before"})))
    assert listed is not None
    assert listed.received_on == ""
    return listed
