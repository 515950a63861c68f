"""One server at a time on an SQLite file: a second one would not know what the first holds."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager

from repairlog.records.store.engine import read_url, sqlite_file


class ServedAlready(Exception):
    """Another process serves this file. `facts`: `file`."""

    code = "served_already"

    def __init__(self, file: str) -> None:
        super().__init__(file)
        self.facts = {"file": file}


@contextmanager
def the_one_server(url: str) -> Iterator[None]:
    """Within the block no other process serves the SQLite file at that address; on PostgreSQL many may.

    A lock on a file beside it, under whichever name it is reached: it is let go with the process, however that ends,
    and the file stays. Raises ServedAlready.
    """
    file = sqlite_file(read_url(url))
    if file is None:
        yield
        return
    true = file.resolve()
    opened = os.open(true.with_name(true.name + ".serving"), os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o644)
    try:
        try:
            fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise ServedAlready(str(file)) from error
        yield
    finally:
        os.close(opened)
