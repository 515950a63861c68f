"""Numbers for people: an area's code, the year of the leak's first day, and the area's counter of that year."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from uuid import UUID

from sqlalchemy import bindparam, select

from repairlog.entries.entry import Entry
from repairlog.entries.ids import read_id
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables import ENGINE_VERSION
from repairlog.records.tables.picture import Change
from repairlog.records.tables.worked import AREA, AREA_COUNTER, LEAK
from repairlog.records.tables.write import write

_CODES = select(AREA.c.id, AREA.c.code).where(AREA.c.id.in_(IDS))
_TAKEN = select(LEAK.c.number).where(LEAK.c.number.in_(bindparam("numbers", expanding=True)))


def numbered(tx: Tx, fresh: Sequence[Entry]) -> list[Entry]:
    """The same entries, each leak opened with its number in `understood`. Subjects are locked; the counters are locked
    here, in their order, before the head.

    A number from an older list is kept where it is free in the whole book, counted or not; else the leak is counted
    and the list's number stays what it was said to be.
    """
    leaks = [entry for entry in fresh if entry.kind == "leak_opened"]
    if not leaks:
        return list(fresh)
    codes = _codes(tx, fresh, {read_id(entry.said["area"]) for entry in leaks})
    taken = _taken(tx, [entry.said["number"] for entry in leaks if "number" in entry.said])
    given: dict[UUID, dict[str, str | int]] = {}
    to_count: dict[tuple[UUID, int], list[Entry]] = defaultdict(list)
    for entry in leaks:
        brought = entry.said.get("number")
        if brought and brought not in taken:
            taken.add(brought)
            given[entry.id] = {"number": brought}
        else:
            to_count[read_id(entry.said["area"]), int(entry.understood["happened_on"][:4])].append(entry)
    for (area, year), counted in sorted(to_count.items(), key=lambda item: str(item[0])):
        given |= _counted(tx, counted, area=area, year=year, code=codes[area], also_taken=taken)
    return [replace(e, understood={**e.understood, **given[e.id]}) if e.id in given else e for e in fresh]


def _codes(tx: Tx, fresh: Sequence[Entry], areas: set[UUID]) -> Mapping[UUID, str]:
    opened_here = {entry.id: str(entry.said["code"]) for entry in fresh if entry.kind == "area_opened"}
    there = tx.connection.execute(_CODES, {"ids": list(areas)})
    return {row.id: row.code for row in there} | opened_here


def _taken(tx: Tx, numbers: Sequence[str]) -> set[str]:
    if not numbers:
        return set()
    return set(tx.connection.execute(_TAKEN, {"numbers": list(numbers)}).scalars())


def _counted(
    tx: Tx, leaks: Sequence[Entry], *, area: UUID, year: int, code: str, also_taken: set[str]
) -> dict[UUID, dict[str, str | int]]:
    counter = _locked_counter(tx, area, year=year)
    given: list[dict[str, str | int]] = []
    while missing := len(leaks) - len(given):
        next_ones = {f"{code}-{year % 100:02d}-{each:04d}": each for each in range(counter + 1, counter + 1 + missing)}
        taken = also_taken | _taken(tx, list(next_ones))
        given += [{"number": number, "counter": each} for number, each in next_ones.items() if number not in taken]
        counter += missing
    _put_counter(tx, area, year=year, last=counter)
    return {entry.id: each for entry, each in zip(leaks, given, strict=True)}


def _locked_counter(tx: Tx, area: UUID, *, year: int) -> int:
    mine = (AREA_COUNTER.c.area_id == area, AREA_COUNTER.c.year == year)
    reading = select(AREA_COUNTER.c.last).where(*mine).with_for_update()
    last = tx.connection.execute(reading).scalar()
    if last is None:  # the first of the year: put the row, so that another first waits for this one, and read again
        _put_counter(tx, area, year=year, last=None)
        last = tx.connection.execute(reading).scalar_one()
    return int(last)


def _put_counter(tx: Tx, area: UUID, *, year: int, last: int | None) -> None:
    row = {"area_id": area, "year": year, "last": last or 0, "engine": ENGINE_VERSION}
    write(tx, Change(puts={AREA_COUNTER: [row]}), keep=last is None)
