"""The pages as they are really served: `repairlog serve` in a process of its own, on a port of its own."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from tests.house.reading import ROOT

COMMAND = (sys.executable, "-m", "repairlog.cli", "serve", "--port", "0", "--database")
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+")
PATIENCE = 60
"""Seconds within which it answers."""


@dataclass(frozen=True)
class Server:
    """`address`: without a slash at its end. `process`: what answers there."""

    address: str
    process: subprocess.Popen[str]


@contextmanager
def served(database_url: str) -> Iterator[str]:
    """The address of a server on that book, without a slash at its end; ended in good order afterwards."""
    with server(database_url) as running:
        yield running.address


@contextmanager
def server(database_url: str) -> Iterator[Server]:
    """A server on that book; ended in good order afterwards, where it still runs.

    Raises AssertionError with what it said where it gives no address.
    """
    environment = {name: value for name, value in os.environ.items() if not name.startswith("REPAIRLOG_")}
    pipes = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.STDOUT}
    process = subprocess.Popen([*COMMAND, database_url], cwd=ROOT, env=environment, text=True, **pipes)
    try:
        yield Server(_address(process), process)
    finally:
        process.terminate()
        process.communicate(timeout=PATIENCE)


def _address(process: subprocess.Popen[str]) -> str:
    """What it prints once it answers; killed where that takes too long, so that its lines end."""
    said = []
    late = threading.Timer(PATIENCE, process.kill)
    late.start()
    assert process.stdout is not None
    for line in process.stdout:
        said.append(line)
        if found := ADDRESS.search(line):
            late.cancel()
            threading.Thread(target=process.stdout.read, daemon=True).start()  # a pipe that nobody reads fills up
            return found.group()
    raise AssertionError(f"no address from the server, but: {''.join(said)}")
