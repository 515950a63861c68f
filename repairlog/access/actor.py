"""Who acts: a person with roles in areas and days, and how sure we are that it is that person."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

INSPECTOR = "inspector"
"""The role that only reads, of a period."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Membership:
    """A role in an area (None: every area) from a day to a day, both counted in; `until_on` empty: open.
    `company`: whose work alone is seen, empty for all."""

    role: str
    area: UUID | None
    from_on: str
    until_on: str = ""
    company: str = ""

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
class Scope:
    """What a reader may see: areas, or all of them where `every_area`. A scope without areas sees nothing."""

    areas: frozenset[UUID] = frozenset()
    every_area: bool = False


NOTHING = Scope()
EVERYTHING = Scope(every_area=True)


def scope_of(actor: Actor, *, on: str) -> Scope:
    """What the actor may see on that day (`YYYY-MM-DD`): the areas of memberships that show an area as a whole. One
    that is for a company's work alone, or for an inspector's period, shows none."""
    held = [m for m in actor.memberships if m.covers(area=m.area, on=on) and m.role != INSPECTOR and not m.company]
    return Scope(
        areas=frozenset(m.area for m in held if m.area is not None),
        every_area=any(m.area is None for m in held),
    )
