"""`verify`: the journal checked line by line, against nothing but a digest over its bytes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from hashlib import sha256
from typing import Any

import psycopg

from repairlog.records.store import open_store
from repairlog.records.verify import verify
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further, taking_turns, turns_on
from tests.benchmarks.journals import rebuilt
from tests.benchmarks.statements import driver

AIM = 2.0


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: entries in the journal."""
    url, _book = rebuilt(at, entries=rows)
    store = open_store(url)
    try:
        verified = verify(store)
        assert verified.problems == ()
        with driver(store) as connection:
            ways: dict[str, Callable[[int], object]] = {
                "ours": lambda _turn: verify(store),
                "driver": lambda _turn: _digest(connection),
                "tree": lambda _turn: _tree(connection),
            }
            seconds = taking_turns(ways, turns=turns_on(rows))
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
        further=(
            Further(
                name="tree",
                value=verified.size / seconds["tree"],
                ratio=seconds["ours"] / seconds["tree"],
                what="a leaf and a node hashed for every line, which no verification can do without; ours to it",
            ),
        ),
    )


def _digest(connection: Any) -> bytes:
    digest = sha256()
    for line in _lines(connection):
        digest.update(line)
    return digest.digest()


def _tree(connection: Any) -> bytes:
    above = b""
    for line in _lines(connection):
        leaf = sha256(b"\x00" + line).digest()
        above = sha256(b"\x01" + above + leaf).digest()
    return above


def _lines(connection: Any) -> Iterator[bytes]:
    reading = "SELECT line FROM journal ORDER BY journal_index"
    if isinstance(connection, psycopg.Connection):
        cursor: Any = connection.cursor(name="lines")  # on the server, as for a journal larger than memory
        cursor.itersize = 1000
        cursor.execute(reading)
    else:
        cursor = connection.execute(reading)
    for (line,) in cursor:
        yield line
    cursor.close()
    connection.rollback()
