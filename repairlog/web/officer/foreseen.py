"""What adopting a rulebook would change of what is owed in an area, shown before anybody decides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from repairlog.records.story import Foreseen, foreseen
from repairlog.trade.adopted import Adoption
from repairlog.trade.area import Area
from repairlog.trade.due import Item
from repairlog.trade.due.of_leak import Required
from repairlog.trade.rulebook import Rulebook
from repairlog.web.frame.asking import asker, store
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.due_items import tasks

MOST_LEAKS = 300
"""Open leaks that are looked at, those reported first first."""

MOST_ROWS = 60
"""Differences that are shown one by one."""

NOBODY = UUID(int=0)
"""Stands for the entry of an adoption that is not made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Differs:
    """One thing that would be owed otherwise: of which leak, what, and its day now and then, each empty where it is not
    owed."""

    leak: UUID
    number: str
    grade: str
    task: str
    now: str
    then: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """`counts`: by task, how many are owed now and would be. `appear`, `end`, `move`: how many would be owed anew,
    would be owed no more, and would have another day. `differs`: one by one, `more` how many beyond those shown.
    `leaks`: how many were looked at; `all`: whether these are all that are open."""

    counts: Sequence[tuple[str, int, int]]
    appear: int
    end: int
    move: int
    differs: Sequence[Differs]
    more: int
    leaks: int
    all: bool


def what_would_change(area: Area, rulebook: Rulebook, *, from_on: str) -> Changes:
    """What open leaks of that area owe on the day from which it would hold, and what they would owe."""
    new = Adoption(entry=NOBODY, rulebook=rulebook.id, digest=rulebook.digest, from_on=from_on)
    with store().reading() as tx:
        found = foreseen(asker().scope, tx, area=area, adoption=new, rulebook=rulebook, most=MOST_LEAKS + 1)
    looked_at = found[:MOST_LEAKS]
    now = Counter(item.task for each in looked_at for item in _owed(each.now, from_on))
    then = Counter(item.task for each in looked_at for item in _owed(each.then, from_on))
    differs = [row for each in looked_at for row in _differences(each, from_on)]
    words = tasks()
    return Changes(
        counts=[(words[task], now[task], then[task]) for task in words if now[task] or then[task]],
        appear=sum(not each.now for each in differs),
        end=sum(not each.then for each in differs),
        move=sum(bool(each.now and each.then) for each in differs),
        differs=differs[:MOST_ROWS],
        more=max(0, len(differs) - MOST_ROWS),
        leaks=len(looked_at),
        all=len(found) <= MOST_LEAKS,
    )


def _owed(required: Sequence[Required], on: str) -> list[Item]:
    """What is owed by the rulebook that holds on that day."""
    holds = [each for each in required if each.from_on <= on and (not each.until_on or on <= each.until_on)]
    return [item for each in holds for item in each.owed.items if item.settled_on is None]


def _differences(of: Foreseen, on: str) -> Iterator[Differs]:
    now, then = (_by_task(_owed(each, on)) for each in (of.now, of.then))
    for task in dict.fromkeys([*now, *then]):
        if now.get(task) != then.get(task):
            yield Differs(
                leak=of.leak.opened.id,
                number=str(of.leak.opened.understood["number"]),
                grade=of.leak.grade_now.code if of.leak.grade_now else "",
                task=tasks()[task],
                now=", ".join(now.get(task, ())),
                then=", ".join(then.get(task, ())),
            )


def _by_task(items: Sequence[Item]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for item in items:
        found.setdefault(item.task, []).append(_by(item.due_on, firm=item.firm))
    return found


def _by(on: date, *, firm: bool) -> str:
    shown = day(on.isoformat())
    return shown if firm else _("{day}, proposed").format(day=shown)
