"""Of a request that is larger than the server reads at all, the application tells as of any other: on its own page."""

from __future__ import annotations

from typing import Any

from flask import Flask
from waitress.channel import HTTPChannel
from waitress.task import ErrorTask
from waitress.utilities import RequestEntityTooLarge
from werkzeug.test import EnvironBuilder, run_wsgi_app


def channel_of(app: Flask) -> type[HTTPChannel]:
    """What the library makes of each connection; it takes another answer by inheritance alone."""

    class _TooMuch(ErrorTask):  # type: ignore[misc]  # the library has no types
        def execute(self) -> None:
            if not isinstance(self.request.error, RequestEntityTooLarge):
                super().execute()
                return
            self.status, self.response_headers, body = _told(app, self.request)
            self.set_close_on_finish()
            self.content_length = len(body)
            self.write(body)

    class _Channel(HTTPChannel):  # type: ignore[misc]  # the library has no types
        error_task_class = _TooMuch

    return _Channel


def _told(app: Flask, request: Any) -> tuple[str, list[tuple[str, str]], bytes]:
    """The application's answer to the head of that request, whose length tells it all that it needs to know."""
    heads = {name.replace("_", "-"): value for name, value in request.headers.items()}
    heads["Content-Type"] = "application/x-www-form-urlencoded"  # whatever it was: its length is looked at first
    asked = EnvironBuilder(path=request.path, method=request.command, headers=heads)
    try:
        told = {**asked.get_environ(), "CONTENT_LENGTH": str(2**40)}
        body, status, headers = run_wsgi_app(app, told, buffered=True)
        return status, headers.to_wsgi_list(), b"".join(body)
    finally:
        asked.close()
