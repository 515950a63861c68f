"""What the list of due items may be asked for, and what its address asks for, as a question to the book."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from uuid import UUID

from repairlog.entries.ids import as_id
from repairlog.records.queries.due import DueEdge, Like, WantedDue
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.rulebook import TASKS
from repairlog.web.frame.asking import asker
from repairlog.web.frame.filters import Asked, Box, asked, chosen, of_area
from repairlog.words import _
from repairlog.words import due_list as words

MINE, NOBODY = "me", "none"
"""Who has it, besides a crew: the asker or a crew of theirs; nobody."""


def asked_of_due(within: Sequence[Area], crews: Mapping[UUID, str]) -> Asked:
    """The filter of the list. `crews`: names of those in the asker's scope."""
    whens = {
        "late": _("late"),
        "week": _("up to the end of this week"),
        "month": _("up to the end of this month"),
    }
    who = {MINE: _("me or my crew"), NOBODY: _("no one"), **{str(id): name for id, name in crews.items()}}
    gone = _("There is no such crew here; it is left out for now.")
    boxes = [
        chosen("when", _("When"), choices=whens, any=_("any day")),
        chosen("task", _("Task"), choices={code: words.task(code) for code in (*TASKS, "restore")}),
        chosen("who", _("Who has it"), choices=who, any=_("anyone"), wrong=gone),
        Box(name="grade", label=_("Grade"), size=4),
        *of_area(within),
        Box(name="text", label=_("Number or address")),
    ]
    return asked(boxes, within=within)


def wanted(tx: Tx, of: Asked, *, on: date) -> WantedDue:
    """The same as a question to the book. `on`: the day of whoever asks."""
    who, when = of.text("who"), of.text("when")
    return WantedDue(
        area=of.area,
        task=of.text("task"),
        grade=of.text("grade"),
        until_on={"week": end_of_week(on), "month": end_of_month(on)}.get(when),
        late=when == "late",
        crew=of.id("who"),
        person=asker().actor.person if who == MINE else None,
        person_on=on if who == MINE else None,
        nobody=who == NOBODY,
        like=_like(tx, of.text("text")) if of.text("text") else None,
    )


def end_of_week(on: date) -> date:
    """The Sunday of that day's week (ISO 8601)."""
    return on + timedelta(days=7 - on.isoweekday())


def end_of_month(on: date) -> date:
    """The last day of that day's month."""
    return (on.replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)


def house_and_street(text: str) -> tuple[str, str]:
    """An address as it is typed: a house number where its first word has a digit, and the rest."""
    first, _blank, rest = text.partition(" ")
    return (first, rest) if rest and any(each.isdigit() for each in first) else ("", text)


def _like(tx: Tx, text: str) -> Like:
    house, street = house_and_street(text)
    return Like(text=text, house=house, streets=tuple(streets_named(asker().scope, tx, part=street)))


def edge_text(edge: DueEdge) -> str:
    """Where a page ends, as it stands in an address."""
    return "~".join(("late" if edge.late else "due", edge.on.isoformat(), *map(str, edge.key)))


def edge_of(text: str) -> DueEdge | None:
    """The same read back; None for any other text."""
    parts = text.split("~")
    if len(parts) != 7:
        return None
    ids = [as_id(parts[place]) for place in (2, 3, 5, 6)]
    try:
        on = date.fromisoformat(parts[1])
    except ValueError:
        return None
    subject, adopted, graded, counted = ids
    if subject is None or adopted is None or graded is None or counted is None:
        return None
    return DueEdge(late=parts[0] == "late", on=on, key=(subject, adopted, parts[4], graded, counted))
