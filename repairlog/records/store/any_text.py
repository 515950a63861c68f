"""Reading text that is no text: SQLite lets any bytes stand as text, and its driver would refuse to read them."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from repairlog.records.store.store import Tx


@contextmanager
def any_text(tx: Tx) -> Iterator[None]:
    """Within the block text is read whatever its bytes; those that are no UTF-8 come as lone surrogates."""
    driver = tx.connection.connection.driver_connection
    if not isinstance(driver, sqlite3.Connection):
        yield  # PostgreSQL takes no other text in
        return
    usual = driver.text_factory
    driver.text_factory = _decoded
    try:
        yield
    finally:
        driver.text_factory = usual


def _decoded(raw: bytes) -> str:
    return raw.decode(errors="surrogateescape")
