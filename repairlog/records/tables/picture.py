"""A picture: rows as they should stand, by table and key; and what changes one picture into another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Table

from repairlog.records.tables.metadata import key_names

Key = tuple[Any, ...]
Row = Mapping[str, Any]
Picture = dict[Table, dict[Key, Row]]


@dataclass(frozen=True, slots=True)
class Change:
    """What to write: rows to put (new, or in place of those of their key), keys to take away."""

    puts: dict[Table, list[Row]] = field(default_factory=dict)
    takes: dict[Table, list[Key]] = field(default_factory=dict)


def add(picture: Picture, table: Table, **row: Any) -> None:
    """Put one row into a picture."""
    picture.setdefault(table, {})[tuple([row[name] for name in key_names(table)])] = row


def merged(pictures: Iterable[Picture]) -> Picture:
    """One picture of several."""
    whole: Picture = {}
    for picture in pictures:
        for table, rows in picture.items():
            whole.setdefault(table, {}).update(rows)
    return whole


def difference(before: Picture, after: Picture) -> Change:
    """What changes `before` into `after`; rows that are the same are left alone."""
    change = Change()
    for table in dict.fromkeys([*before, *after]):
        old, new = before.get(table, {}), after.get(table, {})
        if puts := [row for key, row in new.items() if old.get(key) != row]:
            change.puts[table] = puts
        if takes := [key for key in old if key not in new]:
            change.takes[table] = takes
    return change
