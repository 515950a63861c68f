"""What every test may ask for: a server of PostgreSQL, an empty migrated database of either kind, a store on it."""

import os
import shutil
import uuid
from collections.abc import Iterator
from pathlib import Path

import hypothesis
import psycopg
import pytest
from psycopg import sql

from repairlog.records.store import Store, open_store
from repairlog.records.store.migrate import migrate
from tests.house.demanded import pytest_make_collect_report, pytest_runtest_makereport
from tests.makers import databases, demo, postgresql
from tests.makers.rulebooks import RULEBOOKS

__all__ = ["pytest_make_collect_report", "pytest_runtest_makereport"]

SERVER = "REPAIRLOG_TEST_POSTGRESQL"
RUN = "REPAIRLOG_TEST_RUN"
OURS = pytest.StashKey[postgresql.Cluster]()

hypothesis.settings.register_profile("here", deadline=None)
hypothesis.settings.register_profile("ci", parent=hypothesis.settings.get_profile("here"), derandomize=True)
hypothesis.settings.load_profile("ci" if os.environ.get("CI") else "here")


def pytest_sessionstart(session: pytest.Session) -> None:
    """Once a run, before any worker: a run's name, and a PostgreSQL of our own unless the caller has one."""
    if hasattr(session.config, "workerinput"):
        return
    os.environ[RUN] = uuid.uuid4().hex[:12]
    if SERVER not in os.environ and postgresql.binaries() and not session.config.option.collectonly:
        session.config.stash[OURS] = postgresql.launch()
        os.environ[SERVER] = session.config.stash[OURS].url


def pytest_unconfigure(config: pytest.Config) -> None:
    """Our own server goes; on the caller's, the templates go."""
    if hasattr(config, "workerinput") or RUN not in os.environ:
        return
    if OURS in config.stash:
        postgresql.remove(config.stash[OURS])
        del os.environ[SERVER]
    elif SERVER in os.environ and not config.option.collectonly:
        with psycopg.connect(os.environ[SERVER], autocommit=True) as admin:
            for name in (_template_name(), _demo_name()):
                databases.drop(admin, name)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in the report how many touches each trip took."""
    for report in terminalreporter.stats.get("passed", ()):
        for name, told in report.user_properties:
            if name == "taps" and report.when == "call":
                terminalreporter.write_line(f"touches: {told}")


@pytest.fixture(scope="session")
def postgresql_server() -> str:
    """The administrator's URL of a running PostgreSQL; one clear skip where none is to be had."""
    if SERVER not in os.environ:
        pytest.skip(postgresql.NONE_HERE)
    postgresql.wait_for(os.environ[SERVER])
    return os.environ[SERVER]


@pytest.fixture(scope="session")
def sqlite_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated, empty SQLite file, made once by each worker; copy it, never open it."""
    file = tmp_path_factory.mktemp("template") / "repairlog.db"
    migrate(f"sqlite:///{file}")
    assert not file.with_name(file.name + "-wal").exists(), "the template is not whole without its -wal file"
    return file


@pytest.fixture(scope="session")
def postgresql_template(postgresql_server: str) -> str:
    """The name of a migrated, empty database, made once a run by whichever worker comes first."""
    name = _template_name()
    with psycopg.connect(postgresql_server, autocommit=True) as admin:
        admin.execute("SELECT pg_advisory_lock(1)")  # let go with the connection
        if admin.execute("SELECT 1 FROM pg_database WHERE datname = %s", [name]).fetchone() is None:
            making = f"{name}_making"
            admin.execute(sql.SQL("CREATE DATABASE {}").format(sql.Identifier(making)))
            migrate(databases.beside(postgresql_server, making))
            admin.execute(sql.SQL("ALTER DATABASE {} RENAME TO {}").format(*map(sql.Identifier, (making, name))))
    return name


@pytest.fixture
def sqlite_url(sqlite_template: Path, tmp_path: Path) -> str:
    """The URL of an SQLite file of this test's own: migrated, empty."""
    file = shutil.copy(sqlite_template, tmp_path / "repairlog.db")
    return f"sqlite:///{file}"


@pytest.fixture
def postgresql_url(postgresql_server: str, postgresql_template: str) -> Iterator[str]:
    """The URL of a PostgreSQL database of this test's own: migrated, empty, dropped afterwards."""
    with databases.database(postgresql_server, like=postgresql_template) as url:
        yield url


@pytest.fixture(params=["sqlite", "postgresql"])
def database_url(request: pytest.FixtureRequest) -> str:
    """The URL of an empty migrated database: the test runs once on SQLite and once on PostgreSQL."""
    url: str = request.getfixturevalue(f"{request.param}_url")
    return url


@pytest.fixture
def store(database_url: str) -> Iterator[Store]:
    """An open store on an empty database: the test runs once on SQLite and once on PostgreSQL."""
    yield from _opened(database_url)


@pytest.fixture
def sqlite_store(sqlite_url: str) -> Iterator[Store]:
    """An open store on an empty SQLite file."""
    yield from _opened(sqlite_url)


@pytest.fixture
def postgresql_store(postgresql_url: str) -> Iterator[Store]:
    """An open store on an empty PostgreSQL database."""
    yield from _opened(postgresql_url)


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that every worker of this run shares, for what is made once."""
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "demo"
    folder.mkdir(exist_ok=True)
    return folder


@pytest.fixture
def sqlite_demo(demo_folder: Path, tmp_path: Path) -> demo.Demo:
    """The demo's book in an SQLite file of this test's own."""
    folder = demo_folder / "sqlite"
    told = demo.once(folder, lambda: demo.filled("--at", str(folder)))
    return demo.copied(folder, told, to=tmp_path)


@pytest.fixture
def postgresql_demo(postgresql_server: str, demo_folder: Path) -> Iterator[demo.Demo]:
    """The demo's book in a PostgreSQL database of this test's own, dropped afterwards."""
    name = _demo_name()

    def fill() -> dict[str, object]:
        with psycopg.connect(postgresql_server, autocommit=True) as admin:
            databases.drop(admin, name)
            admin.execute(sql.SQL("CREATE DATABASE {}").format(sql.Identifier(name)))
        files = str(demo_folder / "postgresql.files")
        return demo.filled("--database", databases.beside(postgresql_server, name), REPAIRLOG_BLOBS=files)

    told = demo.once(demo_folder / "postgresql", fill)
    with databases.database(postgresql_server, like=name) as url:
        yield demo.at(url, told)


@pytest.fixture(params=["sqlite", "postgresql"])
def demo_book(request: pytest.FixtureRequest) -> demo.Demo:
    """The demo's book: the test runs once on SQLite and once on PostgreSQL."""
    book: demo.Demo = request.getfixturevalue(f"{request.param}_demo")
    return book


def _opened(url: str) -> Iterator[Store]:
    opened = open_store(url, rulebooks=RULEBOOKS)
    yield opened
    opened.close()


def _template_name() -> str:
    return f"repairlog_{os.environ[RUN]}"


def _demo_name() -> str:
    return f"{_template_name()}_demo"
