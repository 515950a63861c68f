"""What an old list says of a repair: that it was made, and on which day. It holds as listed.

Decided by us, no source.
"""

from typing import Any

from repairlog.entries.standing import standing
from repairlog.trade.leak import Leak, leak
from repairlog.trade.rests import Rests
from tests.makers import book as m
from tests.makers.told import told

LEAK = m.new_id()
TEE = m.source(LEAK, happened="2016-04-10")


def listed(*said: dict[str, Any], reported: str = "2016-04-10", **opened: Any) -> Leak:
    """A leak that an old list reported on that day, with what the same list says after it."""
    first = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": reported} | opened
    told_of = [told(index, each, by={"sure": "import"}) for index, each in enumerate([first, *said])]
    found = leak(standing(told_of), rests=Rests())
    assert found is not None
    return found


def repaired(on: str, *attempts: str) -> dict[str, Any]:
    return m.ending(LEAK, list(attempts), happened=on)


def holds(of: Leak) -> tuple[str, str, list[str]]:
    return of.status, of.ending.on if of.ending else "", [gap.code for gap in of.gaps]


def test_a_listed_repair_ends_the_leak_on_its_day_and_names_no_attempt() -> None:
    assert holds(listed(repaired("2016-04-11"))) == ("ended", "2016-04-11", [])


def test_a_source_that_the_list_names_asks_for_no_attempt_either() -> None:
    assert holds(listed(TEE, repaired("2016-04-11"))) == ("ended", "2016-04-11", [])


def test_a_listed_repair_before_its_report_is_raised_and_on_the_same_day_not() -> None:
    assert holds(listed(repaired("2016-04-09"))) == ("ended", "2016-04-09", ["repaired_before_reported"])
    assert holds(listed(repaired("2016-04-10"))) == ("ended", "2016-04-10", [])


def test_a_repair_before_a_day_that_is_the_list_s_own_raises_nothing() -> None:
    of = listed(repaired("2016-04-09"), reported="2016-12-31", happened_known="on_or_before")
    assert holds(of) == ("ended", "2016-04-09", [])


def test_a_listed_ending_that_names_an_attempt_is_judged_by_it() -> None:
    clamp = m.attempt(LEAK, happened="2016-04-11", outcome="not_tight")
    assert holds(listed(clamp, repaired("2016-04-11", clamp["id"]))) == (
        "open",
        "",
        ["ending_does_not_hold"],
    )


def test_the_same_ending_of_a_crew_that_names_no_attempt_does_not_hold() -> None:
    opened = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2016-04-10"}
    crew = leak([told(0, opened), told(1, repaired("2016-04-11"))], rests=Rests())
    assert crew is not None
    assert holds(crew) == ("open", "", ["ending_does_not_hold", "typed_long_after"])
