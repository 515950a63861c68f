"""Comparing every facts and worked row with what the journal asks for, cell by cell. Nothing is written."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import Table, exists, select

from repairlog.records.effects.folds import OWNER
from repairlog.records.rebuild.cells import Cells, digest_of, encoder, key_of, key_shown, shown, stored
from repairlog.records.rebuild.expected import expected
from repairlog.records.rebuild.plan import Plan, demand_tables, plan
from repairlog.records.store import Store, Tx
from repairlog.records.tables import ENGINE_VERSION, of_kind
from repairlog.records.tables.beside import STALE

Encode = Callable[[Mapping[str, Any]], Cells]


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One cell that differs, or a whole row where `column` is None: then `stands` is None for a row that is missing,
    `should` for one too many. `row`: its key. `because`: `wrong`; `stale`, where the subject waits to be worked out
    again; `older_engine`, where an earlier release worked the row out."""

    table: str
    row: Mapping[str, str]
    column: str | None
    stands: str | None
    should: str | None
    because: str


@dataclass(frozen=True, slots=True)
class Checked:
    """`rows`: how many rows should stand. `differences`: none if every table is what the journal says."""

    rows: int
    differences: tuple[Difference, ...]


def check(store: Store) -> Checked:
    """Fold the journal and compare. Memory: some hundred bytes a row; a second pass is made only where rows differ.

    Raises TablesMissing, JournalAltered, journal.HeadMissing.
    """
    with store.reading() as tx:
        demand_tables(tx)
        of = plan(tx)
        tables = [*of_kind("facts"), *of_kind("worked")]  # what was said before what follows from it
        encoders = {table: encoder(table, tx.connection.dialect) for table in tables}
        wanted = _wanted(tx, of, encoders)
        rows = sum(map(len, wanted.values()))
        odd = {table: _odd(tx, table, wanted[table]) for table in tables}
        if not any(odd.values()):
            return Checked(rows, ())
        should = _should(tx, of, encoders, odd)
        stale = set(tx.connection.execute(select(STALE.c.subject_id)).scalars())
        found = [d for table in tables for d in _differences(table, odd[table], should[table], stale)]
        return Checked(rows, tuple(found))


def worked_out_by_older(store: Store) -> bool:
    """Whether an earlier release worked out a row that stands: one that this release may work out otherwise."""
    with store.reading() as tx:
        engines = [table.c.engine for table in of_kind("worked")]
        return any(tx.connection.execute(select(exists().where(e < ENGINE_VERSION))).scalar() for e in engines)


def _wanted(tx: Tx, of: Plan, encoders: Mapping[Table, Encode]) -> dict[Table, dict[bytes, bytes]]:
    """Digest of each row that should stand, by table and digest of its key."""
    wanted: dict[Table, dict[bytes, bytes]] = {table: {} for table in encoders}
    for picture in expected(tx, of):
        for table, rows in picture.items():
            for row in rows.values():
                cells = encoders[table](row)
                wanted[table][key_of(table, cells)] = digest_of(cells)
    return wanted


def _odd(tx: Tx, table: Table, wanted: dict[bytes, bytes]) -> dict[bytes, Cells | None]:
    """Rows that stand and should not so, by digest of their key; None for those that should stand and do not."""
    odd: dict[bytes, Cells | None] = {}
    for cells in stored(tx, table):
        key = key_of(table, cells)
        if wanted.pop(key, None) != digest_of(cells):
            odd[key] = cells
    return odd | dict.fromkeys(wanted)


def _should(
    tx: Tx, of: Plan, encoders: Mapping[Table, Encode], odd: Mapping[Table, Mapping[bytes, Cells | None]]
) -> dict[Table, dict[bytes, Cells]]:
    """The rows that should stand under these keys."""
    should: dict[Table, dict[bytes, Cells]] = defaultdict(dict)
    for picture in expected(tx, of):
        for table, rows in picture.items():
            for row in rows.values() if odd[table] else ():
                cells = encoders[table](row)
                if (key := key_of(table, cells)) in odd[table]:
                    should[table][key] = cells
    return should


def _differences(
    table: Table, odd: Mapping[bytes, Cells | None], should: Mapping[bytes, Cells], stale: set[UUID]
) -> Iterator[Difference]:
    for key, stands in odd.items():
        asked = should.get(key)
        row, because = key_shown(table, stands or asked or ()), _because(table, stands, asked, stale)
        for column, is_so, should_be in _apart(table, stands, asked):
            yield Difference(table=table.name, row=row, column=column, stands=is_so, should=should_be, because=because)


def _apart(
    table: Table, stands: Cells | None, asked: Cells | None
) -> Iterator[tuple[str | None, str | None, str | None]]:
    """Column, what stands there and what should; the whole row without a column where there is but one of the two."""
    if stands is None or asked is None:
        yield None, _row_shown(table, stands), _row_shown(table, asked)
        return
    for column, is_so, should_be in zip(table.columns, stands, asked, strict=True):
        if type(is_so) is not type(should_be) or is_so != should_be:
            yield column.name, shown(is_so), shown(should_be)


def _row_shown(table: Table, cells: Cells | None) -> str | None:
    if cells is None:
        return None
    return ", ".join(f"{column.name}={shown(cell)}" for column, cell in zip(table.columns, cells, strict=True))


def _because(table: Table, stands: Cells | None, asked: Cells | None, stale: set[UUID]) -> str:
    if table.info["kind"] != "worked":
        return "wrong"
    names = [column.name for column in table.columns]
    engine = stands[names.index("engine")] if stands else ENGINE_VERSION
    if isinstance(engine, int) and engine < ENGINE_VERSION:
        return "older_engine"
    cells = asked or stands
    if table in OWNER and cells and _id(cells[names.index(OWNER[table])]) in stale:
        return "stale"
    return "wrong"


def _id(cell: Any) -> UUID | None:
    if isinstance(cell, bytes) and len(cell) == 16:
        return UUID(bytes=cell)
    return cell if isinstance(cell, UUID) else None
