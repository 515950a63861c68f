"""Numbers for people: an area's code, the year of the first day, and the area's counter of that year; of calls with a
letter before the year."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from sqlalchemy import Table, select

from repairlog.entries.entry import Entry
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables import ENGINE_VERSION
from repairlog.records.tables.picture import Change
from repairlog.records.tables.worked import AREA, CALL, COUNTERS, LEAK
from repairlog.records.tables.write import write

_CODES = select(AREA.c.id, AREA.c.code).where(AREA.c.id.in_(IDS))


@dataclass(frozen=True, slots=True)
class _Series:
    """One series of numbers: `subjects` bear them, `counter` says how far each area has counted in a year; `letter`
    stands before the year."""

    subjects: Table
    counter: Table
    letter: str = ""


_SERIES = {"leak": _Series(LEAK, COUNTERS["leak"]), "call": _Series(CALL, COUNTERS["call"], "C")}


def numbered(tx: Tx, fresh: Sequence[Entry]) -> list[Entry]:
    """The same entries, each leak and each call opened with its number in `understood`. Subjects are locked; the
    counters are locked here, in their order, before the head.

    A number from an older list is kept where it is free in the whole book, counted or not; else the leak is counted
    and the list's number stays what it was said to be.
    """
    given: dict[UUID, dict[str, str | int]] = {}
    for opens, series in sorted(_SERIES.items()):
        if opened := [entry for entry in fresh if KINDS[entry.kind].opens == opens]:
            codes = _codes(tx, fresh, {read_id(entry.said["area"]) for entry in opened})
            given |= _given(tx, opened, codes=codes, series=series)
    return [replace(e, understood={**e.understood, **given[e.id]}) if e.id in given else e for e in fresh]


def _given(
    tx: Tx, opened: Sequence[Entry], *, codes: Mapping[UUID, str], series: _Series
) -> dict[UUID, dict[str, str | int]]:
    taken = _taken(tx, [entry.said["number"] for entry in opened if "number" in entry.said], series)
    given: dict[UUID, dict[str, str | int]] = {}
    to_count: dict[tuple[UUID, int], list[Entry]] = defaultdict(list)
    for entry in opened:
        brought = entry.said.get("number")
        if brought and brought not in taken:
            taken.add(brought)
            given[entry.id] = {"number": brought}
        else:
            to_count[read_id(entry.said["area"]), int(entry.understood["happened_on"][:4])].append(entry)
    for (area, year), counted in sorted(to_count.items(), key=lambda item: str(item[0])):
        given |= _counted(tx, counted, area=area, year=year, code=codes[area], also_taken=taken, series=series)
    return given


def _codes(tx: Tx, fresh: Sequence[Entry], areas: set[UUID]) -> Mapping[UUID, str]:
    opened_here = {entry.id: str(entry.said["code"]) for entry in fresh if entry.kind == "area_opened"}
    there = tx.connection.execute(_CODES, {"ids": list(areas)})
    return {row.id: row.code for row in there} | opened_here


def _taken(tx: Tx, numbers: Sequence[str], series: _Series) -> set[str]:
    if not numbers:
        return set()
    borne = series.subjects.c.number
    return set(tx.connection.execute(select(borne).where(borne.in_(numbers))).scalars())


def _counted(
    tx: Tx, opened: Sequence[Entry], *, area: UUID, year: int, code: str, also_taken: set[str], series: _Series
) -> dict[UUID, dict[str, str | int]]:
    counter = _locked_counter(tx, area, year=year, series=series)
    stem = f"{code}-{series.letter}{year % 100:02d}"
    given: list[dict[str, str | int]] = []
    while missing := len(opened) - len(given):
        next_ones = {f"{stem}-{each:04d}": each for each in range(counter + 1, counter + 1 + missing)}
        taken = also_taken | _taken(tx, list(next_ones), series)
        given += [{"number": number, "counter": each} for number, each in next_ones.items() if number not in taken]
        counter += missing
    _put_counter(tx, area, year=year, last=counter, series=series)
    return {entry.id: each for entry, each in zip(opened, given, strict=True)}


def _locked_counter(tx: Tx, area: UUID, *, year: int, series: _Series) -> int:
    counter = series.counter
    reading = select(counter.c.last).where(counter.c.area_id == area, counter.c.year == year).with_for_update()
    last = tx.connection.execute(reading).scalar()
    if last is None:  # the first of the year: put the row, so that another first waits for this one, and read again
        _put_counter(tx, area, year=year, last=None, series=series)
        last = tx.connection.execute(reading).scalar_one()
    return int(last)


def _put_counter(tx: Tx, area: UUID, *, year: int, last: int | None, series: _Series) -> None:
    row = {"area_id": area, "year": year, "last": last or 0, "engine": ENGINE_VERSION}
    write(tx, Change(puts={series.counter: [row]}), keep=last is None)
