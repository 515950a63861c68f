"""What the entries of a story name, by id: people, crews, things on the books, other leaks; as they are called now."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from uuid import UUID

from sqlalchemy import exists, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import COMPANY, CREW, INSTRUMENT, PERSON
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.made_one import kept_for
from repairlog.records.tables.read_back import lot_of
from repairlog.records.tables.seen import sees_call, sees_leak
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import AREA, CALL, DIG, DIG_SERVES, LEAK, LOT, PLACE
from repairlog.trade.lot import Lot

_SHELF, _OPERATOR = OF_KIND["shelf_made"], OF_KIND["operator_opened"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """`kind`: of the subject. `called`: a name, or the number of a lot, a leak or a call; of two records that were made
    one the name of the one that is kept, `itself` then being its own. `lot`: as it stands, of a lot. A dig has no
    number: `called` is its locate ticket, empty where it has none, and `on` the day on which it was opened."""

    kind: str
    called: str
    lot: Lot | None = None
    on: str = ""
    itself: str = ""


def named(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> dict[UUID, Named]:
    """Those of these subjects that have a name, by id. People, crews, shelves, areas and lots that a record names are
    part of what it says, wherever they belong; of leaks, calls and digs only those in scope are told."""
    if scope.sees_nothing:
        return {}
    people = select(PERSON.c.id, PERSON.c.name).where(PERSON.c.id.in_(ids))
    found = {row.id: Named(kind="person", called=row.name) for row in tx.connection.execute(people)}
    companies = select(COMPANY.c.id, COMPANY.c.name).where(COMPANY.c.id.in_(ids))
    found |= {row.id: Named(kind="company", called=row.name) for row in tx.connection.execute(companies)}
    areas = select(AREA.c.id, AREA.c.name).where(AREA.c.id.in_(ids))
    found |= {row.id: Named(kind="area", called=row.name) for row in tx.connection.execute(areas)}
    leaks = select(LEAK.c.id, LEAK.c.number).where(LEAK.c.id.in_(ids), sees_leak(scope, LEAK))
    found |= {row.id: Named(kind="leak", called=row.number) for row in tx.connection.execute(leaks)}
    calls = select(CALL.c.id, CALL.c.number).where(CALL.c.id.in_(ids), sees_call(scope, CALL))
    found |= {row.id: Named(kind="call", called=row.number) for row in tx.connection.execute(calls)}
    operators = select(_OPERATOR.c.id, _OPERATOR.c.name).where(_OPERATOR.c.id.in_(ids))
    found |= {row.id: Named(kind="operator", called=row.name) for row in tx.connection.execute(operators)}
    found |= _places(tx, ids) | _digs(scope, tx, ids)
    return _as_made_one(tx, found | _instruments(tx, ids) | _crews(tx, ids) | _shelves(tx, ids) | _lots(tx, ids))


def _as_made_one(tx: Tx, found: dict[UUID, Named]) -> dict[UUID, Named]:
    """The same, where a record of two that are the same is called as the one that is kept."""
    kept = kept_for(tx, found.keys())
    lacking = set(kept.values()) - found.keys()
    people = select(PERSON.c.id, PERSON.c.name).where(PERSON.c.id.in_(lacking))
    also = {row.id: Named(kind="person", called=row.name) for row in tx.connection.execute(people)} if lacking else {}
    if lacking:
        also |= _lots(tx, lacking) | _places(tx, lacking) | _instruments(tx, lacking) | _crews(tx, lacking)
    known = found | also
    shown = {id: known[to] for id, to in kept.items() if to in known and known[to].kind == found[id].kind}
    itself = {id: found[id].called for id in shown}
    return found | {id: replace(found[id], called=each.called, itself=itself[id]) for id, each in shown.items()}


def called_themselves(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> dict[UUID, str]:
    """Those of these subjects that have a name, each under its own, whichever is kept for it."""
    return {id: each.itself or each.called for id, each in named(scope, tx, ids=ids).items()}


def _instruments(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Named]:
    rows = tx.connection.execute(select(INSTRUMENT.c.id, INSTRUMENT.c.mark).where(INSTRUMENT.c.id.in_(ids)))
    return {row.id: Named(kind="instrument", called=row.mark) for row in rows}


def _crews(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Named]:
    rows = tx.connection.execute(select(CREW.c.id, CREW.c.name).where(CREW.c.id.in_(ids)))
    return {row.id: Named(kind="crew", called=row.name) for row in rows}


def _shelves(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Named]:
    rows = tx.connection.execute(select(_SHELF.c.id, _SHELF.c.name).where(_SHELF.c.id.in_(ids)))
    return {row.id: Named(kind="shelf", called=row.name) for row in rows}


def _places(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Named]:
    rows = select(PLACE.c.id, PLACE.c.called, PLACE.c.house_number, PLACE.c.street).where(PLACE.c.id.in_(ids))
    return {
        row.id: Named(kind="place", called=row.called or " ".join(filter(None, (row.house_number, row.street))))
        for row in tx.connection.execute(rows)
    }


def _digs(scope: Scope, tx: Tx, ids: Collection[UUID]) -> dict[UUID, Named]:
    serves = exists().where(DIG_SERVES.c.dig_id == DIG.c.id, DIG_SERVES.c.leak_id == LEAK.c.id, sees_leak(scope, LEAK))
    seen = or_(within(scope, DIG.c.area_id), serves)
    rows = select(DIG.c.id, DIG.c.ticket, DIG.c.opened_on).where(DIG.c.id.in_(ids), seen)
    return {
        row.id: Named(kind="dig", called=row.ticket or "", on=row.opened_on.isoformat())
        for row in tx.connection.execute(rows)
    }


def _lots(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Named]:
    lots = [lot_of(row) for row in tx.connection.execute(select(LOT).where(LOT.c.id.in_(ids)))]
    return {lot.id: Named(kind="lot", called=lot.lot_number, lot=lot) for lot in lots}
