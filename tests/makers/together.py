"""Doing the same thing in many threads at one moment."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from sqlalchemy import text

from repairlog.records.store import Store

Result = TypeVar("Result")
PATIENCE = 20
"""Seconds after which a test gives up waiting."""


def together(count: int, do: Callable[[int], Result]) -> list[Result]:
    """What `do(0)` to `do(count - 1)` gave, each called in a thread of its own at one moment; what one raises comes
    through."""
    gate = threading.Barrier(count)

    def one(place: int) -> Result:
        gate.wait(PATIENCE)
        return do(place)

    with ThreadPoolExecutor(count) as pool:
        return [each.result() for each in [pool.submit(one, place) for place in range(count)]]


def wait_until_waiting(store: Store, count: int) -> None:
    """Come back once that many connections of this PostgreSQL database wait for a lock."""
    waiting = text(
        "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'"
    )
    deadline = time.monotonic() + PATIENCE
    while time.monotonic() < deadline:
        with store.engine.connect() as connection:
            if connection.execute(waiting).scalar_one() >= count:
                return
        time.sleep(0.01)
    raise TimeoutError(f"no {count} connections came to wait for a lock")
