"""Typed columns, the same on SQLite and PostgreSQL: ids, moments, days, numbers with their unit in the name."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import DateTime, Dialect, LargeBinary, Text, TypeDecorator, Uuid, bindparam
from sqlalchemy.types import TypeEngine

from repairlog.entries.moments import moment_text, read_moment


class Id(TypeDecorator[UUID]):
    """A UUID in 16 bytes: BLOB on SQLite, uuid on PostgreSQL (as text it was measured half as large again)."""

    impl = LargeBinary
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        return dialect.type_descriptor(Uuid() if dialect.name == "postgresql" else LargeBinary(16))

    # The processors themselves: asked of the decorator for every cell, they took a tenth of an import.
    def bind_processor(self, dialect: Dialect) -> Callable[[Any], Any] | None:
        return super().bind_processor(dialect) if dialect.name == "postgresql" else _in_bytes

    def result_processor(self, dialect: Dialect, coltype: object) -> Callable[[Any], Any] | None:
        return super().result_processor(dialect, coltype) if dialect.name == "postgresql" else _of_bytes


def _in_bytes(value: UUID | None) -> bytes | None:
    return None if value is None else value.int.to_bytes(16, "big")


def _of_bytes(value: Any) -> Any:
    return UUID(int=int.from_bytes(value, "big")) if isinstance(value, bytes) and len(value) == 16 else _as_it_is(value)


def _as_it_is(value: Any) -> Any:
    """What is no id, which SQLite lets stand; raises ValueError for bytes that are no UUID."""
    return UUID(bytes=value) if isinstance(value, bytes) else value


IDS = bindparam("ids", type_=Id(), expanding=True)
"""Ids to look up, given as `ids` when the statement runs: so it is built once, and a post spends its time elsewhere."""


class Moment(TypeDecorator[datetime]):
    """An aware moment in UTC: text as it is sealed on SQLite, timestamp with time zone on PostgreSQL.

    A naive moment is refused: nobody could say later which zone was meant.
    """

    impl = Text
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        return dialect.type_descriptor(DateTime(timezone=True) if dialect.name == "postgresql" else Text())

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> Any:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value.isoformat()} has no zone; a moment is kept with one")
        return value if dialect.name == "postgresql" else moment_text(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        if isinstance(value, str):
            return read_moment(value)
        return value.astimezone(UTC) if isinstance(value, datetime) else None
