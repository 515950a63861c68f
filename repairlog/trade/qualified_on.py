"""Of a person's qualifications, how each covered task stands on a day: said when a page is read, never stored."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.trade.person import Qualification, plain_task

STANDINGS = ("valid", "ends_soon", "lapsed", "suspended", "withdrawn", "not_yet")
"""How a task may stand: two of them let a person do it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskStanding:
    """`task`: as it was written at the evaluation that decides, which is `entry`. `standing`: one of `STANDINGS`.
    `until_on`: the last day on which it holds or held; empty where it is open."""

    task: str
    standing: str
    until_on: str
    entry: UUID


def tasks_on(qualifications: Iterable[Qualification], *, on: str, soon_until: str) -> list[TaskStanding]:
    """How each task stands on that day, by name. `soon_until`: what ends until that day, that day counted in, ends
    soon. Several evaluations for one task are one: the one that lets the person do it longest decides."""
    by_task: defaultdict[str, list[Qualification]] = defaultdict(list)
    for each in qualifications:
        by_task[plain_task(each.task)].append(each)
    return [_standing(of, on=on, soon_until=soon_until) for _task, of in sorted(by_task.items())]


def _standing(of: Sequence[Qualification], *, on: str, soon_until: str) -> TaskStanding:
    holding = [each for each in of if each.holds(on=on)]
    if holding:
        longest = max(holding, key=lambda each: each.until_on or "9999")
        soon = bool(longest.until_on) and longest.until_on <= soon_until
        return _told(longest, "ends_soon" if soon else "valid", longest.until_on)
    begun = [each for each in of if each.from_on <= on]
    if not begun:
        return _told(of[0], "not_yet", of[0].until_on)
    last = max(begun, key=_ended)
    ended = bool(last.ended_on) and last.ended_on == _ended(last)
    return _told(last, last.ended_how if ended else "lapsed", _ended(last))


def _ended(of: Qualification) -> str:
    """The day on which it was ended, else the last on which it held."""
    if of.ended_on and (not of.until_on or of.ended_on <= of.until_on):
        return of.ended_on
    return of.until_on


def _told(of: Qualification, standing: str, until_on: str) -> TaskStanding:
    return TaskStanding(task=of.task, standing=standing, until_on=until_on, entry=of.entry)
