"""A lock between the processes that write one SQLite file, granted in the order in which they asked, waited for with
patience and no longer."""

from __future__ import annotations

import fcntl
import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def file_held(file: Path, *, patience: float) -> Iterator[None]:
    """Holds the file's lock. The file stays when it is let go, since others may be waiting on it.

    Raises TimeoutError after `patience` seconds. Closing the file lets go of the lock, and so does the end of the
    process, however it comes.
    """
    opened = _locked(file, patience=patience)
    try:
        yield
    finally:
        os.close(opened)


def _locked(file: Path, *, patience: float) -> int:
    opened = os.open(file, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o644)
    try:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        _wait(opened, patience=patience)
    except BaseException:
        os.close(opened)
        raise
    return opened


def _wait(opened: int, *, patience: float) -> None:
    """Stand in the system's own queue, which a call that tries again and again would never reach the front of.

    The queue knows no time limit, so a thread of its own stands in it; whoever gave up leaves it to close the file.
    """
    guard, granted, given_up = threading.Lock(), threading.Event(), threading.Event()

    def stand() -> None:
        fcntl.flock(opened, fcntl.LOCK_EX)
        with guard:
            granted.set()
            if given_up.is_set():
                os.close(opened)

    threading.Thread(target=stand, name="waits for the file lock", daemon=True).start()
    try:
        granted.wait(patience)
    finally:
        with guard:
            if not granted.is_set():
                given_up.set()
    if given_up.is_set():
        raise TimeoutError(f"another process has held the book's lock for {patience:g} seconds")
