"""A program of the test's own process that posts entries over HTTP to a server somewhere else."""

from __future__ import annotations

import json
from dataclasses import dataclass
from http.client import HTTPConnection, HTTPException
from typing import Any
from urllib.parse import urlsplit

PATIENCE = 60
"""Seconds after which an answer is given up."""


@dataclass(frozen=True)
class Answer:
    """Status and JSON of what came back."""

    status: int
    told: Any

    @property
    def receipts(self) -> list[dict[str, Any]]:
        receipts: list[dict[str, Any]] = self.told["receipts"]
        return receipts


def post(address: str, entries: list[dict[str, Any]], *, token: str) -> Answer:
    """Post a call to the server at that address, by a connection of its own. Raises OSError or HTTPException where the
    server goes away meanwhile."""
    connection = HTTPConnection(urlsplit(address).netloc, timeout=PATIENCE)
    headers = {"Content-Type": "application/json", "Authorization": f"Bearer {token}"}
    try:
        connection.request("POST", "/api/entries", json.dumps({"entries": entries}), headers)
        answer = connection.getresponse()
        return Answer(answer.status, json.loads(answer.read()))
    finally:
        connection.close()


def acknowledged(address: str, entries: list[dict[str, Any]], *, token: str) -> list[dict[str, Any]] | None:
    """The receipts of a call; None where the server went away before it had told them whole."""
    try:
        answer = post(address, entries, token=token)
    except (OSError, HTTPException, ValueError):
        return None
    assert answer.status == 201, answer.told
    return answer.receipts
