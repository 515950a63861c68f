"""The command `repairlog` as a person calls it: what makes a new book, and the command as a process of its own."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

NEW_BOOK = (
    *("--operator", "Saltmarsh Gas", "--area", "Eastmarsh", "--area-code", "es"),
    *("--zone", "America/Denver", "--elevation", "5280 ft", "--admin-name", "R. Tolland"),
)


@dataclass(frozen=True)
class Answer:
    """What a command ended with and printed."""

    code: int
    out: str
    err: str


def at_a_terminal(*words: str, typed: list[str]) -> str:
    """What is seen at a terminal at which the command asks: each of these is typed once a question has come."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.execv(sys.executable, [sys.executable, "-m", "repairlog.cli", *words])
    seen = b""
    with os.fdopen(terminal, "r+b", buffering=0) as there:
        for text in typed:
            while not seen.rstrip(b" ").endswith(b":") or seen.endswith(b"\n"):
                seen += there.read(1024)
            there.write(text.encode() + b"\n")
            seen += there.read(1)
        with suppress(OSError):  # the terminal is gone when the command has ended
            while more := there.read(1024):
                seen += more
    assert os.waitpid(pid, 0)[1] == 0, seen.decode()
    return seen.decode()


def process(*words: str, typed: str = "", seconds: int = 60, **environment: str) -> Answer:
    """The same as a process of its own. `typed`: what is typed to it; `seconds`: how long it may take."""
    done = subprocess.run(
        [sys.executable, "-m", "repairlog.cli", *words],
        input=typed,
        capture_output=True,
        text=True,
        timeout=seconds,
        env={"PATH": "/usr/bin:/bin", "HOME": "/nowhere", "PYTHONPATH": str(Path.cwd()), **environment},
    )
    return Answer(done.returncode, done.stdout, done.stderr)
