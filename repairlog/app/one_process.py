"""One process with a few threads that serves the book."""

from __future__ import annotations

import logging
import signal
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

from waitress import create_server, wasyncore

from repairlog.app import MOST_BYTES, create_app
from repairlog.app.answering import wait_until_it_answers
from repairlog.app.catching_up import catch_up
from repairlog.app.too_much import channel_of
from repairlog.records.store import Store
from repairlog.settings import Settings
from repairlog.web.frame.files import TIMES

THREADS = 8
"""A page takes milliseconds, and SQLite has one writer at a time."""


def serve_by_one_process(settings: Settings, listener: socket.socket, *, on_ready: Callable[[], None]) -> None:
    """Serve by this process until SIGTERM or SIGINT; what is being answered then is answered first."""
    app = create_app(settings)
    catch_up(app)
    store: Store = app.extensions["repairlog.store"]
    ended = threading.Event()
    try:
        with _ended_by_signals():
            sockets: dict[int, Any] = {}
            server = create_server(app, map=sockets, sockets=[listener], **_options(settings))
            server.channel_class = channel_of(app)
            port = listener.getsockname()[1]
            threading.Thread(target=_tell, args=(port, ended, on_ready), name="asks itself", daemon=True).start()
            server.run()
            server.close()
            wasyncore.loop(timeout=0.1, map=sockets, count=10)  # what was answered last is still on its way
    except KeyboardInterrupt:
        return
    finally:
        ended.set()
        store.close()


def _options(settings: Settings) -> dict[str, Any]:
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # that a request waited a moment is no news
    return {
        "threads": THREADS,
        "ident": None,
        "max_request_body_size": 4 * MOST_BYTES + TIMES * settings.upload_mb * 1_000_000,
        # The application itself reads what a proxy says, where there is one.
        "clear_untrusted_proxy_headers": not settings.https,
    }


def _tell(port: int, ended: threading.Event, on_ready: Callable[[], None]) -> None:
    if wait_until_it_answers(port, going_on=lambda: not ended.is_set()):
        on_ready()


@contextmanager
def _ended_by_signals() -> Iterator[None]:
    """Both signals end the block by KeyboardInterrupt, whatever the one who started us made of them."""
    before = {sign: signal.signal(sign, _interrupt) for sign in (signal.SIGTERM, signal.SIGINT)}
    try:
        yield
    finally:
        for sign, handler in before.items():
            signal.signal(sign, handler)


def _interrupt(_sign: int, _frame: FrameType | None) -> None:
    raise KeyboardInterrupt
