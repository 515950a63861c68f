"""What is answered where something went wrong: a page for people, problem details for programs; never a stack trace."""

from __future__ import annotations

from flask import Flask, request
from flask.typing import ResponseReturnValue

from repairlog import api, web


def answer_errors(app: Flask) -> None:
    """Every exception that leaves a page or the interface is told in its own form."""

    @app.errorhandler(Exception)
    def _told(error: Exception) -> ResponseReturnValue:
        answer, fault = (api.answer, api.fault) if _is_for_programs() else (web.answer, web.fault)
        if (told := answer(error)) is not None:
            return told
        app.logger.error("a fault of our own at %s", request.path, exc_info=error)
        return fault()


def _is_for_programs() -> bool:
    return request.path.startswith("/api/")
