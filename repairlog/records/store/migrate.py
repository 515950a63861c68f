"""Bringing a database's tables to this release, forward only: the way back is a backup."""

from __future__ import annotations

from alembic import command
from alembic.config import Config
from alembic.util import CommandError
from sqlalchemy import Engine
from sqlalchemy.exc import DatabaseError

from repairlog import shipped
from repairlog.records.store.engine import make_engine, read_url, sqlite_file
from repairlog.records.store.store import NotReady, unreachable


def migrate(url: str) -> None:
    """Make the tables, or bring those of an older release forward. An SQLite file is made if it is not there.

    Raises DatabaseUrlUnknown, or NotReady where no server answers or the file is no database.
    """
    address = read_url(url)
    file = sqlite_file(address)
    if file is not None:
        file.parent.mkdir(parents=True, exist_ok=True)
    engine = make_engine(address)
    settings = Config()
    settings.set_main_option("script_location", str(shipped.migrations()).replace("%", "%%"))
    settings.attributes["engine"] = engine
    try:
        _demand_answer(engine)
        _upgrade(settings)
    finally:
        engine.dispose()


def _upgrade(settings: Config) -> None:
    try:
        command.upgrade(settings, "head")
    except CommandError as error:
        raise NotReady("other_release", said=str(error).rstrip(".")) from error


def _demand_answer(engine: Engine) -> None:
    try:
        engine.connect().close()
    except DatabaseError as error:
        raise unreachable(error) from error
