"""A process of its own that posts: `python -m tests.makers.server_of_posts URL`, asked over its standard input.

Each line that comes in is a JSON object with `threads` and `person`. With `call`, a list of entries, the same call is
posted from all threads at one moment, and one line answers: the receipts of each thread. With `many` and `area`, every
thread opens leaks in that area until the process is killed, and a line tells the receipts of each post once it has
returned.
"""

from __future__ import annotations

import json
import os
import secrets
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from uuid import UUID

from repairlog.access import Actor
from repairlog.entries.entry import Moments
from repairlog.entries.ids import uuid7
from repairlog.intake import record
from repairlog.records.post import Receipt
from repairlog.records.store import Store, open_store
from tests.house.reading import ROOT
from tests.makers.book import RECEIVED
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.together import together

Process = subprocess.Popen[str]


@contextmanager
def serving(url: str, *, count: int = 1) -> Iterator[list[Process]]:
    """So many processes on that database, each with its store open; killed at the end if they still run."""
    command = [sys.executable, "-m", "tests.makers.server_of_posts", url]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.DEVNULL}
    processes = [subprocess.Popen(command, cwd=ROOT, text=True, **pipes) for _ in range(count)]
    try:
        for process in processes:
            assert line_of(process) == "open"
        yield processes
    finally:
        for process in processes:
            process.kill()
            process.communicate()


def ask(process: Process, **question: Any) -> None:
    """Put a question to a process; `line_of` reads what it answers."""
    assert process.stdin is not None
    process.stdin.write(json.dumps(question) + "\n")
    process.stdin.flush()


def line_of(process: Process) -> Any:
    """The next line that a process wrote, as JSON; None at its end, and for a line that it did not finish."""
    assert process.stdout is not None
    line = process.stdout.readline()
    return json.loads(line) if line.endswith("\n") else None


def main(url: str) -> None:
    """Answer each question until the input ends."""
    store = open_store(url, rulebooks=RULEBOOKS)
    _say("open")
    for line in sys.stdin:
        _answer(store, json.loads(line))


def _answer(store: Store, question: dict[str, Any]) -> None:
    threads, person = question["threads"], question["person"]
    if "many" in question:
        together(threads, lambda _: _leaks_for_ever(store, question["area"], person))
    else:
        _say(together(threads, lambda _: _posted(store, question["call"], person=person)))


def _leaks_for_ever(store: Store, area: str, person: str) -> None:
    while True:
        id = str(uuid7(at=RECEIVED, random=secrets.token_bytes(10)))
        leak = {"kind": "leak_opened", "id": id, "area": area, "happened": "2026-03-05", "street": f"Lane {id[-2:]}"}
        grade = {"kind": "grade_set", "leak": id, "happened": "2026-03-05", "grade": "2"}
        grade["id"] = str(uuid7(at=RECEIVED, random=secrets.token_bytes(10)))
        _say(_posted(store, [leak, grade], person=person))


def _posted(store: Store, call: list[dict[str, Any]], *, person: str) -> list[list[Any]]:
    receipts = record(store, call, actor=Actor(person=UUID(person), sure="system"), moments=Moments(received=RECEIVED))
    return [_shown(receipt) for receipt in receipts]


def _shown(receipt: Receipt) -> list[Any]:
    return [str(receipt.id), receipt.index, receipt.leaf, receipt.number]


def _say(answer: object) -> None:
    os.write(1, json.dumps(answer).encode() + b"\n")  # one write a line: threads share the pipe


if __name__ == "__main__":
    main(sys.argv[1])
