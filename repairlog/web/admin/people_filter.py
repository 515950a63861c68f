"""What the list of people may be asked for, and what its address asks for, as a question to the book."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from repairlog.entries.operator import ROLES
from repairlog.records.queries.crews import CrewRow
from repairlog.records.queries.people_listed import WantedPeople
from repairlog.trade.area import Area
from repairlog.web.frame.filters import Asked, Box, asked, chosen, of_area, on_day
from repairlog.web.frame.leak_filter import of_crew
from repairlog.words import _
from repairlog.words import people as words
from repairlog.words.codes import word

QUALIFIED = ("valid", "ends_soon", "lapsed", "none")

SOON = ("30", "60", "90")
"""Days ahead within which what ends is said to end soon; the first where nothing is chosen: common practice, no
source."""


def asked_of_people(within: Sequence[Area], crews: Sequence[CrewRow]) -> Asked:
    """The filter of the list. `crews`: those in the asker's scope."""
    boxes = [
        Box(name="name", label=_("Name or outside number"), hint=_("part of a name")),
        *of_area(within),
        chosen("role", _("Role"), choices={role: word(role) for role in ROLES}),
        *of_crew(crews),
        Box(name="company", label=_("Company"), hint=_("part of it")),
        Box(name="task", label=_("Covered task"), hint=_("part of it")),
        chosen("qualified", _("Qualification"), choices={code: words.standing_word(code) for code in QUALIFIED}),
        *as_of(),
        chosen("left", _("Which"), choices={"yes": _("who left")}, any=_("who is here")),
    ]
    return asked(boxes, within=within)


def as_of() -> list[Box]:
    """The boxes for the day that is looked at, and for how far ahead of it is soon."""
    today = _("“{got}” is no day of the calendar. Write it like 2026-03-05; today is taken for now.")
    soon = {days: _("{days} days").format(days=days) for days in SOON}
    return [
        chosen("soon", _("Soon is within"), choices=soon, any=_("30 days")),
        on_day("on", _("As of"), wrong=today),
    ]


def looked_at_on(of: Asked, *, today: date) -> tuple[date, date]:
    """The day that is looked at, and the last one that is soon after it."""
    on, soon = of.day("on") or today, timedelta(days=int(of.text("soon") or SOON[0]))
    return on, min(on, date.max - soon) + soon


def wanted(of: Asked, *, today: date) -> WantedPeople:
    """The same as a question to the book. `today`: the day that is looked at where none is given."""
    on, soon_until = looked_at_on(of, today=today)
    return WantedPeople(
        on=on,
        soon_until=soon_until,
        name=of.text("name"),
        area=of.area,
        role=of.text("role"),
        company=of.text("company"),
        crew=of.id("crew"),
        task=of.text("task"),
        qualified=of.text("qualified"),
        left=bool(of.text("left")),
    )
