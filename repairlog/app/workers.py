"""Several processes that serve one book on PostgreSQL, each with an application of its own."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Callable
from importlib.util import find_spec
from typing import Any

from repairlog.app import create_app
from repairlog.app.answering import wait_until_it_answers
from repairlog.app.catching_up import catch_up
from repairlog.settings import Settings


class NotInstalled(Exception):
    """What several processes need is not installed. `facts`: the `extra` that brings it."""

    code = "not_installed"

    def __init__(self, extra: str) -> None:
        super().__init__(extra)
        self.facts = {"extra": extra}


def serve_by_workers(
    settings: Settings, listener: socket.socket, *, processes: int, on_ready: Callable[[], None]
) -> None:
    """Serve by so many processes until a signal to end comes. Raises NotInstalled."""
    if find_spec("gunicorn") is None:
        raise NotInstalled("serve")
    from gunicorn.app.base import BaseApplication  # type: ignore[import-untyped]

    port = listener.getsockname()[1]

    def tell(arbiter: Any) -> None:
        threading.Thread(target=_tell, args=(port, arbiter, processes, on_ready), daemon=True).start()

    options = {
        "bind": f"fd://{listener.detach()}",  # the library closes what it is given
        "workers": processes,
        "worker_class": "sync",
        "loglevel": "warning",
        "control_socket_disable": True,
        "secure_scheme_headers": {},  # the application itself reads what a proxy says, where there is one
        "forwarder_headers": "",
        "when_ready": tell,
    }

    class _Workers(BaseApplication):  # type: ignore[misc]
        """The library asks for its settings and for the application by inheritance alone."""

        def load_config(self) -> None:
            for name, value in options.items():
                self.cfg.set(name, value)

        def load(self) -> Any:
            """Called in each process after the fork: no connection is shared."""
            app = create_app(settings)
            catch_up(app)
            return app

    try:
        _Workers().run()
    except SystemExit as ended:
        if ended.code:
            raise


def _tell(port: int, arbiter: Any, processes: int, on_ready: Callable[[], None]) -> None:
    while len(arbiter.WORKERS) < processes:
        time.sleep(0.05)  # nothing else goes on in this thread while processes are forked
    if wait_until_it_answers(port, going_on=lambda: True):
        on_ready()
