"""What is owed, in words: the task, its limit, from what it is counted, and by what it was settled."""

from __future__ import annotations

from datetime import tzinfo

from repairlog.trade.due import Item, Missing
from repairlog.words import _, days


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


def settled(item: Item) -> str:
    """By what an item was settled, and on which day."""
    by = {
        "repaired": _("repaired"),
        "ended": _("the leak was ended"),
        "joined": _("goes on under another number"),
        "made_safe": _("made safe"),
        "looked_at": _("looked at"),
        "no_reading": _("nothing was read any more"),
        "done": _("done"),
        "graded_anew": _("graded anew"),
    }[item.settled_by]
    return _("{by}, {day}").format(by=by, day=days.day(item.settled_on.isoformat())) if item.settled_on else by


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
    }
