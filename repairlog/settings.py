"""Settings, read once, at the roof. Every one of them stands in config/settings.example.toml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

from platformdirs import user_data_path

DATABASE_URL = "REPAIRLOG_DATABASE_URL"
HTTPS = "REPAIRLOG_HTTPS"
IDLE_HOURS = "REPAIRLOG_IDLE_HOURS"

USUAL_IDLE_HOURS = "12"


class SettingUnknown(Exception):
    """A setting that cannot be read. `facts`: its `name`, what it `got`, what was `expected`."""

    code = "setting_unknown"

    def __init__(self, name: str, *, got: str, expected: str) -> None:
        super().__init__(name, got)
        self.facts = {"name": name, "got": got, "expected": expected}


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """`database_url`: the book's address. `https`: pages are reached by https alone, through one proxy, so
    cookies say so and what the proxy says of a request is believed. `idle`: how
    long a sign-in may lie unused before it ends."""

    database_url: str
    https: bool = False
    idle: timedelta = timedelta(hours=int(USUAL_IDLE_HOURS))


def read_settings(environment: Mapping[str, str], *, database_url: str | None = None) -> Settings:
    """The settings of this run: what was given, else the environment's, else the usual ones. Raises SettingUnknown."""
    return Settings(
        database_url=database_url or environment.get(DATABASE_URL) or f"sqlite:///{usual_file()}",
        https=_yes_or_no(HTTPS, environment.get(HTTPS, "no")),
        idle=timedelta(hours=_hours(IDLE_HOURS, environment.get(IDLE_HOURS, USUAL_IDLE_HOURS))),
    )


def _yes_or_no(name: str, text: str) -> bool:
    if text not in ("yes", "no"):
        raise SettingUnknown(name, got=text, expected="yes, no")
    return text == "yes"


def _hours(name: str, text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 24 * 30):
        raise SettingUnknown(name, got=text, expected="1 - 720")
    return int(text)


def usual_file() -> Path:
    """Where the book lies if nobody says otherwise: an SQLite file in the user's data folder."""
    return user_data_path("repairlog", appauthor=False) / "repairlog.db"
