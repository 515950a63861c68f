"""Who acts: a person with roles in areas and days, and how sure we are that it is that person."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from uuid import UUID

INSPECTOR = "inspector"
"""The role that only reads, of a period."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Membership:
    """A role in an area (None: every area) from a day to a day, both counted in; `until_on` empty: open.
    `company`: whose work alone is seen, empty for all. `period_from_on`, `period_until_on`: the days that an inspector
    looks at, both counted in; empty for others."""

    role: str
    area: UUID | None
    from_on: str
    until_on: str = ""
    company: str = ""
    period_from_on: str = ""
    period_until_on: str = ""

    def covers(self, *, area: UUID | None, on: str) -> bool:
        """Whether it holds in that area on that day; an `area` of None asks for every area."""
        return self.area in (None, area) and self.from_on <= on and (not self.until_on or on <= self.until_on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Actor:
    """Who sends entries. `sure`: password, token, PIN, passkey, import or system. `signed_in_on`: the day from which
    the credential dates; empty for import and system, which have none."""

    person: UUID
    sure: str
    memberships: tuple[Membership, ...] = ()
    signed_in_on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of what an area (None: every area) holds. `company`: what was done by that company's people or given to
    them; empty: by whomever. `from_on`, `until_on`: what was open on any of these days; empty: whenever."""

    area: UUID | None
    company: str = ""
    from_on: str = ""
    until_on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope:
    """What a reader may see: whole areas, or all of them where `every_area`; and `parts` of areas. A scope without any
    of them sees nothing."""

    areas: frozenset[UUID] = frozenset()
    every_area: bool = False
    parts: frozenset[Part] = frozenset()

    @property
    def sees_nothing(self) -> bool:
        """Whether nothing at all is seen."""
        return not (self.every_area or self.areas or self.parts)

    @property
    def some_areas(self) -> frozenset[UUID] | None:
        """The areas of which anything is seen; None for all of them."""
        if self.every_area or any(part.area is None for part in self.parts):
            return None
        return self.areas | {part.area for part in self.parts if part.area is not None}

    @property
    def companies(self) -> frozenset[str]:
        """The companies whose work is seen in some part."""
        return frozenset(part.company for part in self.parts if part.company)


NOTHING = Scope()
EVERYTHING = Scope(every_area=True)


def scope_of(actor: Actor, *, on: str) -> Scope:
    """What the actor may see on that day (`YYYY-MM-DD`): the areas of memberships that show an area as a whole, and of
    others the part that they show. An inspector's shows none unless it ends by itself and names its period."""
    held = [m for m in actor.memberships if m.covers(area=m.area, on=on)]
    whole = [m for m in held if m.role != INSPECTOR and not m.company]
    return Scope(
        areas=frozenset(m.area for m in whole if m.area is not None),
        every_area=any(m.area is None for m in whole),
        parts=frozenset(_parts(held)),
    )


def _parts(held: list[Membership]) -> Iterator[Part]:
    for m in held:
        if m.role != INSPECTOR and m.company:
            yield Part(area=m.area, company=m.company)
        elif m.role == INSPECTOR and has_its_days(m):
            yield Part(area=m.area, company=m.company, from_on=m.period_from_on, until_on=m.period_until_on)


def has_its_days(membership: Membership) -> bool:
    """Whether an inspector's membership ends by itself and says which period is looked at."""
    return bool(membership.until_on and membership.period_from_on and membership.period_until_on)


def inspects(actor: Actor, *, on: str) -> bool:
    """Whether what the actor looks at on that day is to be listed."""
    return any(m.role == INSPECTOR and m.covers(area=m.area, on=on) for m in actor.memberships)
