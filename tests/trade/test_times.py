"""Times that cannot have come about in the order in which the record has them. Common practice, no source."""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.dig import dig
from repairlog.trade.gap import Gap
from repairlog.trade.instrument import Instrument
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests, rests_of
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.told import story, told

LEAK, DIG, AREA = m.new_id(), m.new_id(), m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": AREA, "happened": "2026-03-03 07:52"}
DUG = {"kind": "dig_opened", "id": DIG, "area": AREA, "happened": "2026-03-05 08:30", "ticket": "T-1"}
TAGGED = UUID(int=9)


def raised(*said: dict[str, Any], understood: dict[str, str] | None = None, rests: Rests | None = None) -> list[Gap]:
    """What is raised of a leak, but for what is not on the books. `understood`: beside what was said last."""
    entries = story(OPENED, *said[:-1])
    entries.append(told(len(entries), said[-1], **({"understood": understood} if understood else {})))
    found = leak(standing(entries), rests=rests or Rests())
    assert found is not None
    return [gap for gap in found.gaps if not gap.code.endswith("not_on_the_books")]


def moment(which: str, at: str) -> dict[str, Any]:
    return {"kind": "moment_noted", "id": m.new_id(), "leak": LEAK, "moment": which, "happened": f"2026-03-03 {at}"}


@pytest.mark.parametrize(
    ("earlier", "later", "code"),
    [("on_site", "left_site", "left_before_on_site"), ("people_out", "people_back", "people_back_before_out")],
)
@pytest.mark.parametrize(("at", "wrong"), [("08:09", True), ("08:10", False), ("08:11", False)])
def test_the_first_of_two_moments_comes_first(earlier: str, later: str, code: str, at: str, wrong: bool) -> None:
    one, two = moment(earlier, "08:10"), moment(later, at)
    assert raised(one, two) == ([Gap(code=code, entry=UUID(two["id"]))] if wrong else [])
    assert raised(two) == []


@pytest.mark.parametrize(
    ("started", "stopped", "wrong"),
    [
        ("2026-03-03T13:00:00.000Z", "2026-03-03T12:59:00.000Z", True),
        ("2026-03-03T13:00:00.000Z", "2026-03-03T13:00:00.000Z", False),
        ("2026-03-03T13:00:00.000Z", "", False),
    ],
)
def test_venting_stops_after_it_started(started: str, stopped: str, wrong: bool) -> None:
    understood = {"venting_started_on": "2026-03-03", "venting_started_at": started}
    understood |= {"venting_stopped_on": "2026-03-03"} | ({"venting_stopped_at": stopped} if stopped else {})
    visit = m.visit(LEAK)
    expected = [Gap(code="venting_stopped_before_it_started", entry=UUID(visit["id"]))] if wrong else []
    assert raised(visit, understood=understood) == expected


@pytest.mark.parametrize(
    ("steps", "wrong"),
    [
        ({"exposed_on": "2026-03-05", "fitted_on": "2026-03-04"}, True),
        ({"exposed_on": "2026-03-05", "fitted_on": "2026-03-05"}, False),
        ({"gas_stopped_on": "2026-03-05", "gas_restored_on": "2026-03-04"}, True),
        ({"gas_stopped_on": "2026-03-04", "exposed_on": "2026-03-05"}, False),
        ({"gas_restored_on": "2026-03-04"}, False),
    ],
)
def test_steps_of_a_repair_come_in_the_order_in_which_they_can(steps: dict[str, str], wrong: bool) -> None:
    attempt = m.attempt(LEAK)
    expected = [Gap(code="repair_steps_out_of_order", entry=UUID(attempt["id"]))] if wrong else []
    assert raised(attempt, understood=steps) == expected


@pytest.mark.parametrize(("happened", "wrong"), [("2026-03-04", True), ("2026-03-05", False), ("2026-03-06", False)])
def test_a_repair_is_looked_over_after_it_was_made(happened: str, wrong: bool) -> None:
    attempt = m.attempt(LEAK)
    review = m.review(LEAK, attempt["id"], happened=happened)
    facts = {"reviewed_on": happened, "repaired_on": "2026-03-05"}
    expected = [Gap(code="reviewed_before_repair", entry=UUID(review["id"]), facts=facts)] if wrong else []
    assert raised(attempt, review) == expected


@pytest.mark.parametrize(
    ("retired_on", "wrong"), [("2026-03-02", True), ("2026-03-03", False), ("2026-03-04", False), ("", False)]
)
def test_an_instrument_is_not_used_after_it_was_retired(retired_on: str, wrong: bool) -> None:
    meter = Instrument(
        id=TAGGED,
        area=AREA,
        mark="G-3",
        what="gas detector",
        retired_on=retired_on,
        checked_on="",
        check="",
        void=False,
        calibrations=(),
    )
    visit = m.visit(LEAK, instrument_used=str(TAGGED))
    found = raised(visit, rests=rests_of([meter]))
    facts = {"mark": "G-3", "done_on": "2026-03-03", "retired_on": retired_on}
    gap = Gap(code="retired_instrument_used", entry=UUID(visit["id"]), row="instrument", facts=facts)
    assert found == ([gap] if wrong else [])


@pytest.mark.parametrize(("at", "wrong"), [("08:29", True), ("08:30", False), ("08:31", False)])
def test_what_a_dig_found_and_laid_bare_comes_after_it_was_opened(at: str, wrong: bool) -> None:
    happened = {"happened": f"2026-03-05 {at}"}
    for entry in (d.found(DIG, **happened), d.restored(DIG, **happened)):
        found = dig(standing(story(DUG, entry)))
        assert found is not None
        facts = {"step": entry["kind"], "done_on": "2026-03-05", "dug_on": "2026-03-05"}
        expected = [Gap(code="before_it_was_dug", entry=UUID(entry["id"]), facts=facts)] if wrong else []
        assert [gap for gap in found.gaps if gap.code == "before_it_was_dug"] == expected


def test_a_surface_is_restored_after_the_dig_was_backfilled() -> None:
    filled = d.backfilled(DIG, happened="2026-03-06 10:00")
    for happened, wrong in (("2026-03-05", True), ("2026-03-06", False), ("2026-03-07", False)):
        found = dig(standing(story(DUG, filled, d.restored(DIG, happened=happened))))
        assert found is not None
        codes = ["restored_before_it_was_backfilled"] if wrong else []
        assert [gap.code for gap in found.gaps] == codes
