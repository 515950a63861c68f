"""Where the pages are served, and waiting until they answer there."""

from __future__ import annotations

import http.client
import time
from collections.abc import Callable

HERE = "127.0.0.1"
"""This machine alone: whoever lets others in puts a proxy before it."""


def wait_until_it_answers(port: int, *, going_on: Callable[[], bool]) -> bool:
    """Ask until the pages answer on that port; False where `going_on` ends first."""
    while going_on():
        if _answers(port):
            return True
        time.sleep(0.05)
    return False


def _answers(port: int) -> bool:
    asking = http.client.HTTPConnection(HERE, port, timeout=10)
    try:
        asking.request("GET", "/healthy")
        return asking.getresponse().status == 200
    except (OSError, http.client.HTTPException):
        return False
    finally:
        asking.close()
