"""What a leak's fold may rest on beside its own entries: other subjects, each as its own story leaves it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import KINDS
from repairlog.trade.area import Area, area
from repairlog.trade.instrument import Instrument, instrument
from repairlog.trade.joins import Join
from repairlog.trade.lot import Lot, lot
from repairlog.trade.person import Qualified, qualified
from repairlog.trade.rulebook import Rulebook

Rested = Area | Qualified | Instrument | Lot | Join
"""A subject that leaks rest on, as it stands."""

FOLDS: Mapping[str, Callable[[Sequence[Standing]], Rested | None]] = {
    "area": area,
    "person": qualified,
    "instrument": instrument,
    "lot": lot,
}
"""By kind of subject, what its story gives of that which leaks rest on."""

NAMED_AS: Mapping[str, str] = {
    "area": "area",
    "to_area": "area",
    "people.person": "person",
    "did.person": "person",
    "instrument_used": "instrument",
    "readings.instrument_used": "instrument",
    "materials.lot": "lot",
    "joined_to": "leak",
}
"""As what the entries of a leak's story name what the leak rests on, and of which kind it is."""


ONE_OF_SEVERAL = ("person", "instrument", "lot")
"""Kinds of which leaks rest on all records that were made one."""


@dataclass(frozen=True, slots=True)
class Rests:
    """By id, what leaks rest on; whatever is not here counts as not being on the books. `rulebooks`: by digest, those
    that the areas among them name. `same`: by record, those that it was made one with, either way."""

    areas: dict[UUID, Area] = field(default_factory=dict)
    people: dict[UUID, Qualified] = field(default_factory=dict)
    instruments: dict[UUID, Instrument] = field(default_factory=dict)
    lots: dict[UUID, Lot] = field(default_factory=dict)
    leaks: dict[UUID, Join] = field(default_factory=dict)
    rulebooks: dict[str, Rulebook] = field(default_factory=dict)
    same: dict[UUID, set[UUID]] = field(default_factory=dict)


def rests_of(things: Iterable[Rested]) -> Rests:
    """These things, each in its place."""
    rests = Rests()
    for each in things:
        put(rests, each)
    return rests


def digests_of(areas: Iterable[Area]) -> set[str]:
    """The digests of the rulebooks that areas adopted, or confirmed rules of."""
    return {each.digest for area in areas for named in (area.adoptions, area.confirmed) for each in named}


def put(rests: Rests, each: Rested) -> None:
    """Put one more among them, or in the place of what it was."""
    if isinstance(each, Area):
        rests.areas[each.id] = each
    elif isinstance(each, Qualified):
        rests.people[each.id] = each
    elif isinstance(each, Instrument):
        rests.instruments[each.id] = each
    elif isinstance(each, Join):
        rests.leaks[each.id] = each
    else:
        rests.lots[each.id] = each
    for other in each.same if isinstance(each, Qualified | Instrument | Lot) else ():
        rests.same.setdefault(each.id, set()).add(other)
        rests.same.setdefault(other, set()).add(each.id)


def person_as_one(rests: Rests, id: UUID) -> list[Qualified]:
    """Every record of that person, theirs first; none where they are not on the books."""
    return [rests.people[each] for each in _as_one(rests, id) if each in rests.people] if id in rests.people else []


def instrument_as_one(rests: Rests, id: UUID) -> list[Instrument]:
    """Every record of that instrument, its own first; none where it is not on the books."""
    known = rests.instruments
    return [known[each] for each in _as_one(rests, id) if each in known] if id in known else []


def lot_as_one(rests: Rests, id: UUID) -> list[Lot]:
    """Every record of that lot, its own first; none where it is not on the books."""
    return [rests.lots[each] for each in _as_one(rests, id) if each in rests.lots] if id in rests.lots else []


def _as_one(rests: Rests, id: UUID) -> list[UUID]:
    """That record and all that were made one with it, by however many steps; a ring ends where it began."""
    found, asked = {id}, {id}
    while asked:
        asked = {other for each in asked for other in rests.same.get(each, ())} - found
        found |= asked
    return [id, *sorted(found - {id})]


@cache
def of_a_leak(kind: str) -> bool:
    """Whether an entry of that kind, which puts no other right, stands in a leak's story or opens it."""
    of = KINDS[kind]
    return of.opens == "leak" or any(f.name == of.folds_in and f.refers_to == "leak" for f in of.fields)


NO_MATTER = ("role_given", "role_ended", "instrument_checked")
"""Kinds of entries that change nothing of a subject that leaks rest on."""

OF_OPEN_LEAKS = ("rulebook_adopted", "rule_confirmed")
"""Kinds of entries that change only what is owed: of leaks that are open, or of which something was told later."""

FROM_ITS_DAY = (
    *OF_OPEN_LEAKS,
    "qualified",
    "qualification_ended",
    "person_left",
    "instrument_calibrated",
    "instrument_retired",
)
"""Kinds of entries that tell of their own day and of those after it."""

DAY_IN_FIELD = {"rulebook_adopted": "from_on", "person_left": "until_on"}
"""Of some of them, the field in which that day stands."""


def changes_from(kind: str, *, on: str) -> str | None:
    """The first day of what leaks tell that an entry of that kind may change, in the story of a subject they rest on;
    empty: any day; None: nothing. `on`: the entry's own day.

    What can be said of any subject whatever, such as a note, changes nothing, unless it makes two records one.
    """
    if kind == "made_one":
        return ""
    if kind in NO_MATTER or _of_anything(kind):
        return None
    return on if kind in FROM_ITS_DAY else ""


@cache
def _of_anything(kind: str) -> bool:
    of = KINDS[kind]
    return any(f.name == of.folds_in and not f.refers_to for f in of.fields)


def kinds_named(paths: Iterable[str]) -> Iterator[str]:
    """Of fields such as `materials.m1.lot`, the kind of subject that each of them makes a leak rest on."""
    for path in paths:
        name, _, rest = path.partition(".")
        as_what = f"{name}.{rest.rpartition('.')[2]}" if rest else name
        if as_what in NAMED_AS:
            yield NAMED_AS[as_what]
