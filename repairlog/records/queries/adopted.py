"""Which rulebook holds in an area on a day, which of its rules were confirmed and by what; rulebooks by digest."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date
from uuid import UUID

from sqlalchemy import func, select

from repairlog.access import Scope
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.records.tables.beside import STALE
from repairlog.records.tables.books import PERSON
from repairlog.records.tables.facts import ENTRY, OF_KIND, WHO_DID
from repairlog.records.tables.rulebook_texts import kept_texts, rulebook
from repairlog.records.tables.seen import sees_leak, sees_some
from repairlog.records.tables.worked import LEAK
from repairlog.trade.adopted import adopted_on, confirmed_in
from repairlog.trade.rulebook import Rulebook
from repairlog.trade.rulebook.book import rules
from repairlog.trade.rulebook.kept import RulebookUnreadable

_CONFIRMED = OF_KIND["rule_confirmed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AdoptedRow:
    """The rulebook that holds in an area. `entry`: by which it was adopted; `from_on`, `until_on`: the days on which it
    holds, `until_on` empty while no other follows. `confirmed`: the day of each rule that was confirmed, by id."""

    area: UUID
    entry: UUID
    rulebook: str
    digest: str
    from_on: str
    until_on: str
    confirmed: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmationRow:
    """A rule confirmed. `who`: names of those who did it; `document`, `page`: what they read."""

    entry: UUID
    rule: str
    digest: str
    on: str
    who: tuple[str, ...]
    document: str
    page: str
    remark: str


def adopted(scope: Scope, tx: Tx, *, area: UUID, on: date) -> AdoptedRow | None:
    """What holds in that area on that day; None where none does yet, or the area is not in scope.
    Raises RulebookUnreadable."""
    found = next((each for each in areas(scope, tx) if each.id == area), None)
    holds = adopted_on(found.adoptions, on=on.isoformat()) if found else None
    if found is None or holds is None:
        return None
    whole = rulebook(tx, holds.digest)
    return AdoptedRow(
        area=area,
        entry=holds.entry,
        rulebook=holds.rulebook,
        digest=holds.digest,
        from_on=holds.from_on,
        until_on=holds.until_on,
        confirmed=confirmed_in(whole, found.confirmed, opened=lambda digest: rulebook(tx, digest)),
    )


def authorities(scope: Scope, tx: Tx, *, ids: Collection[UUID], on: date) -> frozenset[str]:
    """Whose rules hold in these areas on that day, by the ids of their rulebooks; none where one of them has adopted
    nothing yet, is not in scope, or what it adopted cannot be read."""
    holding = [adopted_on(each.adoptions, on=on.isoformat()) for each in areas(scope, tx) if each.id in ids]
    if len(holding) < len(ids) or None in holding:
        return frozenset()
    try:
        books = [rulebook(tx, each.digest) for each in holding if each]
    except RulebookUnreadable:
        return frozenset()
    return frozenset(id for book in books for id in (book.id, *(rule.cited.rulebook for _kind, rule in rules(book))))


def confirmations(scope: Scope, tx: Tx, *, area: UUID) -> list[ConfirmationRow]:
    """The rules that were confirmed in that area, the newest first; of any rulebook."""
    rows = tx.connection.execute(
        select(_CONFIRMED, ENTRY.c.happened_on, WHO_DID.c.named, PERSON.c.name.label("person"))
        .join(ENTRY, ENTRY.c.id == _CONFIRMED.c.id)
        .outerjoin(WHO_DID, WHO_DID.c.entry_id == _CONFIRMED.c.id)
        .outerjoin(PERSON, PERSON.c.id == WHO_DID.c.person_id)
        .where(sees_some(scope, ENTRY.c.subject_id), ENTRY.c.subject_id == area, ENTRY.c.void.is_(False))
        .order_by(ENTRY.c.happened_on.desc(), ENTRY.c.journal_index.desc(), WHO_DID.c.key)
    )
    found: dict[UUID, ConfirmationRow] = {}
    for row in rows:
        who = (*(found[row.id].who if row.id in found else ()), row.person or row.named or "")
        found[row.id] = ConfirmationRow(
            entry=row.id,
            rule=row.rule,
            digest=row.digest,
            on=row.happened_on.isoformat(),
            who=who,
            document=row.document,
            page=row.page,
            remark=row.remark or "",
        )
    return list(found.values())


def how_many_stale(scope: Scope, tx: Tx, *, area: UUID) -> int:
    """How many leaks of that area wait to be worked out again after a change of what they rest on."""
    waiting = (
        select(func.count())
        .select_from(STALE)
        .join(LEAK, LEAK.c.id == STALE.c.subject_id)
        .where(sees_leak(scope, LEAK), LEAK.c.area_id == area)
    )
    return int(tx.connection.execute(waiting).scalar_one())


def rulebook_with(scope: Scope, tx: Tx, *, digest: str) -> Rulebook | None:
    """The rulebook of that digest: as its text is kept in the book, else as it is offered for adoption; None where
    neither knows it."""
    if scope.sees_nothing:
        return None
    if kept_texts(tx, digest):
        return rulebook(tx, digest)
    return next((each for each in tx.rulebooks.offered().values() if each.digest == digest), None)
