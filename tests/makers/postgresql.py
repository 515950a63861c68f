"""A private PostgreSQL of a test run: its own cluster in a temporary folder, gone at the end."""

import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import psycopg

SETTINGS = {
    "listen_addresses": "127.0.0.1",
    "max_connections": "100",
    "shared_buffers": "64MB",
    # A zone that is neither UTC nor a whole hour from it: a moment that leans on the session's zone shows.
    "timezone": "Asia/Kathmandu",
}
MEMORY, ROOM = Path("/dev/shm"), 2 * 1024**3
"""Where Linux keeps files in memory, and how many bytes must be free there to be used."""

HASTY = {"fsync": "off", "full_page_writes": "off"}
SIGNALS = {"fast": signal.SIGINT, "immediate": signal.SIGQUIT}


@dataclass(frozen=True, slots=True)
class Cluster:
    """One data folder, the port it answers on, and the process that serves it."""

    folder: Path
    port: int
    process: subprocess.Popen[bytes]
    durable: bool

    @property
    def url(self) -> str:
        """The administrator's address: the superuser in the database `postgres`, no password."""
        return f"postgresql://postgres@127.0.0.1:{self.port}/postgres"

    @property
    def log(self) -> str:
        """All that initdb and the server have said."""
        return (self.folder / "log").read_text(errors="replace")


NONE_HERE = "no PostgreSQL on this machine: install it, or name a server in REPAIRLOG_TEST_POSTGRESQL"
"""Why a test is skipped that needs one."""


def binaries() -> Path | None:
    """The folder with initdb and postgres, the newest Debian keeps or the one on PATH; None where there is none."""
    debian = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda found: int(found.parts[-3]))
    on_path = shutil.which("initdb")
    found = debian[-1] if debian else Path(on_path) if on_path else None
    return found.parent if found and (found.parent / "postgres").exists() else None


def launch(*, durable: bool = False) -> Cluster:
    """Begin a new cluster and come back at once; `wait_for` says when it answers.

    `durable`: with fsync, as an operator runs it; otherwise a power loss would harm it, and nothing else.
    The server dies with the thread that launched it, so a test run that is killed leaves nothing behind.
    Raises FileNotFoundError where this machine has no PostgreSQL.
    """
    bin_folder = binaries()
    if bin_folder is None:
        raise FileNotFoundError("no initdb under /usr/lib/postgresql or on PATH: install postgresql")
    folder = Path(tempfile.mkdtemp(prefix="repairlog-pg-", dir=None if durable else _in_memory()))
    if os.getuid() == 0:
        shutil.chown(folder, "postgres", "postgres")
    initdb = f"'{bin_folder}/initdb' -D '{folder}/data' -A trust -U postgres -E UTF8 --no-locale --no-sync"
    port = free_port()
    process = _served(f"{initdb} && exec {_server(bin_folder, folder, port=port, durable=durable)}", folder)
    return Cluster(folder, port, process, durable)


def _in_memory() -> Path | None:
    """A folder in memory, where this machine has one with room: every database of a test is a thousand small files."""
    try:
        return MEMORY if shutil.disk_usage(MEMORY).free > ROOM else None
    except OSError:
        return None


def restart(cluster: Cluster) -> Cluster:
    """Serve the same data folder on the same port again, after `stop`; answers when it does."""
    bin_folder = binaries()
    assert bin_folder is not None
    command = _server(bin_folder, cluster.folder, port=cluster.port, durable=cluster.durable)
    again = Cluster(cluster.folder, cluster.port, _served(f"exec {command}", cluster.folder), cluster.durable)
    wait_for(again.url)
    return again


def stop(cluster: Cluster, *, how: str = "fast") -> None:
    """Stop the server by its own process: `fast` in good order, `immediate` as a crash would, without a checkpoint."""
    if cluster.process.poll() is None:
        cluster.process.send_signal(SIGNALS[how])
    cluster.process.wait(timeout=60)


def remove(cluster: Cluster) -> None:
    """Stop the server, however far it had come, and delete its folder."""
    stop(cluster)
    shutil.rmtree(cluster.folder)


@contextmanager
def running(*, durable: bool = False) -> Iterator[Cluster]:
    """A cluster that answers, removed afterwards."""
    cluster = launch(durable=durable)
    try:
        wait_for(cluster.url)
        yield cluster
    finally:
        remove(cluster)


def wait_for(url: str, *, seconds: float = 60) -> None:
    """Come back once the server at `url` answers; raises psycopg.OperationalError where it never does."""
    deadline = time.monotonic() + seconds
    while True:
        try:
            psycopg.connect(url, connect_timeout=5).close()
        except psycopg.OperationalError:
            if time.monotonic() > deadline:
                raise
            time.sleep(0.05)
        else:
            return


def free_port() -> int:
    """A port of the loopback that nobody listens on now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def _server(bin_folder: Path, folder: Path, *, port: int, durable: bool) -> str:
    settings = SETTINGS | ({} if durable else HASTY) | {"port": str(port), "unix_socket_directories": str(folder)}
    return f"'{bin_folder}/postgres' -D '{folder}/data' " + " ".join(f"-c {key}={it}" for key, it in settings.items())


def _served(command: str, folder: Path) -> subprocess.Popen[bytes]:
    """Run it as a user whom PostgreSQL serves: `postgres` where we are root, else ourselves."""
    setpriv = ["setpriv", "--pdeathsig=QUIT"] if shutil.which("setpriv") else []
    if os.getuid() == 0:
        setpriv += ["--reuid=postgres", "--regid=postgres", "--init-groups"]
    environment = {"PATH": os.environ["PATH"], "HOME": str(folder), "LC_ALL": "C"}
    with (folder / "log").open("ab") as log:
        return subprocess.Popen(
            [*setpriv, "sh", "-c", command],
            cwd=folder,
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
