"""A worked row put into a picture, with the engine's version."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import Table

from repairlog.records.tables import ENGINE_VERSION
from repairlog.records.tables.picture import Picture, add


def put_row(picture: Picture, table: Table, **row: Any) -> None:
    """Put one row into a picture, as this engine worked it out."""
    add(picture, table, engine=ENGINE_VERSION, **row)


def as_day(text: str) -> date | None:
    """A day of `YYYY-MM-DD`; None where there is none."""
    return date.fromisoformat(text) if text else None
