"""Reading what leaks rest on as its worked rows have it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Mapping
from typing import Any
from uuid import UUID

from sqlalchemy import Row, Select, select

from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.books import CALIBRATION, INSTRUMENT, PERSON, QUALIFICATION
from repairlog.records.tables.read_back import area_of, instrument_of, lot_of, qualified_of
from repairlog.records.tables.rulebook_texts import rulebook
from repairlog.records.tables.worked import AREA, LEAK, LOT
from repairlog.trade.joins import Join
from repairlog.trade.rests import Rested, Rests, digests_of


def read(tx: Tx, wanted: Mapping[str, Collection[UUID]]) -> dict[UUID, Rested]:
    """These subjects by id, as their worked rows have them, and with a leak those under which it goes on; none where a
    subject is not of the kind it is named as."""
    found: dict[UUID, Rested] = {}
    for kind, ids in wanted.items():
        if ids:
            found |= _READ[kind](tx, ids)
    return found


def open_rulebooks(tx: Tx, rests: Rests) -> Rests:
    """The same with the rulebooks that its areas name. Raises RulebookUnreadable."""
    for digest in digests_of(rests.areas.values()) - rests.rulebooks.keys():
        rests.rulebooks[digest] = rulebook(tx, digest)
    return rests


_AREAS = select(AREA).where(AREA.c.id.in_(IDS))
_LOTS = select(LOT).where(LOT.c.id.in_(IDS))
_PEOPLE = (
    select(PERSON.c.id, PERSON.c.name, PERSON.c.void, *(c for c in QUALIFICATION.c if c is not QUALIFICATION.c.engine))
    .outerjoin(QUALIFICATION, QUALIFICATION.c.person_id == PERSON.c.id)
    .where(PERSON.c.id.in_(IDS))
)
_INSTRUMENTS = (
    select(
        INSTRUMENT,
        CALIBRATION.c.entry_id,
        CALIBRATION.c.calibrated_on.label("each_on"),
        CALIBRATION.c.result.label("each_result"),
        CALIBRATION.c.next_due_on.label("each_next_due_on"),
    )
    .outerjoin(CALIBRATION, CALIBRATION.c.instrument_id == INSTRUMENT.c.id)
    .where(INSTRUMENT.c.id.in_(IDS))
    .order_by(CALIBRATION.c.number)
)


def _areas(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    return {row.id: area_of(row) for row in tx.connection.execute(_AREAS, {"ids": list(ids)})}


def _lots(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    return {row.id: lot_of(row) for row in tx.connection.execute(_LOTS, {"ids": list(ids)})}


def _people(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    return {id: qualified_of(rows) for id, rows in _rows_by_id(tx, _PEOPLE, ids).items()}


def _instruments(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    return {id: instrument_of(rows) for id, rows in _rows_by_id(tx, _INSTRUMENTS, ids).items()}


def _rows_by_id(tx: Tx, rows: Select[Any], ids: Collection[UUID]) -> dict[UUID, list[Row[Any]]]:
    found: dict[UUID, list[Row[Any]]] = defaultdict(list)
    for row in tx.connection.execute(rows, {"ids": list(ids)}):
        found[row.id].append(row)
    return found


_joined = select(LEAK.c.id, LEAK.c.joined_to_id).where(LEAK.c.id.in_(IDS)).cte("joined", recursive=True)
_onward = LEAK.alias("onward")
_joined = _joined.union(
    select(_onward.c.id, _onward.c.joined_to_id).join(_joined, _onward.c.id == _joined.c.joined_to_id)
)
_JOINS = select(LEAK.c.id, LEAK.c.joined_to_id, LEAK.c.status, LEAK.c.ended_how).where(
    LEAK.c.id.in_(select(_joined.c.id))
)
"""These leaks and those to which they lead, one after the other; a ring ends, since each row comes once."""


def joins(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    """How these leaks were joined, and those to which they lead, one after the other."""
    return {row.id: _join_of(row) for row in tx.connection.execute(_JOINS, {"ids": list(ids)})}


def _join_of(row: Any) -> Join:
    by_ending = row.joined_to_id is None and row.ended_how == "opened_in_error"
    return Join(id=row.id, to=row.joined_to_id, in_error=row.status == "opened_in_error" or by_ending)


_READ: Mapping[str, Callable[[Tx, Collection[UUID]], dict[UUID, Rested]]] = {
    "area": _areas,
    "person": _people,
    "instrument": _instruments,
    "lot": _lots,
    "leak": joins,
}
