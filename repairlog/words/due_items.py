"""What is owed, in words: the task, its limit, from what it is counted, and by what it was settled."""

from __future__ import annotations

from datetime import date, datetime, timedelta, tzinfo
from typing import Protocol

from repairlog.trade.due import Item
from repairlog.words import _, days, of_number
from repairlog.words.rulebooks.cited import mark_word


def tasks() -> dict[str, str]:
    """The tasks in words, by their codes."""
    return {
        "act": _("act at once, and go on until it is safe"),
        "repair": _("repair"),
        "permanent_repair": _("repair for good"),
        "re_evaluate": _("re-evaluate"),
        "follow_up": _("follow-up inspection"),
        "tell_fire_department": _("tell the fire department"),
        "tell_police": _("tell the police"),
        "tell_owner": _("tell the owner"),
        "letter_to_owner": _("write to the owner"),
        "review": _("look the record over"),
        "restore": _("restore the surface"),
    }


class Settled(Protocol):
    """Something that was owed, and by what it was settled."""

    @property
    def firm(self) -> bool: ...
    @property
    def due_on(self) -> date: ...
    @property
    def settled_on(self) -> date | None: ...
    @property
    def settled_by(self) -> str: ...


class Undated(Protocol):
    """What would be owed and has no day."""

    @property
    def why(self) -> str: ...
    @property
    def grade(self) -> str: ...
    @property
    def task(self) -> str: ...
    @property
    def fill_in(self) -> str: ...


class Dated(Protocol):
    """Something owed, with its days: an item of a fold or a row of a list."""

    @property
    def task(self) -> str: ...
    @property
    def firm(self) -> bool: ...
    @property
    def due_on(self) -> date: ...
    @property
    def due_at(self) -> datetime | None: ...
    @property
    def not_before(self) -> date | None: ...
    @property
    def target_on(self) -> date | None: ...


def how_soon(item: Dated, *, on: date, at: datetime, zone: tzinfo) -> str:
    """How soon it is due on that day, at that moment: `due in 12 days`, `9 days late`, `due at 14:02, 3 hours late`,
    `proposed 13 Dec 2027, not confirmed`: what is only proposed is never late. Hours as the zone's clocks show them."""
    if not item.firm:
        return _("proposed {day}, not confirmed").format(day=days.day(item.due_on.isoformat()))
    if item.due_at is not None and abs(item.due_at - at) < timedelta(days=2):
        return _in_hours(item.due_at, at, zone=zone)
    if item.not_before is not None and on < item.not_before:
        return _("not before {day}").format(day=days.day(item.not_before.isoformat()))
    return in_days((item.due_on - on).days)


def in_days(left: int) -> str:
    """`due in 12 days`, `due today`, `9 days late`; `left`: days until it is due, below zero where it is late."""
    if left == 0:
        return _("due today")
    if left > 0:
        return of_number("due in {number} day", "due in {number} days", number=left).format(number=left)
    return of_number("{number} day late", "{number} days late", number=-left).format(number=-left)


def _in_hours(due_at: datetime, at: datetime, *, zone: tzinfo) -> str:
    """To the minute before it is due; late, in hours begun."""
    clock = f"{due_at.astimezone(zone):%H:%M}"
    if at <= due_at:
        left = int((due_at - at).total_seconds() // 60)
        said = _("due at {clock}, in {hours} h {minutes} min")
        return said.format(clock=clock, hours=left // 60, minutes=left % 60)
    hours = int((at - due_at).total_seconds() // 3600) + 1
    return of_number(
        "due at {clock}, {number} hour late", "due at {clock}, up to {number} hours late", number=hours
    ).format(clock=clock, number=hours)


class Asked(Protocol):
    """Something owed, with what asks for it."""

    @property
    def clause(self) -> str: ...
    @property
    def mark(self) -> str: ...
    @property
    def firm(self) -> bool: ...


def asked_by(item: Asked) -> str:
    """Clause and mark of what asks for it, and whether the operator confirmed it; empty for a restoration."""
    if not item.clause:
        return ""
    if item.firm and item.mark != "text_checked":
        return _("{clause}, confirmed by the operator").format(clause=item.clause)
    return _("{clause}, {mark}").format(clause=item.clause, mark=mark_word(item.mark))


def target(item: Dated, *, on: date) -> str:
    """The operator's own earlier day; it is never late. Empty where there is none."""
    if item.target_on is None:
        return ""
    passed = _("target {day}, passed") if item.target_on < on else _("target {day}")
    return passed.format(day=days.day(item.target_on.isoformat()))


def limit(item: Item, *, zone: tzinfo) -> str:
    """One item in a sentence, without a today; a moment as clocks of the zone show it."""
    task = tasks()[item.task]
    by = f"{item.due_at.astimezone(zone):%Y-%m-%d %H:%M %z}" if item.due_at else item.due_on.isoformat()
    text = _("{task}: by {day}").format(task=task, day=by)
    if item.not_before:
        text = _("{task}: not before {first}, by {day}").format(task=task, first=item.not_before, day=by)
    if not item.firm:
        text = _("{told}, proposed, not confirmed").format(told=text)
    return _("{told} ({clause})").format(told=text, clause=item.clause)


def missing(item: Undated) -> str:
    """What has no day, and why."""
    task = tasks().get(item.task, item.task)
    if item.why == "rule_gap":
        return _("{task}: no figure is known; the operator fills in {fill_in}.").format(task=task, fill_in=item.fill_in)
    if item.why == "no_day":
        return _("{task}: nobody said by which day ({fill_in}).").format(task=task, fill_in=item.fill_in)
    if item.why == "not_countable":
        return _("{task}: its interval cannot be counted here; look at the calendar of the area.").format(task=task)
    if item.why == "day_not_known":
        return _("{task}: the day from which it counts is not known.").format(task=task)
    return _("The rulebook knows no grade {grade}: nothing can be said to be due.").format(grade=item.grade)


def settled(item: Settled) -> str:
    """By what an item was settled, and on which day."""
    by = {
        "repaired": _("repaired"),
        "ended": _("the leak was ended"),
        "joined": _("goes on under another number"),
        "made_safe": _("made safe"),
        "looked_at": _("looked at"),
        "no_reading": _("nothing was read any more"),
        "done": _("done"),
        "restored": _("restored"),
        "graded_anew": _("graded anew"),
    }[item.settled_by]
    return _("{by}, {day}").format(by=by, day=days.day(item.settled_on.isoformat())) if item.settled_on else by


def in_time(item: Settled) -> bool:
    """Whether what was settled was settled by its limit; what was only proposed, and what another grade or number took
    away, is not asked."""
    asked = item.firm and item.settled_by not in ("graded_anew", "joined")
    return item.settled_on is None or not asked or item.settled_on <= item.due_on


def counted_from() -> dict[str, str]:
    """From what a clock runs, in words, by code."""
    return {
        "reported": _("the report"),
        "found": _("the day it was found"),
        "graded": _("the day it was graded"),
        "upgraded": _("the upgrade"),
        "downgraded": _("the downgrade"),
        "repaired": _("the repair"),
        "temporarily_repaired": _("the temporary repair"),
        "looked_at": _("the last look"),
        "told": _("the day the operator was told"),
        "said": _("what was said"),
    }
