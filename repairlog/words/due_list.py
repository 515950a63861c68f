"""What the list of due items says of each: how late it is, by which day, why, and who has it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from uuid import UUID

from repairlog.records.queries.due import DueRow
from repairlog.trade.area import Area
from repairlog.words import _, due_items, of_number, times
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day
from repairlog.words.rulebooks.cited import mark_word

THICK = 7
"""Days after which what is late is drawn with the thickest rule."""


def task(code: str) -> str:
    """What is to be done, as a heading."""
    said = due_items.tasks().get(code, code)
    return said[:1].upper() + said[1:]


def lateness(row: DueRow, *, today: date) -> str:
    """How long there is, or how late it is; of a proposed day only that it is one."""
    if not row.firm:
        return _("proposed")
    days = (row.due_on - today).days
    if row.late and days >= 0:
        return _("late since its hour")
    if days < 0:
        return of_number("{number} day late", "{number} days late", number=-days).format(number=-days)
    if days == 0:
        return _("due today")
    return of_number("in {number} day", "in {number} days", number=days).format(number=days)


def weight(row: DueRow, *, today: date) -> int:
    """How thick the rule at its edge is: 3 for what is late by more than a week, 2 for what is late, 1 for what is due
    today, 0 for the rest."""
    if row.late:
        return 3 if (today - row.due_on).days > THICK else 2
    return 1 if row.firm and row.due_on == today else 0


def limit(row: DueRow, *, zone: str, named: bool) -> str:
    """Its limit; a moment as clocks of the area show it, `named`: with that zone."""
    by = on = day(row.due_on.isoformat())
    if row.due_at:
        by = _("{day}, {hour}").format(day=on, hour=times.clock(row.due_at, zone=zone, named=named))
    return _("limit {day}").format(day=by) if row.firm else _("{day}, not confirmed").format(day=by)


def besides(row: DueRow) -> list[str]:
    """The first day of a window and the operator's own day, where there are such."""
    first = [_("not before {day}").format(day=day(row.not_before.isoformat()))] if row.not_before else []
    return first + ([_("target {day}").format(day=day(row.target_on.isoformat()))] if row.target_on else [])


def why(row: DueRow) -> str:
    """From what it is counted, and which bound decided: `15 months from the report, 3 Mar 2026`."""
    since = due_items.counted_from().get(row.counted_from, "")
    told = {"bound": row.governed_by, "since": since, "day": day(row.counted_on.isoformat())}
    if row.governed_by == "calendar year" and since:
        return _("by the calendar year, from {since}, {day}").format(**told)
    if row.governed_by and since:
        return _("{bound} from {since}, {day}").format(**told)
    return _("from {since}, {day}").format(**told) if since else _("as it was said on {day}").format(**told)


def source(row: DueRow) -> str:
    """The clause that asks for it and how far it is known."""
    return ", ".join(filter(None, (row.clause, "" if row.firm or not row.mark else mark_word(row.mark))))


def columns(areas: Sequence[Area], *, who: Callable[[DueRow], str]) -> Mapping[str, Callable[[DueRow], str | int]]:
    """The columns of the list where it is taken away as a file, by the word at their heads. `who`: who has it."""
    names: dict[UUID, str] = {area.id: area.name for area in areas}
    zones: dict[UUID, str] = {area.id: area.zone for area in areas}
    return {
        _("Limit"): lambda row: row.due_on.isoformat() if row.firm else "",
        _("Proposed, not confirmed"): lambda row: "" if row.firm else row.due_on.isoformat(),
        _("Limit, moment"): lambda row: times.iso(row.due_at, zone=zones.get(row.area, "UTC")),
        _("Not before"): lambda row: row.not_before.isoformat() if row.not_before else "",
        _("Target"): lambda row: row.target_on.isoformat() if row.target_on else "",
        _("Late"): lambda row: _("yes") if row.late else _("no"),
        _("Task"): lambda row: due_items.tasks().get(row.task, row.task),
        _("Grade"): lambda row: row.grade,
        _("Number"): lambda row: row.number,
        _("Area"): lambda row: names.get(row.area, ""),
        _("Where"): address_of_leak,
        _("Counted from"): lambda row: due_items.counted_from().get(row.counted_from, row.counted_from),
        _("Counted from the day"): lambda row: row.counted_on.isoformat(),
        _("Interval"): lambda row: row.governed_by,
        _("Clause"): lambda row: row.clause,
        _("How far it is known"): lambda row: mark_word(row.mark) if row.mark else "",
        _("Who has it"): who,
    }
