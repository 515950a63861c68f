"""What is said of work on a leak that is still to be done."""

from __future__ import annotations

from repairlog.records.queries.work import WorkRow
from repairlog.words import _, codes
from repairlog.words.days import day


def given(row: WorkRow) -> str:
    """`Repair, given to Truck 4 on 3 Mar 2026, to be done by 6 Mar 2026`."""
    to = _("given to {whom} on {day}") if row.whom else _("given on {day}")
    said = [codes.word(row.work), to.format(whom=row.whom, day=day(row.given_on))]
    said += [_("to be done by {day}").format(day=day(row.by_on))] if row.by_on else []
    return ", ".join(said)
