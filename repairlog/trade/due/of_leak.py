"""What a leak owes by the rulebooks that its area adopted, each for the days on which it holds. It takes no today."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from repairlog.entries.entry import Standing
from repairlog.trade.adopted import Adoption, adopted_on, confirmed_in
from repairlog.trade.attempts import Attempt
from repairlog.trade.due.owed import Item, Owed, owed
from repairlog.trade.due.story import life_of
from repairlog.trade.ending import Ending
from repairlog.trade.grades import GradeSet
from repairlog.trade.intervals import Around
from repairlog.trade.intervals.working_days import USUAL_CALENDAR

if TYPE_CHECKING:
    from repairlog.trade.area import Area
    from repairlog.trade.rulebook import Rulebook


@dataclass(frozen=True, slots=True, kw_only=True)
class Required:
    """What is owed by one adoption. `from_on`, `until_on`: the days on which this is what is owed, `YYYY-MM-DD`, empty
    where there is no bound: a rulebook that is adopted for a day to come changes nothing before it."""

    adoption: Adoption
    from_on: str
    until_on: str
    owed: Owed


def required(
    opened: Standing,
    live: Sequence[Standing],
    *,
    done: Sequence[Attempt],
    grades: Sequence[GradeSet],
    ending: Ending | None,
    area: Area | None,
    rulebooks: Mapping[str, Rulebook],
) -> tuple[Required, ...]:
    """What is owed of a leak; nothing where its area adopted no rulebook, or the leak was opened in error.

    `live`, `done`, `grades`, `ending`: as for `life_of`. `rulebooks`: by digest, all that the area names. A leak that
    is open answers to every rulebook that holds on the last day told of it or later, each on its days; one that is
    ended, to the one that held on the day it ended.
    """
    if area is None or not area.adoptions or opened.void is not None:
        return ()
    life = life_of(opened, live, done=done, grades=grades, ending=ending)
    around = Around(calendar=area.calendar or USUAL_CALENDAR)
    found = []
    for adoption, from_on, until_on in _spans(area.adoptions, last=max(each.on for each in live), ending=ending):
        rulebook = rulebooks[adoption.digest]
        days = confirmed_in(rulebook, area.confirmed, opened=rulebooks.__getitem__)
        asked = owed(life, rulebook, confirmed=days.keys(), around=around)
        items = tuple(_as_known_then(item, days) for item in asked.items)
        found.append(Required(adoption=adoption, from_on=from_on, until_on=until_on, owed=replace(asked, items=items)))
    return tuple(found)


def _spans(adoptions: Sequence[Adoption], *, last: str, ending: Ending | None) -> list[tuple[Adoption, str, str]]:
    """The adoptions that count, with the days on which each does. `last`: the last day that is told of."""
    if ending is not None:
        then = adopted_on(adoptions, on=ending.on)
        return [(then, "", "")] if then else []
    still = [each for each in adoptions if not each.until_on or each.until_on >= last]
    return [(each, "" if each.from_on <= last else each.from_on, each.until_on) for each in still]


def _as_known_then(item: Item, days: Mapping[str, str]) -> Item:
    """An item that is settled is as firm as its rule was on that day: a later confirmation makes nobody late."""
    if item.settled_on is None or not item.firm or item.rule not in days:
        return item
    return replace(item, firm=item.mark == "text_checked" or days[item.rule] <= item.settled_on.isoformat())
