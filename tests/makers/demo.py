"""The demo's book, filled once a run on either database and copied for each test that wants one."""

from __future__ import annotations

import fcntl
import json
import os
import re
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.makers.command import process

ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+")
"""What a server prints once it answers, without what stands around it."""

TOLD = "demo.json"
"""What the command printed, kept beside the book."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """A demo's book of a test's own. `url`: where it is. `areas`, `sign_ins`: as the command printed them."""

    url: str
    areas: list[dict[str, str]]
    sign_ins: list[dict[str, Any]]

    def signs_in(self, role: str, *, area: str = "ES") -> Mapping[str, Any]:
        """The sign-in of that role whose areas include that one."""
        return next(each for each in self.sign_ins if each["role"] == role and area in each["areas"])


def filled(*where: str, years: int = 0, **environment: str) -> dict[str, Any]:
    """What `demo --no-serve --json` prints when it fills the book at that place, with so many years. Raises
    AssertionError if it fails."""
    words = ("demo", "--no-serve", "--json", "--years", str(years), *where)
    answer = process(*words, seconds=60 + 240 * years, **environment)
    assert answer.code == 0, answer.err
    told: dict[str, Any] = json.loads(answer.out)
    return told


def once(folder: Path, fill: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    """What `fill` told, kept in the folder: the first process that comes makes it, all others wait for it."""
    folder.mkdir(exist_ok=True)
    with _alone(folder / "lock"):
        if not (folder / TOLD).exists():
            (folder / TOLD).write_text(json.dumps(fill()))
    told: dict[str, Any] = json.loads((folder / TOLD).read_text())
    return told


def copied(folder: Path, told: Mapping[str, Any], *, to: Path) -> Demo:
    """A copy of the folder's SQLite file, and of the files beside it."""
    file = shutil.copy(folder / "demo.db", to / "demo.db")
    shutil.copytree(folder / "demo.db.files", to / "demo.db.files")
    return at(f"sqlite:///{file}", told)


def at(url: str, told: Mapping[str, Any]) -> Demo:
    """The demo's book at that address."""
    return Demo(url=url, areas=told["areas"], sign_ins=told["sign_ins"])


@contextmanager
def _alone(file: Path) -> Iterator[None]:
    opened = os.open(file, os.O_RDWR | os.O_CREAT)
    try:
        fcntl.flock(opened, fcntl.LOCK_EX)
        yield
    finally:
        os.close(opened)
