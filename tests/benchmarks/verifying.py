"""`verify`: the journal checked line by line, against nothing but a digest over its bytes."""

from __future__ import annotations

from hashlib import sha256
from typing import Any

import psycopg

from repairlog.records.store import open_store
from repairlog.records.verify import verify
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, taking_turns
from tests.benchmarks.journals import rebuilt
from tests.benchmarks.statements import driver

AIM = 2.0
TURNS = 7


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: entries in the journal."""
    store = open_store(rebuilt(at, entries=rows))
    try:
        verified = verify(store)
        assert verified.problems == ()
        with driver(store) as connection:
            ways = {"ours": lambda _turn: verify(store), "driver": lambda _turn: _digest(connection)}
            seconds = taking_turns(ways, turns=TURNS)
    finally:
        store.close()
    return Figure(
        name="verify",
        database=database,
        rows=verified.size,
        unit="entries/s",
        ours=verified.size / seconds["ours"],
        baseline=verified.size / seconds["driver"],
        ratio=seconds["ours"] / seconds["driver"],
        aim=AIM,
        what="one SHA-256 over the same lines, streamed from the same table through the driver",
        same_rows=None,
    )


def _digest(connection: Any) -> bytes:
    reading = "SELECT line FROM journal ORDER BY journal_index"
    if isinstance(connection, psycopg.Connection):
        cursor: Any = connection.cursor(name="lines")  # on the server, as for a journal larger than memory
        cursor.itersize = 1000
        cursor.execute(reading)
    else:
        cursor = connection.execute(reading)
    digest = sha256()
    for (line,) in cursor:
        digest.update(line)
    cursor.close()
    connection.rollback()
    return digest.digest()
