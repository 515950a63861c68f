"""What waits to be worked out again is worked out while others go on: after a start, and after whatever was posted."""

from __future__ import annotations

import threading
from contextlib import suppress

from flask import Flask, Response, request

from repairlog.records.post import fold_stale, something_waits
from repairlog.records.store import Away, Busy, Store


def catch_up(app: Flask) -> None:
    """Let the application look after its first answer, and after the answer to each POST, whether leaks wait to be
    worked out again; where some do, one thread beside the others works until none does.

    Whatever fails there is written down in the log and harms no answer: what waits still waits, and is looked at again
    after the next POST.
    """
    going, looked = threading.Lock(), threading.Event()

    def work() -> None:
        try:
            while something_waits(_store(app)):
                fold_stale(_store(app))
        except Exception:
            app.logger.exception("what waits to be worked out again could not be")
        finally:
            going.release()

    def look() -> None:
        with suppress(Away, Busy):
            if something_waits(_store(app)) and going.acquire(blocking=False):
                threading.Thread(target=work, name="catches up", daemon=True).start()

    @app.after_request
    def _look_then(response: Response) -> Response:
        if request.method == "POST" or not looked.is_set():
            looked.set()
            response.call_on_close(look)
        return response


def _store(app: Flask) -> Store:
    store: Store = app.extensions["repairlog.store"]
    return store
