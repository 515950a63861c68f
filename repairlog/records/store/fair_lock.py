"""One writer at a time on SQLite: a fair lock in the process, then a file lock between processes.

SQLite's own waiting polls and starves writers (one was measured waiting 12.7 s); both locks here serve in order.
"""

from __future__ import annotations

import fcntl
import os
import threading
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class FairLock:
    """A lock that serves threads in the order in which they asked, then takes the file lock for the process."""

    def __init__(self, file: Path | None) -> None:
        self._guard = threading.Lock()
        self._queue: deque[threading.Event] = deque()
        self._file = file
        self._opened: int | None = None

    @contextmanager
    def held(self) -> Iterator[None]:
        """Waits its turn, then holds the lock. Not to be entered twice by one thread."""
        turn = threading.Event()
        with self._guard:
            self._queue.append(turn)
            if self._queue[0] is turn:
                turn.set()
        try:
            turn.wait()
            with self._file_held():
                yield
        finally:
            with self._guard:
                self._queue.remove(turn)
                if self._queue:
                    self._queue[0].set()

    @contextmanager
    def _file_held(self) -> Iterator[None]:
        """Only who took the file lock lets it go: one that gave up waiting holds nothing."""
        if self._file is None:
            yield
            return
        if self._opened is None:
            self._opened = os.open(self._file, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o644)
        fcntl.flock(self._opened, fcntl.LOCK_EX)
        try:
            yield
        finally:
            fcntl.flock(self._opened, fcntl.LOCK_UN)

    def close(self) -> None:
        """Closes the lock's file; the file itself stays, since another process may be waiting on it."""
        if self._opened is not None:
            os.close(self._opened)
            self._opened = None
