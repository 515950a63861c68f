"""Serving the pages from this machine to this machine: the address is told once it answers, and a signal ends it."""

from __future__ import annotations

import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from repairlog.app.answering import HERE
from repairlog.app.one_process import serve_by_one_process
from repairlog.app.workers import serve_by_workers
from repairlog.records.store import open_store
from repairlog.records.store.one_server import the_one_server
from repairlog.settings import Settings


class CannotListen(Exception):
    """Nobody can listen on that port. `facts`: `port`, and what the system `said`."""

    code = "cannot_listen"

    def __init__(self, port: int, *, said: str) -> None:
        super().__init__(port, said)
        self.facts = {"port": str(port), "said": said}


class OneProcessAlone(Exception):
    """A book in an SQLite file is served by one process. `facts`: how many were `asked` for."""

    code = "one_process_alone"

    def __init__(self, asked: int) -> None:
        super().__init__(asked)
        self.facts = {"asked": str(asked)}


def serve(settings: Settings, *, port: int, processes: int, on_ready: Callable[[str], None]) -> None:
    """Serve the book until a signal to end comes (SIGTERM, SIGINT), then come back.

    `port`: 0 takes a free one. `on_ready`: called once with the address, `http://127.0.0.1:PORT/`, when it answers;
    from a thread of its own. Raises what `open_store` raises, OneProcessAlone, ServedAlready, CannotListen and
    workers.NotInstalled.
    """
    _demand_it_fits(settings, processes)
    with the_one_server(settings.database_url), _listening(port) as listener:
        address = f"http://{HERE}:{listener.getsockname()[1]}/"
        if processes == 1:
            serve_by_one_process(settings, listener, on_ready=lambda: on_ready(address))
        else:
            serve_by_workers(settings, listener, processes=processes, on_ready=lambda: on_ready(address))


def _demand_it_fits(settings: Settings, processes: int) -> None:
    store = open_store(settings.database_url)
    store.close()
    if processes > 1 and store.dialect == "sqlite":
        raise OneProcessAlone(processes)


@contextmanager
def _listening(port: int) -> Iterator[socket.socket]:
    with socket.socket() as listener:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)  # a port that was let go of just now
        try:
            listener.bind((HERE, port))
            listener.listen(128)
        except OSError as error:
            raise CannotListen(port, said=error.strerror or str(error)) from error
        yield listener
