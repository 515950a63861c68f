"""The one catalogue of tables, and how each is named and of which kind it is."""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from sqlalchemy import Column, MetaData, Table

TableKind = Literal["journal", "facts", "worked", "beside"]

METADATA = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def table(name: str, kind: TableKind, *parts: Any, comment: str) -> Table:
    """A table of one of the four kinds: `journal` and `beside` come back from a backup alone, `facts` and `worked`
    by replay."""
    return Table(name, METADATA, *parts, comment=comment, info={"kind": kind})


def of_kind(*kinds: TableKind) -> list[Table]:
    """The tables of those kinds, in the order in which they were declared."""
    return [each for each in METADATA.tables.values() if each.info["kind"] in kinds]


@cache
def key_names(of: Table) -> tuple[str, ...]:
    """Names of the columns that tell one row of the table from another."""
    return tuple(column.name for column in of.primary_key)


def value_columns(of: Table) -> list[Column[Any]]:
    """The columns beside the key."""
    return [column for column in of.columns if not column.primary_key]
