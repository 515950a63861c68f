"""A crew as it stands: who is in it by date, and whose it is by date."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.trade.answers_to import answers


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A person in a crew from a day to a day, both counted in; `until_on` empty: open."""

    person: UUID
    from_on: str
    until_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OfCompany:
    """Whose a crew is from a day to a day, both counted in; empty: the operator's own, or open."""

    company: str
    from_on: str
    until_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """`members`: in the order in which they came; `companies`: in the order of days, without a hole between them."""

    id: UUID
    area: UUID
    name: str
    void: bool
    members: tuple[Member, ...]
    companies: tuple[OfCompany, ...]


def crew(entries: Sequence[Standing]) -> Crew | None:
    """The crew that these entries tell of; None if none of them makes it."""
    made = next((entry for entry in entries if entry.kind == "crew_made"), None)
    if made is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    changes = [entry for entry in live if entry.kind == "crew_changed"]
    names = [made.text("name"), *(each.text("name") for each in changes if each.text("name"))]
    return Crew(
        id=made.id,
        area=answers(made, live).now,
        name=names[-1],
        void=made.void is not None,
        members=tuple(_members(made, changes)),
        companies=tuple(_companies(made, changes)),
    )


def _members(made: Standing, changes: Sequence[Standing]) -> list[Member]:
    members = [
        Member(person=read_id(row["person"]), from_on=row.get("from_on", made.on), until_on=row.get("until_on", ""))
        for row in made.rows("members")
    ]
    for change in changes:
        left = _left(change)
        members = [
            replace(each, until_on=left[each.person]) if each.person in left and not each.until_on else each
            for each in members
        ]
        members += [
            Member(person=read_id(row["person"]), from_on=row.get("from_on", change.on), until_on="")
            for row in change.rows("joined")
        ]
    return _once(members)


def _left(change: Standing) -> dict[UUID, str]:
    """Who left, and their last day: named twice the later one, whichever row was put in first."""
    days = sorted((row.get("until_on", change.on), row["person"]) for row in change.rows("left"))
    return {read_id(person): until_on for until_on, person in days}


def _once(members: Sequence[Member]) -> list[Member]:
    """Whoever stands there twice from one day on is in it as long as either row says, whichever was put in first."""
    once: dict[tuple[UUID, str], Member] = {}
    for each in members:
        other = once.setdefault((each.person, each.from_on), each)
        if other.until_on and (not each.until_on or each.until_on > other.until_on):
            once[each.person, each.from_on] = each
    return list(once.values())


def _companies(made: Standing, changes: Sequence[Standing]) -> list[OfCompany]:
    """A change holds from its day on; of two on one day the later in the story."""
    from_days = {made.on: made.text("company")} | {c.on: c.text("company") for c in changes if c.text("company")}
    days = sorted(from_days)
    ends = [*((date.fromisoformat(day) - timedelta(days=1)).isoformat() for day in days[1:]), ""]
    return [OfCompany(company=from_days[day], from_on=day, until_on=end) for day, end in zip(days, ends, strict=True)]
