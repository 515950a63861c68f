"""Who acts: a person with roles in areas and days, and how sure we are that it is that person."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

INSPECTOR = "inspector"
"""The role that only reads, of a period."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Membership:
    """A role in an area (None: every area) from a day to a day, both counted in; `until_on` empty: open.
    `company`: whose work alone is seen, empty for all; `period_from_on`, `period_until_on`: the period that an
    inspector looks at."""

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
class Limited:
    """Leaks that a reader may see of an area (None: every area), and nothing else there: those that a company worked
    on, or those that were open on any day of a period; both days counted in."""

    area: UUID | None
    company: str = ""
    from_on: str = ""
    until_on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope:
    """What a reader may see: all there is of these areas, or of every one where `every_area`; and beside them those
    leaks that `limited` lets through. A scope without any of these sees nothing."""

    areas: frozenset[UUID] = frozenset()
    every_area: bool = False
    limited: frozenset[Limited] = frozenset()


NOTHING = Scope()
EVERYTHING = Scope(every_area=True)


def scope_of(actor: Actor, *, on: str) -> Scope:
    """What the actor may see on that day (`YYYY-MM-DD`)."""
    held = [m for m in actor.memberships if m.covers(area=m.area, on=on)]
    whole = [m for m in held if m.role != INSPECTOR and not m.company]
    limits = {limit for m in held if (limit := _limit(m))}
    return Scope(
        areas=frozenset(m.area for m in whole if m.area is not None),
        every_area=any(m.area is None for m in whole),
        limited=frozenset(limits),
    )


def _limit(held: Membership) -> Limited | None:
    """What a membership lets its holder see of an area that it does not show as a whole. An inspector's ends by itself
    and is of a period: one that says neither shows nothing."""
    if held.role != INSPECTOR:
        return Limited(area=held.area, company=held.company) if held.company else None
    if not (held.until_on and held.period_from_on and held.period_until_on):
        return None
    return Limited(area=held.area, from_on=held.period_from_on, until_on=held.period_until_on)
