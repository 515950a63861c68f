"""A call folded from its entries: how it stands, who has it, what in its record does not hold up.

Common practice, no source.
"""

from __future__ import annotations

from itertools import permutations
from typing import Any

import pytest

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.call import Call, Who, call
from tests.makers import book as m
from tests.makers import calls as c

CALL = m.new_id()
CREW, PERSON = m.new_id(), m.new_id()


class _Area:
    area = m.new_id()


def standing(raw: dict[str, Any], index: int, *, void: int | None = None, **more: Any) -> Standing:
    """As the door would leave it, in UTC; received at once where nothing else is said."""
    happened = raw["happened"]
    at = {"happened_at": f"{happened[:10]}T{happened[11:16]}:00.000Z"} if len(happened) > 10 else {}
    received = more.pop("received", f"{happened[:10]}T23:59:00.000Z")
    known = {"happened_known": raw["happened_known"]} if "happened_known" in raw else {}
    return Standing(
        index=index,
        said=raw,
        understood={"happened_on": happened[:10], "zone": "UTC", **at, **known},
        by={"did": [{"key": "d1", "person": PERSON}], "sure": "password"} | more,
        moments={"received": received},
        private={},
        void=void,
    )


def received(**fields: Any) -> dict[str, Any]:
    return c.call(_Area(), **fields) | {"id": CALL}  # type: ignore[arg-type]


def fold(*raws: dict[str, Any] | Standing) -> Call:
    told = [raw if isinstance(raw, Standing) else standing(raw, place) for place, raw in enumerate(raws)]
    found = call(told)
    assert found is not None
    return found


def codes(of: Call) -> list[str]:
    return [gap.code for gap in of.gaps]


def test_entries_that_open_no_call_tell_of_none() -> None:
    assert call([standing(c.sent(CALL), 0)]) is None


@pytest.mark.parametrize(
    ("steps", "status"),
    [
        ((), "received"),
        ((c.sent,), "sent"),
        ((c.sent, c.on_way), "on_way"),
        ((c.sent, c.on_way, c.on_site), "on_site"),
        ((c.on_site,), "on_site"),
        ((c.sent, c.on_way, c.on_site, c.outcome), "ended"),
        ((c.outcome,), "ended"),
    ],
)
def test_the_status_is_the_furthest_step(steps: tuple[Any, ...], status: str) -> None:
    assert fold(received(), *(step(CALL) for step in steps)).status == status


def test_the_order_of_arrival_makes_no_difference() -> None:
    raws = [received(), c.sent(CALL, crew=CREW), c.on_way(CALL), c.on_site(CALL), c.outcome(CALL), c.reviewed(CALL)]
    entries = [standing(raw, place) for place, raw in enumerate(raws)]
    found = [call(list(order)) for order in permutations(entries)]
    assert all(each == found[0] for each in found)
    assert (found[0].status, found[0].reviewed, found[0].gaps) == ("ended", True, ())  # type: ignore[union-attr]


def test_who_is_sent_after_an_outcome_goes_there_once_more() -> None:
    first = [received(), c.sent(CALL, crew=CREW), c.on_site(CALL), c.outcome(CALL, outcome="no_access")]
    again = c.sent(CALL, happened="2026-03-03 10:00", person=PERSON)
    found = fold(*first, again)
    assert (found.status, found.outcome, found.on_site, found.who) == ("sent", None, None, Who(person=PERSON))
    end = c.outcome(CALL, happened="2026-03-03 10:40")
    last = fold(*first, again, c.on_site(CALL, happened="2026-03-03 10:20"), end)
    assert last.outcome is not None
    assert (last.status, last.outcome.id, codes(last)) == ("ended", read_id(end["id"]), [])


def test_sent_twice_before_any_outcome_is_one_trip_that_began_with_the_first() -> None:
    first, second = c.sent(CALL, crew=CREW), c.sent(CALL, happened="2026-03-03 10:00", person=PERSON)
    found = fold(received(), first, second)
    assert (found.sent is not None and str(found.sent.id), found.who) == (first["id"], Who(person=PERSON))


def test_a_step_that_is_void_does_not_count() -> None:
    found = fold(received(), standing(c.on_site(CALL), 1, void=9), standing(c.outcome(CALL), 2, void=8))
    assert (found.status, found.on_site, found.outcome) == ("received", None, None)


def test_a_call_received_in_error_stays_so_and_what_stands_on_it_is_raised() -> None:
    found = fold(standing(received(), 0, void=7), c.sent(CALL, happened="2026-03-03 07:00", named="a helper"))
    assert (found.status, codes(found)) == ("received_in_error", ["stands_on_a_call_received_in_error"])


def test_whoever_was_named_last_has_it() -> None:
    sent = c.sent(CALL, crew=CREW)
    assert fold(received(), sent, c.on_way(CALL)).who == Who(crew=CREW)
    assert fold(received(), sent, c.on_way(CALL, named="a helper")).who == Who(named="a helper")
    assert fold(received()).who == Who()


@pytest.mark.parametrize(("happened", "raised"), [("07:43", True), ("07:44", False), ("07:45", False)])
def test_a_step_before_the_call_was_received_is_out_of_order(happened: str, raised: bool) -> None:
    found = fold(received(), c.sent(CALL, happened=f"2026-03-03 {happened}"))
    assert codes(found) == ["call_times_out_of_order"] * raised


