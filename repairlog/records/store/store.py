"""An open database, and the only two ways into it: `writing` and `reading`."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass, field

from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DatabaseError, DBAPIError, OperationalError, ProgrammingError
from sqlalchemy.exc import TimeoutError as NoConnectionFree

from repairlog import shipped
from repairlog.records.store.engine import make_engine, read_url, sqlite_file
from repairlog.records.store.fair_lock import FairLock
from repairlog.trade.rulebook.kept import Rulebooks

GATE = "alembic_version"
"""A table that every database has; it is locked only as a whole, and never for what it holds."""


def revision() -> str:
    """The revision of the tables that this release reads and writes: that of its last migration."""
    return max(file.name.partition("_")[0] for file in (shipped.migrations() / "versions").glob("[0-9]*.py"))


class NotReady(Exception):
    """The database is not there, has no book in it, or one of another release. `code`: which of these; `facts`: for
    the sentence that a person reads."""

    def __init__(self, code: str, **facts: str) -> None:
        super().__init__(code, facts)
        self.code = code
        self.facts = facts


class Busy(Exception):
    """The database was locked by others for too long; nothing was written, the call can be made again."""

    code = "busy"


class Away(Exception):
    """The server of the database does not answer. What was asked for last may have been written or not; asking for the
    same again is safe. `said_by`: the driver's own error."""

    code = "away"

    def __init__(self, said_by: DBAPIError) -> None:
        super().__init__(said_by)
        self.said_by = said_by


@dataclass(frozen=True, slots=True)
class Tx:
    """One transaction. `dialect`: sqlite or postgresql. `rulebooks`: as the store was handed them."""

    connection: Connection
    dialect: str
    rulebooks: Rulebooks = field(default_factory=Rulebooks)


@dataclass(frozen=True, slots=True)
class Store:
    """An open database of one operator. `rulebooks`: handed in by whoever opens it, to read those adopted."""

    engine: Engine
    dialect: str
    lock: FairLock | None
    rulebooks: Rulebooks = field(default_factory=Rulebooks)

    @contextmanager
    def writing(self) -> Iterator[Tx]:
        """One writing transaction: committed at the end of the block, rolled back whole if anything is raised.

        On SQLite it is BEGIN IMMEDIATE behind the fair lock. Raises Busy where a lock, or a connection to the server,
        does not come in time, and Away where the server is gone.
        """
        with (
            _told_why_not(),
            self.lock.held() if self.lock else nullcontext(),
            self.engine.connect().execution_options(sqlite_begin="IMMEDIATE") as connection,
            connection.begin(),
        ):
            yield _through_the_gate(Tx(connection, self.dialect, self.rulebooks))

    @contextmanager
    def reading(self) -> Iterator[Tx]:
        """One reading transaction, which sees one state of the book throughout. Raises as `writing` does."""
        isolation = {"isolation_level": "REPEATABLE READ"} if self.dialect == "postgresql" else {}
        with (
            _told_why_not(),
            self.engine.connect().execution_options(**isolation) as connection,
            connection.begin(),
        ):
            yield _through_the_gate(Tx(connection, self.dialect, self.rulebooks))

    def close(self) -> None:
        """Gives the connections back."""
        self.engine.dispose()


def _through_the_gate(tx: Tx) -> Tx:
    """On PostgreSQL every transaction goes through one gate, before it takes its picture of the book: so whoever closes
    it finds nobody inside. SQLite's writers go one at a time, and its readers keep their picture."""
    if tx.dialect == "postgresql":
        tx.connection.exec_driver_sql(f"LOCK TABLE {GATE} IN ACCESS SHARE MODE")
    return tx


def close_the_gate(tx: Tx) -> None:
    """Wait until no other transaction is inside, and hold all others off until the commit."""
    if tx.dialect == "postgresql":
        tx.connection.exec_driver_sql(f"LOCK TABLE {GATE} IN ACCESS EXCLUSIVE MODE")


@contextmanager
def _told_why_not() -> Iterator[None]:
    try:
        yield
    except (TimeoutError, NoConnectionFree) as error:
        raise Busy from error
    except DBAPIError as error:
        if _sqlstate(error) == "55P03" or "database is locked" in str(error.orig):
            raise Busy from error
        if _is_gone(error):
            raise Away(error) from error
        raise


def _is_gone(error: DBAPIError) -> bool:
    """Whether no server answers: the connection was lost, was refused, or the server is being stopped or started
    (SQLSTATE 57P01 to 57P03). A refused one has no SQLSTATE."""
    by_server = hasattr(error.orig, "sqlstate")
    refused = by_server and isinstance(error, OperationalError) and not _sqlstate(error)
    return error.connection_invalidated or refused or _sqlstate(error).startswith(("08", "57P0"))


def _sqlstate(error: DBAPIError) -> str:
    return str(getattr(error.orig, "sqlstate", "") or "")


def is_worth_another_turn(error: DBAPIError) -> bool:
    """Whether a call that failed so may simply be run again: a clash on a unique key, a deadlock, a serialization
    failure. PostgreSQL: 23505, 40P01, 40001; SQLite: its unique constraint, or the journal's own refusal of an id that
    came in meanwhile."""
    return _sqlstate(error) in ("23505", "40P01", "40001") or "UNIQUE constraint failed" in str(error.orig)


def unreachable(error: DBAPIError) -> NotReady:
    """What is told where no server answers, or the file is no database: the first line of the driver's own words."""
    said = str(error.orig).strip().partition("\n")[0]
    return NotReady("cannot_be_opened", said=said.rstrip("."))


def open_store(url: str, *, rulebooks: Rulebooks | None = None) -> Store:
    """Open the book at that address. `rulebooks`: what reads those that its areas adopted; without any, none can be
    adopted, and a book in which one was is not folded. Raises DatabaseUrlUnknown, or NotReady with what to do."""
    address = read_url(url)
    file = sqlite_file(address)
    if file is not None and not file.exists():
        raise NotReady("no_database", file=str(file))
    engine = make_engine(address)
    store = Store(
        engine=engine,
        dialect=engine.dialect.name,
        lock=FairLock(file.with_name(file.name + ".lock")) if file else None,
        rulebooks=rulebooks or Rulebooks(),
    )
    try:
        _demand_revision(store)
    except BaseException:
        store.close()
        raise
    return store


def _demand_revision(store: Store) -> None:
    try:
        with store.reading() as tx:
            found = tx.connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    except Away as away:
        raise unreachable(away.said_by) from away
    except DatabaseError as error:
        if isinstance(error, ProgrammingError) or "no such table" in str(error.orig):
            raise NotReady("no_book") from error
        raise unreachable(error) from error
    if found != (wanted := revision()):
        older = str(found).isdecimal() and str(found) < wanted
        raise NotReady("older_revision" if older else "other_revision", found=str(found), wanted=wanted)
