"""A grade lowered after venting, against the wait and the second reading that the area's rulebook asks for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.trade.adopted import adopted_on, confirmed_in
from repairlog.trade.answers_to import Answers
from repairlog.trade.gap import Gap
from repairlog.trade.grades import GradeSet
from repairlog.trade.grading import Waited, asked_after_venting, venting_of, waited
from repairlog.trade.intervals import Around
from repairlog.trade.intervals.working_days import USUAL_CALENDAR
from repairlog.trade.rests import Rests
from repairlog.trade.rulebook import VentingWait

CODES = {
    "stop": "lowered_while_venting",
    "reading": "lowered_without_second_reading",
    "wait": "lowered_before_wait_was_over",
}
"""The gap by what is lacking."""


def lowered_after_venting(
    opened: Standing, live: Sequence[Standing], *, grades: Sequence[GradeSet], answered: Answers, rests: Rests
) -> Iterator[Gap]:
    """Grades that were lowered after venting without the wait or the reading after it, by a rule whose text was read or
    that was confirmed by that day; until a supervisor approves them. What an old list tells is left alone.

    `live`: the leak's entries that stand, in the order they happened.
    """
    for each in grades:
        if each.lower_than is None or each.review == "approved" or each.entry.by["sure"] == "import":
            continue
        found = _waited(opened, live, lowered=each, answered=answered, rests=rests)
        if found and found.lacks:
            facts = {"before": each.lower_than.code, "grade": each.grade.code}
            yield Gap(code=CODES[found.lacks], entry=each.entry.id, facts=facts | _facts(found))


def _facts(found: Waited) -> dict[str, str]:
    facts = {"wait": found.rule.wait, "clause": found.rule.cited.clause}
    if found.venting.stopped:
        facts["stopped_on"] = found.venting.stopped.on.isoformat()
    if found.venting.reads:
        facts["read_on"] = found.venting.reads[-1].on.isoformat()
    return facts


def _waited(
    opened: Standing, live: Sequence[Standing], *, lowered: GradeSet, answered: Answers, rests: Rests
) -> Waited | None:
    """None where nothing was vented, or no rule that binds says how long to wait."""
    area = rests.areas.get(answered.then(lowered.entry))
    holds = adopted_on(area.adoptions, on=lowered.entry.on) if area else None
    visits = [each for each in live[: live.index(lowered.entry)] if each.kind == "visit"]
    venting = venting_of(visits, zone=ZoneInfo(str(opened.understood["zone"])))
    if area is None or holds is None or venting is None or lowered.lower_than is None:
        return None
    rulebook = rests.rulebooks[holds.digest]
    rule = asked_after_venting(rulebook, grade=lowered.lower_than.code, on=lowered.entry.on).rule
    if rule is None:
        return None
    days = confirmed_in(rulebook, area.confirmed, opened=rests.rulebooks.__getitem__)
    if not _binds(rule, days.get(rule.id, ""), on=lowered.entry.on):
        return None
    return waited(rule, venting, around=Around(calendar=area.calendar or USUAL_CALENDAR))


def _binds(rule: VentingWait, confirmed_on: str, *, on: str) -> bool:
    return rule.cited.firm or (bool(confirmed_on) and confirmed_on <= on)