def test_times_out_of_order_are_told_with_both_steps_as_typed() -> None:
    found = fold(received(), c.sent(CALL), c.on_site(CALL, happened="2026-03-03 07:45"))
    assert [gap.facts for gap in found.gaps] == [
        {
            "step": "call_on_site",
            "typed": "2026-03-03 07:45",
            "other_step": "call_sent",
            "other_typed": "2026-03-03 07:46",
        }
    ]


def test_a_day_without_an_hour_is_not_before_the_same_day() -> None:
    assert codes(fold(received(), c.sent(CALL, happened="2026-03-03"))) == []
    assert codes(fold(received(), c.sent(CALL, happened="2026-03-02"))) == ["call_times_out_of_order"]


@pytest.mark.parametrize(
    ("outcome", "raised"),
    [
        ({"outcome": "operators_leak"}, ["outcome_names_no_leak"]),
        ({"outcome": "operators_leak", "found_leak": m.new_id()}, []),
        ({"outcome": "same_call"}, ["outcome_names_no_call"]),
        ({"outcome": "same_call", "same_as": m.new_id()}, []),
        ({"outcome": "customers"}, ["customers_piping_not_made_safe"]),
        ({"outcome": "customers", "made_safe": "not_made_safe"}, ["customers_piping_not_made_safe"]),
        ({"outcome": "customers", "made_safe": "shut_off_and_tagged"}, []),
        ({"outcome": "nothing_found"}, []),
    ],
)
def test_what_an_outcome_leaves_unsaid_is_raised(outcome: dict[str, str], raised: list[str]) -> None:
    assert codes(fold(received(), c.outcome(CALL, **outcome))) == raised


def test_two_outcomes_without_anybody_sent_in_between_are_raised_and_the_later_counts() -> None:
    later = c.outcome(CALL, happened="2026-03-03 09:00", outcome="other_gas")
    found = fold(received(), c.outcome(CALL), later)
    assert found.outcome is not None
    assert (found.outcome.text("outcome"), [(g.code, g.facts) for g in found.gaps]) == (
        "other_gas",
        [("call_ended_twice", {"first": "nothing_found"})],
    )


@pytest.mark.parametrize(
    ("received_at", "days"),
    [("2026-03-10T07:44:00.000Z", 0), ("2026-03-10T07:44:00.001Z", 7), ("2026-03-12T07:45:00.000Z", 9)],
)
def test_what_was_written_more_than_a_week_after_is_raised(received_at: str, days: int) -> None:
    found = fold(standing(received(), 0, received=received_at))
    assert [gap.facts for gap in found.gaps] == [{"days": str(days), "hours": "168"}] * bool(days)


def test_what_an_old_list_tells_is_not_said_to_be_late() -> None:
    listed = standing(received(), 0, received="2027-01-01T00:00:00.000Z", sure="import")
    known = standing(received(happened_known="on_or_before"), 0, received="2027-01-01T00:00:00.000Z")
    assert codes(fold(listed)) == codes(fold(known)) == []


@pytest.mark.parametrize("of", ["call_sent", "call_on_site"])
def test_a_day_that_is_only_known_as_on_or_before_is_out_of_no_order(of: str) -> None:
    steps = (c.sent(CALL, happened="2026-03-04"), c.on_site(CALL, happened="2026-03-03"))
    said = [raw | {"happened_known": "on_or_before"} if raw["kind"] == of else raw for raw in steps]
    assert codes(fold(received(), *steps)) == ["call_times_out_of_order"]
    assert codes(fold(received(), *said)) == []


def test_somebody_who_is_sent_by_name_alone_is_not_on_the_books() -> None:
    found = fold(received(), c.sent(CALL, named="a helper"), c.on_way(CALL, named="truck", crew=CREW))
    assert [(gap.code, gap.row, gap.facts) for gap in found.gaps] == [
        ("person_not_on_the_books", "named", {"named": "a helper"})
    ]


@pytest.mark.parametrize(
    ("words", "reviewed"),
    [((), False), (("accepted",), True), (("returned",), False), (("accepted", "returned"), False)],
)
def test_a_call_is_reviewed_where_the_last_word_accepts_it(words: tuple[str, ...], reviewed: bool) -> None:
    said = [c.reviewed(CALL, outcome=word, happened=f"2026-03-04 09:{place:02d}") for place, word in enumerate(words)]
    assert fold(received(), c.outcome(CALL), *said).reviewed is reviewed


def test_a_review_of_an_earlier_trip_says_nothing_of_the_last_one() -> None:
    again = [c.sent(CALL, happened="2026-03-05 10:00"), c.outcome(CALL, happened="2026-03-05 11:00")]
    assert fold(received(), c.outcome(CALL), c.reviewed(CALL), *again).reviewed is False


@pytest.mark.parametrize(
    ("received_at", "raised"),
    [("2026-03-10T07:43:00.000Z", 0), ("2026-03-10T07:44:00.000Z", 0), ("2026-03-10T07:45:00.000Z", 1)],
)
def test_a_call_that_was_typed_more_than_a_week_after_is_raised(received_at: str, raised: int) -> None:
    late = standing(received(), 0, received=received_at)
    assert codes(fold(late)).count("typed_long_after") == raised
