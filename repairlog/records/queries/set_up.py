"""How far a book is set up: what an operator puts into it before its first leak."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import exists, func, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, INSTRUMENT, PERSON
from repairlog.records.tables.seen import sees_call, sees_leak
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import CALL, LEAK, LOT


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """How many people, crews, instruments and lots are on the books; `in_use`: a leak or a call is in the book."""

    people: int
    crews: int
    instruments: int
    lots: int
    in_use: bool


def set_up(scope: Scope, tx: Tx) -> SetUp | None:
    """How far the asker's part of the book is set up; None for a scope that sees nothing."""
    if scope.sees_nothing:
        return None
    counts = {
        name: select(func.count()).select_from(of).where(~of.c.void, *seen).scalar_subquery().label(name)
        for name, of, seen in (
            ("people", PERSON, ()),
            ("crews", CREW, (within(scope, CREW.c.area_id),)),
            ("instruments", INSTRUMENT, (within(scope, INSTRUMENT.c.area_id),)),
            ("lots", LOT, (within(scope, LOT.c.area_id),)),
        )
    }
    leaks = exists(select(LEAK.c.id).where(sees_leak(scope, LEAK)))
    calls = exists(select(CALL.c.id).where(sees_call(scope, CALL)))
    row = tx.connection.execute(select(*counts.values(), (leaks | calls).label("in_use"))).one()
    return SetUp(
        people=row.people, crews=row.crews, instruments=row.instruments, lots=row.lots, in_use=bool(row.in_use)
    )
