"""One writer at a time on SQLite: a fair lock in the process, then a file lock between processes.

SQLite's own waiting polls and starves writers (one was measured waiting 12.7 s); both locks here serve in order.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from repairlog.records.store.file_lock import file_held

PATIENCE = 30.0
"""Seconds after which waiting for either lock ends."""


class FairLock:
    """A lock that serves threads in the order in which they asked, then takes the file lock for the process."""

    def __init__(self, file: Path, *, patience: float = PATIENCE) -> None:
        self._guard = threading.Lock()
        self._queue: deque[threading.Event] = deque()
        self._file = file
        self._patience = patience

    @contextmanager
    def held(self) -> Iterator[None]:
        """Waits its turn, then holds the lock. Not to be entered twice by one thread.

        Raises TimeoutError where its turn, or the file lock, does not come in time.
        """
        turn = threading.Event()
        with self._guard:
            self._queue.append(turn)
            if self._queue[0] is turn:
                turn.set()
        try:
            if not turn.wait(self._patience):
                raise TimeoutError(f"others in this process have held the book's lock for {self._patience:g} seconds")
            with file_held(self._file, patience=self._patience):
                yield
        finally:
            with self._guard:
                self._queue.remove(turn)
                if self._queue:
                    self._queue[0].set()
