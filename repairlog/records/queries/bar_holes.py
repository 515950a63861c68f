"""The bar holes of a leak under the numbers that they keep, each with what was read there last."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import Row, func, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_ROWS, SUBJECT
from repairlog.records.tables.seen import sees_subject
from repairlog.records.tables.worked import BAR_HOLE

_PLACES = OF_ROWS["visit", "places"]
_READINGS = OF_ROWS["visit", "readings"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LastRead:
    """What one visit read at a hole: `entry`, `key` of the row there. `on`: its legal day. `value`: as typed; `gas`,
    `kind`: codes, empty where none was said."""

    on: str
    entry: UUID
    key: str
    value: str
    gas: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleRow:
    """`name`: `entry id/row key` of its first place, by which others say that they are the same hole. `last`: the
    readings of the last visit that read anything there, in that visit's order; none where nobody ever did."""

    name: str
    number: int
    label: str
    owner: str
    from_building: str
    last: tuple[LastRead, ...]


def bar_holes_of(scope: Scope, tx: Tx, *, leak: UUID) -> list[HoleRow]:
    """The bar holes of that leak in the order of their numbers."""
    holes = list(
        tx.connection.execute(
            select(BAR_HOLE, _PLACES.c.owner, _PLACES.c.from_building)
            .join(_PLACES, (_PLACES.c.entry_id == BAR_HOLE.c.entry_id) & (_PLACES.c.key == BAR_HOLE.c.key))
            .join(SUBJECT, SUBJECT.c.id == BAR_HOLE.c.leak_id)
            .where(BAR_HOLE.c.leak_id == leak, sees_subject(scope, SUBJECT))
            .order_by(BAR_HOLE.c.number)
        )
    )
    if not holes:
        return []
    last = _last_read(tx, leak=leak, numbers={f"{row.entry_id}/{row.key}": row.number for row in holes})
    return [
        HoleRow(
            name=f"{row.entry_id}/{row.key}",
            number=row.number,
            label=row.label or "",
            owner=row.owner or "",
            from_building=row.from_building or "",
            last=last.get(row.number, ()),
        )
        for row in holes
    ]


def _last_read(tx: Tx, *, leak: UUID, numbers: Mapping[str, int]) -> dict[int, tuple[LastRead, ...]]:
    """By number of the hole. `numbers`: those of the places that are the first of their hole, by name."""
    readings: defaultdict[str, list[LastRead]] = defaultdict(list)
    for row in tx.connection.execute(_read_at(leak)):
        read = LastRead(
            entry=row.entry_id,
            key=row.key,
            on=row.happened_on.isoformat(),
            value=row.value,
            gas=row.gas or "",
            kind=row.kind or "",
        )
        readings[f"{row.entry_id}/{row.place}"].append(read)
    last: dict[int, tuple[LastRead, ...]] = {}
    for number, names in _looked_at(tx, leak=leak, numbers=numbers):
        if read_there := [each for name in names for each in readings.get(name, ())]:
            last[number] = tuple(read_there)
    return last


def _looked_at(tx: Tx, *, leak: UUID, numbers: Mapping[str, int]) -> Iterator[tuple[int, list[str]]]:
    """Every hole that a visit looked at with the names of its places there, visit after visit as they happened. What is
    the same hole is followed through whichever place names it, as the fold of the leak does."""
    number_of = dict(numbers)
    of_visit: defaultdict[tuple[UUID, int], list[str]] = defaultdict(list)
    for row in _in_order(tx, leak=leak):
        name = f"{row.entry_id}/{row.key}"
        number = number_of.get(name) or number_of.get(row.same_as or "")
        if number is None:
            continue
        number_of[name] = number
        if row.same_as:
            number_of.setdefault(row.same_as, number)
        of_visit[row.entry_id, number].append(name)
    for (_visit, number), names in of_visit.items():
        yield number, names


def _in_order(tx: Tx, *, leak: UUID) -> list[Row[Any]]:
    """The bar holes that the leak's visits looked at, in the order of happening, and of their rows within a visit."""
    day_alone, day_not_known = ENTRY.c.happened_at.is_(None), ENTRY.c.happened_known.is_not(None)
    rows = (
        select(_PLACES.c.entry_id, _PLACES.c.key, _PLACES.c.same_as)
        .join(ENTRY, ENTRY.c.id == _PLACES.c.entry_id)
        .where(ENTRY.c.subject_id == leak, ~ENTRY.c.void, _PLACES.c.kind == "bar_hole")
        .order_by(ENTRY.c.happened_on, day_not_known, day_alone, ENTRY.c.happened_at, ENTRY.c.journal_index)
        .order_by(func.length(_PLACES.c.key), _PLACES.c.key)  # p2 before p10
    )
    return list(tx.connection.execute(rows))


def _read_at(leak: UUID) -> Any:
    return (
        select(_READINGS, ENTRY.c.happened_on)
        .join(ENTRY, ENTRY.c.id == _READINGS.c.entry_id)
        .where(ENTRY.c.subject_id == leak, _READINGS.c.place.is_not(None))
        .order_by(func.length(_READINGS.c.key), _READINGS.c.key)
    )
