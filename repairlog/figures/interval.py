"""When an interval, as a code writes it, is due, as a figure with a page."""

from __future__ import annotations

from datetime import UTC, date, datetime, tzinfo
from zoneinfo import ZoneInfo

from repairlog.figures.asked import needed, number
from repairlog.figures.declared import Answer, Asked, Figure, Input, Value
from repairlog.figures.moments import ZONE, moment, zone_of
from repairlog.trade.intervals import (
    CALENDARS,
    USUAL_CALENDAR,
    Around,
    Counted,
    Interval,
    NotAnInterval,
    count,
    count_from,
    read_interval,
)
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _, days, intervals

DAY = "2026-03-05"
WOULD_HAVE = f"{DAY}, {DAY}T10:02-05:00"

CALENDAR = Input(
    name="calendar",
    kind="text",
    label=_("Calendar of holidays"),
    help=_("Whose holidays are no working days: US, US-NY, GB-SCT."),
    default=USUAL_CALENDAR,
)

INPUTS = (
    Input(
        name="rule",
        kind="text",
        label=_("Interval"),
        help=_("As a code writes it: 6 months; each calendar year, not exceeding 15 months; 2 business days."),
    ),
    Input(
        name="last",
        kind="text",
        label=_("Counted from"),
        help=_("The last day, or a moment: {examples}.").format(examples=WOULD_HAVE),
    ),
    ZONE,
    CALENDAR,
    Input(name="done", kind="number", label=_("Times done this year"), help=_("The last one counted in.")),
    Input(name="next_round", kind="text", label=_("Day of the next round"), help=_("Where the interval speaks of it.")),
)


def work(asked: Asked) -> Answer:
    """The last day on which it is in time, and by which bound."""
    rule, zone = _rule(str(needed(asked, "rule"))), zone_of(asked)
    on, at = day_or_moment(str(needed(asked, "last")), zone=zone, field="last")
    if rule.in_hours and at is None:
        raise Unworkable("hour_needed", field="last", got=on.isoformat())
    found = _counted(rule, on, at, zone=zone or UTC, around=_around(asked, zone))
    due = found.due_at.astimezone(zone) if found.due_at else None
    first = [Value(key="due_on", label=_("Due by"), worth=found.due_on.isoformat(), digits=0)]
    if due:
        first = [Value(key="due_at", label=_("Due by"), worth=due.isoformat(timespec="minutes"))]
    if found.not_before:
        first.append(Value(key="not_before", label=_("Not before"), worth=found.not_before.isoformat()))
    return Answer(
        values=(*first, Value(key="governed_by", label=_("By the bound"), worth=found.governed_by)),
        formula=_("the earliest of the interval's bounds, counted to the corresponding day"),
        source=_("how 49 CFR Part 192 is read (PI-92-052 of 1 October 1992): on or before the corresponding day"),
        steps=(
            _("counted from {day}").format(day=days.day(on.isoformat())),
            _("due on {day}").format(day=days.day(found.due_on.isoformat())),
        ),
        bounds=(_("hours are elapsed; a month that has no such day ends on its last; the due day is still in time"),),
        cautions=(_("Half a month is a convention: the operator's procedures say how many days it is."),)
        if any(bound.unit == "half_months" for bound in rule.bounds)
        else (),
        understood=dict(asked.shown),
    )


def day_or_moment(text: str, *, zone: ZoneInfo | None, field: str) -> tuple[date, datetime | None]:
    """The legal day in that zone, and the moment (UTC) where one was typed.

    Raises `not_written_so`; `zone_needed` for a moment where nobody says whose days count; `local_time_never`,
    `local_time_twice`.
    """
    said = text.strip()
    try:
        return date.fromisoformat(said), None
    except ValueError:
        at = moment(said, zone=zone, field=field, would_have=WOULD_HAVE)
    if zone is None:
        raise Unworkable("zone_needed", field="zone", got=said[:80])
    return at.astimezone(zone).date(), at.astimezone(UTC)


def calendar_of(asked: Asked) -> str:
    """The calendar that was named; raises `calendar_unknown`."""
    name = str(asked.values["calendar"])
    if name not in CALENDARS:
        raise Unworkable("calendar_unknown", field="calendar", got=name[:80])
    return name


def _rule(text: str) -> Interval:
    try:
        return read_interval(text)
    except NotAnInterval as unclear:
        message, hint = intervals.sentence(unclear.code, unclear.facts)
        raise Unworkable("said", field="rule", message=message, hint=hint) from None


def _around(asked: Asked, zone: ZoneInfo | None) -> Around:
    done = number(asked, "done") if "done" in asked.values else None
    if done is not None and (done != int(done) or not 1 <= done <= 366):
        raise Unworkable("not_whole", field="done", got=f"{done:g}")
    at = asked.values.get("next_round")
    return Around(
        calendar=calendar_of(asked),
        done_this_year=None if done is None else int(done),
        next_round_on=None if at is None else day_or_moment(str(at), zone=zone, field="next_round")[0],
    )


def _counted(rule: Interval, on: date, at: datetime | None, *, zone: tzinfo, around: Around) -> Counted:
    try:
        return count(rule, on, around=around) if at is None else count_from(rule, at, zone=zone, around=around)
    except OverflowError:
        raise Unworkable("past_the_calendar", field="rule", got=rule.text) from None
    except ValueError:
        raise Unworkable("round_needed", field="next_round", got=rule.text) from None


INTERVAL = Figure(
    name="interval",
    version="1",
    title=_("An interval"),
    help=_("Count an interval, as a code writes it, from a day or a moment."),
    inputs=INPUTS,
    work=work,
)
