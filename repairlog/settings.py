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
BLOBS = "REPAIRLOG_BLOBS"
UPLOAD_MB = "REPAIRLOG_UPLOAD_MB"
RULEBOOKS = "REPAIRLOG_RULEBOOKS"
PRIVATE_DAYS = "REPAIRLOG_PRIVATE_DAYS"

USUAL_IDLE_HOURS = "12"
USUAL_UPLOAD_MB = "25"


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
    long a sign-in may lie unused before it ends. `blobs`: the folder of pictures and other files, None for the usual
    one; `upload_mb`: the largest of them that is taken, in millions of bytes. `rulebooks`: the folder of the operator's
    own rulebook files, None where there is none. `private_days`: how many days callers' personal data is kept, None
    where the operator has not said."""

    database_url: str
    https: bool = False
    idle: timedelta = timedelta(hours=int(USUAL_IDLE_HOURS))
    blobs: Path | None = None
    upload_mb: int = int(USUAL_UPLOAD_MB)
    rulebooks: Path | None = None
    private_days: int | None = None

    @property
    def files(self) -> Path:
        """The folder of pictures and other files: beside the book where that is an SQLite file, else in the user's data
        folder."""
        book = self.database_url.removeprefix("sqlite:///")
        beside = Path(f"{book}.files") if book and book != self.database_url else usual_file().with_name("files")
        return self.blobs or beside


def read_settings(environment: Mapping[str, str], *, database_url: str | None = None) -> Settings:
    """The settings of this run: what was given, else the environment's, else the usual ones. Raises SettingUnknown."""
    return Settings(
        database_url=database_url or environment.get(DATABASE_URL) or f"sqlite:///{usual_file()}",
        https=_yes_or_no(HTTPS, environment.get(HTTPS, "no")),
        idle=timedelta(hours=_whole(IDLE_HOURS, environment.get(IDLE_HOURS, USUAL_IDLE_HOURS), most=24 * 30)),
        blobs=Path(environment[BLOBS]) if environment.get(BLOBS) else None,
        upload_mb=_whole(UPLOAD_MB, environment.get(UPLOAD_MB, USUAL_UPLOAD_MB), most=500),
        rulebooks=_folder(RULEBOOKS, environment.get(RULEBOOKS, "")),
        private_days=_whole(PRIVATE_DAYS, kept, most=36_500) if (kept := environment.get(PRIVATE_DAYS)) else None,
    )


def _yes_or_no(name: str, text: str) -> bool:
    if text not in ("yes", "no"):
        raise SettingUnknown(name, got=text, expected="yes, no")
    return text == "yes"


def _folder(name: str, text: str) -> Path | None:
    if text and not Path(text).is_dir():
        raise SettingUnknown(name, got=text, expected="a folder that is there")
    return Path(text) if text else None


def _whole(name: str, text: str, *, most: int) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= most):
        raise SettingUnknown(name, got=text, expected=f"1 - {most}")
    return int(text)


def usual_file() -> Path:
    """Where the book lies if nobody says otherwise: an SQLite file in the user's data folder."""
    return user_data_path("repairlog", appauthor=False) / "repairlog.db"
