"""Whose work an entry goes into, as far as it bounds what its sender may post."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Part, Scope
from repairlog.entries.entry import Entry
from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS
from repairlog.records.queries.settings import subjects
from repairlog.records.store import Tx
from repairlog.records.tables.books import PERSON
from repairlog.records.tables.by_company import people_of_company

WORK = ("leak", "source", "dig", "call")
"""Kinds of subjects that are somebody's work, and that a company's people may open as their own."""


def companies_of(
    tx: Tx, fresh: Sequence[Entry], *, stories: Sequence[Collection[UUID]], companies: Collection[str]
) -> list[frozenset[str]]:
    """By entry, in the order of the call, those of these companies whose work every story is into which it goes: it was
    theirs before, or one of their people opens it with this call. `stories`: by entry, those, with the work that it
    names."""
    theirs = {company: _theirs(tx, company, fresh, stories) for company in companies}
    return [frozenset(name for name, ids in theirs.items() if set(into) <= ids) for into in stories]


def _theirs(tx: Tx, company: str, fresh: Sequence[Entry], stories: Sequence[Collection[UUID]]) -> set[UUID]:
    asked = {id for into in stories for id in into}
    scope = Scope(parts=frozenset({Part(area=None, company=company)}))
    there = {row.id for row in subjects(scope, tx, ids=asked)}
    opening = {each.id: _who(each) for each in fresh if KINDS[each.kind].opens in WORK}
    people = _people(tx, company, {id for who in opening.values() for id in who})
    return there | {id for id, who in opening.items() if who & people}


def _who(entry: Entry) -> set[UUID]:
    rows: Sequence[Mapping[str, str]] = entry.did
    return {id for row in rows if (id := as_id(row.get("person")))}


def _people(tx: Tx, company: str, ids: Collection[UUID]) -> set[UUID]:
    wanted = select(PERSON.c.id).where(PERSON.c.id.in_(ids), PERSON.c.id.in_(people_of_company(company)))
    return set(tx.connection.execute(wanted).scalars()) if ids else set()
