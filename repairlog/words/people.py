"""What is said of people on the books: their roles, and how their qualifications stand on a day."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from uuid import UUID

from repairlog.access import Membership
from repairlog.trade.qualified_on import TaskStanding
from repairlog.words import _, of_number
from repairlog.words.codes import word
from repairlog.words.days import day


def standing_word(standing: str) -> str:
    """How a qualification stands; KeyError for an unknown code."""
    return {
        "valid": _("Valid"),
        "ends_soon": _("Ends soon"),
        "lapsed": _("Lapsed"),
        "suspended": _("Suspended"),
        "withdrawn": _("Withdrawn"),
        "not_yet": _("Not yet"),
        "none": _("None on the books"),
    }[standing]


def task_told(of: TaskStanding) -> str:
    """`squeeze off: lapsed 30 Sep 2026`."""
    said = {
        "valid": _("{task}: valid until {day}") if of.until_on else _("{task}: valid, no last day"),
        "ends_soon": _("{task}: ends {day}"),
        "lapsed": _("{task}: lapsed, valid until {day}"),
        "suspended": _("{task}: suspended {day}"),
        "withdrawn": _("{task}: withdrawn {day}"),
        "not_yet": _("{task}: begins later"),
    }[of.standing]
    return said.format(task=of.task, day=day(of.until_on) if of.until_on else "")


def counted(tasks: Sequence[TaskStanding]) -> str:
    """How many tasks let the person do them: `3 valid`; empty where nothing is on the books."""
    valid = sum(each.standing in ("valid", "ends_soon") for each in tasks)
    return of_number("{number} valid", "{number} valid", number=valid).format(number=valid) if tasks else ""


def roles_told(held: Iterable[Membership], *, areas: Mapping[UUID, str], every: int) -> list[str]:
    """Each role once with where it holds. `areas`: names by id; `every`: how many there are, for of a single area
    nobody needs to be told which."""
    where: dict[str, list[str]] = {}
    for each in held:
        name = areas.get(each.area, _("another area")) if each.area else ""
        if each.company:
            name = ", ".join(filter(None, (name, _("for {company} alone").format(company=each.company))))
        where.setdefault(each.role, []).append(name)
    return [_role(role, names, every=every) for role, names in where.items()]


def _role(role: str, names: Sequence[str], *, every: int) -> str:
    plain = "" in names or (every == 1 and not any("," in name for name in names))
    return word(role) if plain else _("{role}: {where}").format(role=word(role), where="; ".join(names))


def number_of(number: int) -> str:
    """So many people in words."""
    return of_number("{number} person", "{number} people", number=number).format(number=number)
