"""`rebuild`: every facts and worked row from the journal, against the same rows simply written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import psycopg
from sqlalchemy import Table

from repairlog.records import verify
from repairlog.records.rebuild import rebuild
from repairlog.records.store import open_store
from repairlog.records.tables import of_kind
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, taking_turns, turns_on
from tests.benchmarks.journals import rebuilt
from tests.benchmarks.rows import all_rows
from tests.benchmarks.statements import driver
from tests.makers.rulebooks import RULEBOOKS

AIM = 4.0

Rows = Sequence[tuple[Any, ...]]


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: entries in the journal. Both ways begin with full tables and empty them first."""
    url, _book = rebuilt(at, entries=rows)
    ours, theirs = open_store(at.copied(url), rulebooks=RULEBOOKS), open_store(at.copied(url), rulebooks=RULEBOOKS)
    try:
        size = verify.head(ours).size
        with driver(theirs) as connection:
            every = {table: _read(connection, table) for table in of_kind("facts", "worked")}
            ways = {"ours": lambda _turn: rebuild(ours), "driver": lambda _turn: _write(connection, every)}
            seconds = taking_turns(ways, turns=turns_on(rows))
        same = all_rows(ours) == all_rows(theirs)
    finally:
        ours.close()
        theirs.close()
    bulk = "COPY" if database == "postgresql" else "executemany"
    return Figure(
        name="rebuild",
        database=database,
        rows=size,
        unit="entries/s",
        ours=size / seconds["ours"],
        baseline=size / seconds["driver"],
        ratio=seconds["ours"] / seconds["driver"],
        aim=AIM,
        what=f"{bulk} of the same {sum(map(len, every.values()))} rows through the driver, ready in memory, one commit",
        same_rows=same,
    )


def _read(connection: Any, table: Table) -> Rows:
    cursor = connection.cursor()
    cursor.execute(f'SELECT {_names(table)} FROM "{table.name}"')
    rows: Rows = cursor.fetchall()
    connection.commit()
    return rows


def _write(connection: Any, every: Mapping[Table, Rows]) -> None:
    cursor = connection.cursor()
    if isinstance(connection, psycopg.Connection):
        cursor.execute("TRUNCATE " + ", ".join(f'"{table.name}"' for table in every))
        for table, rows in every.items():
            with cursor.copy(f'COPY "{table.name}" ({_names(table)}) FROM STDIN') as copy:
                for row in rows:
                    copy.write_row(row)
    else:
        cursor.execute("BEGIN IMMEDIATE")
        for table, rows in every.items():
            cursor.execute(f'DELETE FROM "{table.name}"')
            marks = ", ".join("?" for _ in table.columns)
            cursor.executemany(f'INSERT INTO "{table.name}" ({_names(table)}) VALUES ({marks})', rows)
    connection.commit()


def _names(table: Table) -> str:
    return ", ".join(f'"{column.name}"' for column in table.columns)
