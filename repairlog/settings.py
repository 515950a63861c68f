"""Settings, read once, at the roof. Every one of them stands in config/settings.example.toml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from platformdirs import user_data_path

DATABASE_URL = "REPAIRLOG_DATABASE_URL"


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """`database_url`: the book's address."""

    database_url: str


def read_settings(environment: Mapping[str, str], *, database_url: str | None = None) -> Settings:
    """The settings of this run: what was given, else the environment's, else the usual ones."""
    return Settings(database_url=database_url or environment.get(DATABASE_URL) or f"sqlite:///{usual_file()}")


def usual_file() -> Path:
    """Where the book lies if nobody says otherwise: an SQLite file in the user's data folder."""
    return user_data_path("repairlog", appauthor=False) / "repairlog.db"
