"""What the address of the list of due items asks for: each filter by itself, so that a wrong one spoils no other."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from uuid import UUID

from repairlog.entries.ids import as_id
from repairlog.records.queries.due import DueEdge, WantedDue
from repairlog.trade.area import Area

NAMES = ("area", "task", "grade", "when", "who", "text")
"""The filters, as the address names them."""

WHENS = ("late", "week", "month")
"""Late; due up to the end of this week; up to the end of this month."""

MINE, NOBODY = "me", "none"
"""Who has it, besides a crew: the asker or a crew of theirs; nobody."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field, empty ones left out. `wrong`: by field, the code of what is wrong with it.
    `text`: what leaks are to be found by. `wanted`: the question to the book, without that."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    text: str
    wanted: WantedDue


def asked(
    arguments: Mapping[str, str], *, areas: Sequence[Area], crews: Collection[UUID], person: UUID, on: date
) -> Asked:
    """Read the filter of an address. `areas`, `crews`: those in the asker's scope; any other is as if it were not
    there. `person`: who asks, `on`: on which day."""
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in areas if area.code.casefold() == typed.get("area", "").casefold()), None)
    who, when = typed.get("who", ""), typed.get("when", "")
    crew = next((crew for crew in crews if str(crew) == who), None)
    found = {
        "area": "no_such_area" if area is None else "",
        "when": "no_such_time" if when not in WHENS else "",
        "who": "no_such_crew" if crew is None and who not in (MINE, NOBODY) else "",
    }
    wrong = {name: code for name, code in found.items() if code and name in typed}
    wanted = WantedDue(
        area=area,
        task=typed.get("task", ""),
        grade=typed.get("grade", ""),
        until_on={"week": end_of_week(on), "month": end_of_month(on)}.get(when),
        late=when == "late",
        crew=crew,
        person=person if who == MINE else None,
        person_on=on if who == MINE else None,
        nobody=who == NOBODY,
    )
    return Asked(typed=typed, wrong=wrong, text=typed.get("text", ""), wanted=wanted)


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
