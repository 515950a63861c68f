"""`repairlog serve` as a process of its own, whose end a test may choose."""

from __future__ import annotations

import http.client
import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.house.reading import ROOT

PATIENCE = 60


@dataclass(frozen=True)
class Server:
    """A process that answers at `address`, as it printed it."""

    process: subprocess.Popen[str]
    address: str

    @property
    def port(self) -> int:
        return int(self.address.rstrip("/").rpartition(":")[2])

    def get(self, path: str, **headers: str) -> tuple[int, str]:
        """Status and body of the answer to one question, on a connection of its own."""
        asking = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        try:
            asking.request("GET", path, headers={"Connection": "close", **headers})
            answer = asking.getresponse()
            return answer.status, answer.read().decode()
        finally:
            asking.close()

    def workers(self) -> list[int]:
        """The processes that it started."""
        children = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text()
        return [int(pid) for pid in children.split()]

    def end(self, sign: int) -> tuple[int, str, str]:
        """Send it that signal; its exit code, and what else it printed."""
        self.process.send_signal(sign)
        out, err = self.process.communicate(timeout=PATIENCE)
        return self.process.returncode, out, err


@contextmanager
def serving(url: str, *words: str, **environment: str) -> Iterator[Server]:
    """A server on that book, on a port of its own; killed at the end where it still runs."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("REPAIRLOG_")}
    process = subprocess.Popen(
        [sys.executable, "-m", "repairlog.cli", "serve", "--port", "0", "--database", url, *words],
        cwd=ROOT,
        env=kept | environment,
        text=True,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    late = threading.Timer(PATIENCE, process.kill)
    late.start()
    try:
        assert process.stdout is not None
        line = process.stdout.readline()
        late.cancel()
        assert line.endswith("/\n"), (line, process.communicate()[1])
        yield Server(process, line.strip())
    finally:
        late.cancel()
        process.kill()
        process.communicate()
