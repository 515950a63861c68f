"""`repairlog figure interval`: when an interval, as a code writes it, is due."""

from __future__ import annotations

import json
from datetime import date

import click

from repairlog.cli.figure.anchor import Anchor, read_anchor
from repairlog.cli.figure.unclear import CAUTION, FigureUnclear, told
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
from repairlog.words import _, intervals


@click.command(
    "interval",
    help=_('Say when RULE, such as "each calendar year, not exceeding 15 months", is due, counted from the last time.'),
)
@click.option("--rule", required=True, metavar="TEXT", help=_('The interval, such as "6 months" or "2 business days".'))
@click.option("--last", required=True, metavar="DATE", help=_("The last day, or moment with its zone or offset."))
@click.option("--zone", metavar="NAME", help=_("The zone whose days count, such as America/New_York."))
@click.option("--calendar", default=USUAL_CALENDAR, help=_("Whose holidays are no working days: US, US-NY, GB-SCT."))
@click.option("--done", type=click.IntRange(1, 366), help=_("How often it was done this year, the last one included."))
@click.option("--next-round", metavar="DATE", help=_("The day of the next scheduled round, where one is meant."))
@click.option("--json", "as_json", is_flag=True, help=_("Print one JSON object."))
@click.pass_context
def interval(
    context: click.Context,
    *,
    rule: str,
    last: str,
    zone: str | None,
    calendar: str,
    done: int | None,
    next_round: str | None,
    as_json: bool,
) -> None:
    """Print the due day; the exit code is 2 where something cannot be understood.

    As JSON: `due_on`, `governed_by`, of an interval in hours also `due_at`, of a window also `not_before`.
    """
    with told(context, as_json=as_json):
        around = Around(calendar=_calendar(calendar), done_this_year=done, next_round_on=_round(next_round, zone=zone))
        anchor = read_anchor(last, zone=zone)
        found = _counted(_interval(rule), anchor, around=around)
        click.echo(_as_json(found, anchor) if as_json else _for_people(found, anchor))


def _interval(rule: str) -> Interval:
    try:
        return read_interval(rule)
    except NotAnInterval as unclear:
        raise FigureUnclear(unclear.code, intervals.sentence(unclear.code, unclear.facts)) from None


def _calendar(name: str) -> str:
    if name not in CALENDARS:
        said = _("No calendar of holidays “{got}” is known.").format(got=name)
        raise FigureUnclear("calendar_unknown", (said, _("Write a country or a part of one: US, US-NY, GB-SCT.")))
    return name


def _round(next_round: str | None, *, zone: str | None) -> date | None:
    return None if next_round is None else read_anchor(next_round, zone=zone).on


def _counted(rule: Interval, anchor: Anchor, *, around: Around) -> Counted:
    if rule.in_hours and anchor.at is None:
        said = _("“{rule}” is counted in hours, and {on} is a whole day.").format(rule=rule.text, on=anchor.on)
        raise FigureUnclear("hour_needed", (said, _("Give the moment, such as {on}T10:02.").format(on=anchor.on)))
    try:
        if anchor.at is None:
            return count(rule, anchor.on, around=around)
        return count_from(rule, anchor.at, zone=anchor.zone, around=around)
    except OverflowError:
        said = _("“{rule}” from {on} lies past the year 9999.").format(rule=rule.text, on=anchor.on)
        raise FigureUnclear("past_the_calendar", (said, _("Look at the year."))) from None
    except ValueError:
        said = _("“{rule}” says no length of time: it is due at the next round.").format(rule=rule.text)
        raise FigureUnclear("round_needed", (said, _("Say when that is with --next-round."))) from None


def _as_json(found: Counted, anchor: Anchor) -> str:
    shown = {"due_on": found.due_on.isoformat(), "governed_by": found.governed_by}
    if found.due_at:
        there = found.due_at.astimezone(anchor.zone)
        shown["due_at"] = there.isoformat(timespec="seconds" if there.second else "minutes")
    if found.not_before:
        shown["not_before"] = found.not_before.isoformat()
    return json.dumps(shown)


def _for_people(found: Counted, anchor: Anchor) -> str:
    due = f"{found.due_at.astimezone(anchor.zone):%Y-%m-%d %H:%M %z}" if found.due_at else found.due_on.isoformat()
    lines = [_("Due by {due}, by the bound “{bound}”.").format(due=due, bound=found.governed_by)]
    if found.not_before:
        lines.append(_("Not before {day}.").format(day=found.not_before))
    return "\n".join((*lines, CAUTION))
