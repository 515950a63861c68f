"""What is owed, in words: the task, its limit and target, and how far from a day it is."""

from __future__ import annotations

from datetime import date, tzinfo

from repairlog.trade.due import Item, Missing
from repairlog.words import _, days, of_number


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
    }


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


def missing(item: Missing) -> str:
    """What has no day, and why."""
    task = tasks().get(item.task, item.task)
    if item.why == "rule_gap":
        return _("{task}: no figure is known; the operator fills in {fill_in}.").format(task=task, fill_in=item.fill_in)
    if item.why == "day_not_known":
        return _("{task}: the day from which it counts is not known.").format(task=task)
    return _("The rulebook knows no grade {grade}: nothing can be said to be due.").format(grade=item.grade)


def how_far(due_on: date, *, firm: bool, today: date) -> str:
    """`due in 12 days`, `due today`, `9 days late`; of a proposed day only that it is one."""
    if not firm:
        return _("proposed {day}, not confirmed").format(day=days.day(due_on.isoformat()))
    left = (due_on - today).days
    if left == 0:
        return _("due today")
    if left > 0:
        return of_number("due in {number} day", "due in {number} days", number=left).format(number=left)
    return of_number("{number} day late", "{number} days late", number=-left).format(number=-left)
