"""Typed columns, the same on SQLite and PostgreSQL: ids, moments, days, numbers with their unit in the name."""

from __future__ import annotations

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

    def process_bind_param(self, value: UUID | None, dialect: Dialect) -> Any:
        return value.bytes if value is not None and dialect.name != "postgresql" else value

    def process_result_value(self, value: Any, dialect: Dialect) -> UUID | None:
        return UUID(bytes=bytes(value)) if isinstance(value, bytes) else value


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
