"""`import`: an old list of repairs taken in, against the rows that it left, simply written."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from time import perf_counter
from typing import Any

import psycopg
from sqlalchemy import Table

from repairlog.access import Actor, Membership
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.intake.lists import Importing, read_columns, take
from repairlog.records.store import open_store
from repairlog.records.tables import METADATA
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further
from tests.benchmarks.rows import all_rows
from tests.benchmarks.statements import driver
from tests.makers.book import RECEIVED, Book, opened
from tests.makers.old_lists import COLUMNS, written

AIM = 5.0
HEAD = "head"

Rows = dict[Table, Sequence[tuple[Any, ...]]]

PEAK = """
import resource, subprocess, sys
done = subprocess.run([sys.executable, "-m", "repairlog.cli", *sys.argv[1:]], stdout=subprocess.PIPE, check=True)
print(done.stdout.decode().strip(), resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss, sep="\\n")
"""
"""A small process between: the most memory of a process counts in what its parent held when it was started."""


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: rows of the list, of three entries and more each."""
    with tempfile.TemporaryDirectory(prefix="repairlog-list-") as folder:
        file = written(Path(folder) / "list.csv", how_many=rows)
        columns = Path(folder) / "columns.toml"
        columns.write_text(COLUMNS)
        store = open_store(url := at.fresh())
        book = opened(store)
        store.close()
        ours_url, theirs_url = at.copied(url), at.copied(url)
        ours = _taken_in(ours_url, book, file)
        theirs, same = _written(theirs_url, like=ours_url)
        peaks = [
            _peak(at.copied(url), written(Path(folder) / f"{part}.csv", how_many=part), columns)
            for part in (max(1, rows // 10), rows)
        ]
    bulk = "COPY" if database == "postgresql" else "executemany"
    return Figure(
        name="import",
        database=database,
        rows=rows,
        unit="rows/s",
        ours=rows / ours,
        baseline=rows / theirs,
        ratio=ours / theirs,
        aim=AIM,
        what=f"{bulk} of the rows that it left, through the driver, ready in memory, one commit",
        same_rows=same,
        further=(
            Further(
                name="peak",
                value=peaks[1] / 1024,
                ratio=peaks[1] / peaks[0],
                what="(MB) most memory of `repairlog import`; to that on a tenth of the list, aim at most 1.2",
            ),
        ),
    )


def _taken_in(url: str, book: Book, file: Path) -> float:
    """Seconds of taking the list in."""
    held = Membership(role="administrator", area=None, from_on="2025-01-02")
    actor = Actor(person=book.everyone.person, sure="import", memberships=(held,))
    store = open_store(url)
    try:
        of = Importing(
            store=store,
            area=read_id(book.area),
            columns=read_columns(COLUMNS.encode()),
            actor=actor,
            moments=lambda: Moments(received=RECEIVED),
        )
        began = perf_counter()
        tally = take(of, file, tell=lambda _tally: None)
        seconds = perf_counter() - began
    finally:
        store.close()
    assert tally.taken == tally.rows
    return seconds


def _written(url: str, *, like: str) -> tuple[float, bool]:
    """Seconds of writing the rows that the other book has more, and whether both are the same then."""
    ours, theirs = open_store(like), open_store(url)
    try:
        with driver(ours) as full, driver(theirs) as connection:
            more = {table: _more(full, connection, table) for table in METADATA.sorted_tables}
            began = perf_counter()
            _write(connection, {table: rows for table, rows in more.items() if rows})
            seconds = perf_counter() - began
        return seconds, all_rows(ours) == all_rows(theirs)
    finally:
        ours.close()
        theirs.close()


def _more(full: Any, connection: Any, table: Table) -> list[tuple[Any, ...]]:
    """The rows of the first that the second lacks, in the order of the table's key."""
    there = set(_read(connection, table))
    return [row for row in _read(full, table) if row not in there]


def _read(connection: Any, table: Table) -> list[tuple[Any, ...]]:
    cursor = connection.cursor()
    first = next(iter(table.columns)).name
    cursor.execute(f'SELECT {_names(table)} FROM "{table.name}" ORDER BY "{first}"')
    rows: list[tuple[Any, ...]] = cursor.fetchall()
    connection.commit()
    return rows


def _write(connection: Any, more: Rows) -> None:
    """The head is carried on, all else is new."""
    cursor = connection.cursor()
    copies = isinstance(connection, psycopg.Connection)
    if not copies:
        cursor.execute("BEGIN IMMEDIATE")
    for table, rows in more.items():
        if table.name == HEAD:
            sign = "%s" if copies else "?"
            cells = ", ".join(f'"{column.name}" = {sign}' for column in table.columns)
            cursor.execute(f'UPDATE "{HEAD}" SET {cells}', rows[0])
        elif copies:
            with cursor.copy(f'COPY "{table.name}" ({_names(table)}) FROM STDIN') as copy:
                for row in rows:
                    copy.write_row(row)
        else:
            marks = ", ".join("?" for _ in table.columns)
            cursor.executemany(f'INSERT INTO "{table.name}" ({_names(table)}) VALUES ({marks})', rows)
    connection.commit()


def _names(table: Table) -> str:
    return ", ".join(f'"{column.name}"' for column in table.columns)


def _peak(url: str, file: Path, columns: Path) -> int:
    """The most memory that the command takes for that list, in KB."""
    words = ["import", str(file), "--kind", "repairs", "--area", "ES", "--columns", str(columns), "--database", url]
    done = subprocess.run(
        [sys.executable, "-c", PEAK, *words, "--json"], capture_output=True, text=True, check=True, timeout=1800
    )
    told, peak = done.stdout.splitlines()
    assert json.loads(told)["refused"] == 0
    return int(peak)
