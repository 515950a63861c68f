"""The command `repairlog` as a person calls it: what makes a new book, and the command as a process of its own."""

from __future__ import annotations

import subprocess
import sys
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


def process(*words: str, typed: str = "", **environment: str) -> Answer:
    """The same as a process of its own. `typed`: what is typed to it."""
    done = subprocess.run(
        [sys.executable, "-m", "repairlog.cli", *words],
        input=typed,
        capture_output=True,
        text=True,
        timeout=60,
        env={"PATH": "/usr/bin:/bin", "HOME": "/nowhere", "PYTHONPATH": str(Path.cwd()), **environment},
    )
    return Answer(done.returncode, done.stdout, done.stderr)
