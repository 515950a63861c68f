"""What the owner of a database can do to the journal, past the triggers that refuse it: they are dropped first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import text

from repairlog.records import seal
from repairlog.records.store import Store
from tests.makers.cells import MARK, do
from tests.makers.sealed import tree_of


def drop_triggers(store: Store) -> None:
    """As the owner of the file or of the tables may; nothing of ours can hinder that."""
    with store.writing() as tx:
        if store.dialect == "sqlite":
            found = tx.connection.execute(text("SELECT name FROM sqlite_master WHERE type = 'trigger'")).scalars().all()
            for name in found:
                tx.connection.execute(text(f"DROP TRIGGER {name}"))
        else:
            for table in ("journal", "head", "rulebook_text"):
                tx.connection.execute(text(f"ALTER TABLE {table} DISABLE TRIGGER USER"))


def line_at(store: Store, index: int) -> bytes:
    """The sealed line at that place."""
    with store.reading() as tx:
        reading = "SELECT line FROM journal WHERE journal_index = ?".replace("?", MARK[store.dialect])
        return bytes(tx.connection.exec_driver_sql(reading, (index,)).scalar_one())


def put_line(store: Store, index: int, line: Any) -> None:
    """Put these bytes in the place of that line."""
    assert do(store, "UPDATE journal SET line = ? WHERE journal_index = ?", line, index) == 1


def set_head(store: Store, lines: Sequence[bytes]) -> None:
    """Set the head to the tree of these lines, as one who knows how would."""
    tree = tree_of(lines)
    do(store, "UPDATE head SET size = ?, peaks = ?, root = ?", tree.size, seal.to_bytes(tree), seal.root(tree))
