"""Reading what leaks rest on as its worked rows have it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from typing import Any
from uuid import UUID

from sqlalchemy import Row, Select, select

from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.books import CALIBRATION, INSTRUMENT, PERSON, QUALIFICATION
from repairlog.records.tables.facts import ENTRY, OF_KIND
from repairlog.records.tables.made_one import Sameness, made_one
from repairlog.records.tables.read_back import area_of, instrument_of, lot_of, qualified_of
from repairlog.records.tables.rulebook_texts import rulebook
from repairlog.records.tables.worked import AREA, LEAK, LOT
from repairlog.trade.instrument import Instrument
from repairlog.trade.joins import Join
from repairlog.trade.lot import Lot
from repairlog.trade.person import Qualified, Stopped
from repairlog.trade.rests import ONE_OF_SEVERAL, Rested, Rests, digests_of


def read(tx: Tx, wanted: Mapping[str, Collection[UUID]], *, same: Collection[UUID] = ()) -> dict[UUID, Rested]:
    """These subjects by id, as their worked rows have them, and with a leak those under which it goes on, with a
    person, an instrument or a lot those that are the same; none where a subject is not of the kind it is named as.
    `same`: records that are read beside, since they are to be made one with others."""
    found: dict[UUID, Rested] = {}
    of = {*same, *(id for kind in ONE_OF_SEVERAL for id in wanted.get(kind, ()))}
    as_one = made_one(tx, of) if of else Sameness()
    for kind, ids in wanted.items():
        also = {*same, *as_one.ids} if kind in ONE_OF_SEVERAL else set()
        if {*ids, *also}:
            found |= _READ[kind](tx, {*ids, *also})
    return _as_one(tx, found, as_one.others) if same or as_one.others else found


def _as_one(tx: Tx, found: dict[UUID, Rested], others: Mapping[UUID, tuple[UUID, ...]]) -> dict[UUID, Rested]:
    """The same with what only matters where records are one: which they are, and what was said on one of them that
    touches the others. It is read from what was entered, since the rows of each tell of it alone."""
    stops: dict[UUID, list[Stopped]] = defaultdict(list)
    releases: dict[UUID, list[str]] = defaultdict(list)
    for row in tx.connection.execute(_SAID, {"ids": list(found)}):
        if row.kind == "lot_released":
            releases[row.subject_id].append(row.happened_on.isoformat())
        else:
            stops[row.subject_id].append(Stopped(task=row.task, on=row.happened_on.isoformat(), how=row.how))
    for id, each in found.items():
        if isinstance(each, Qualified):
            found[id] = replace(each, stops=tuple(stops[id]), same=others.get(id, ()))
        elif isinstance(each, Instrument):
            found[id] = replace(each, same=others.get(id, ()))
        elif isinstance(each, Lot):
            found[id] = replace(each, releases=tuple(releases[id]), same=others.get(id, ()))
    return found


_ENDED = OF_KIND["qualification_ended"]
_SAID = (
    select(ENTRY.c.kind, ENTRY.c.subject_id, ENTRY.c.happened_on, _ENDED.c.task, _ENDED.c.how)
    .outerjoin(_ENDED, _ENDED.c.id == ENTRY.c.id)
    .where(ENTRY.c.subject_id.in_(IDS), ENTRY.c.kind.in_(("qualification_ended", "lot_released")), ~ENTRY.c.void)
)


def open_rulebooks(tx: Tx, rests: Rests) -> Rests:
    """The same with the rulebooks that its areas name. Raises RulebookUnreadable."""
    for digest in digests_of(rests.areas.values()) - rests.rulebooks.keys():
        rests.rulebooks[digest] = rulebook(tx, digest)
    return rests


_AREAS = select(AREA).where(AREA.c.id.in_(IDS))
_LOTS = select(LOT).where(LOT.c.id.in_(IDS))
_PEOPLE = (
    select(
        PERSON.c.id,
        PERSON.c.name,
        PERSON.c.void,
        PERSON.c.left_on,
        *(c for c in QUALIFICATION.c if c is not QUALIFICATION.c.engine),
    )
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
