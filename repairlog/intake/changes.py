"""What differs between an entry as it stands and as somebody would have it: the changes of a correction, both ways."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import count
from typing import Any

from repairlog.entries.entry import Row
from repairlog.entries.fields import EntryKind
from repairlog.entries.kinds import DID, KEPT_AS_TEXT
from repairlog.intake.said import plain_text

Raw = Mapping[str, Any]
"""A raw entry: fields by name, lists of rows, who did it among them."""


def changes_between(kind: EntryKind, *, was: Raw, now: Raw) -> list[dict[str, str]]:
    """The rows of `changes` of a correction that makes `now` of `was`, as far as a form asks for it: nothing for what
    is the same, no `to` for what is taken away. That a measure is kept as written is only ever added."""
    found = [*_fields(kind, was, now)]
    for rows in (*kind.rows, DID):
        before, after = was.get(rows.name, ()), now.get(rows.name, ())
        names = [field.name for field in rows.fields]
        found += _kept(before, after) if rows is KEPT_AS_TEXT else _rows(rows.name, names, before, after)
    return [
        {"key": f"c{place}", "field": path} | ({"to": to} if to else {})
        for place, (path, to) in enumerate(found, start=1)
    ]


def with_changes_made(raw: Raw, changes: Sequence[Row]) -> dict[str, Any]:
    """The raw entry with these changes made: what a form shows of a correction that was typed before."""
    made: dict[str, Any] = {name: [dict(row) for row in it] if isinstance(it, list) else it for name, it in raw.items()}
    for change in changes:
        name, _, rest = str(change.get("field", "")).partition(".")
        key, _, field = rest.partition(".")
        to = change.get("to")
        if not rest:
            made = {**made, name: to} if to else {of: it for of, it in made.items() if of != name}
            continue
        rows = made.setdefault(name, [])
        if not field:
            made[name] = [row for row in rows if row["key"] != key]
            continue
        row = next((row for row in rows if row["key"] == key), None)
        if row is None:
            rows.append(row := {"key": key})
        row |= {field: to} if to else {}
        if not to:
            row.pop(field, None)
    return made


def _fields(kind: EntryKind, was: Raw, now: Raw) -> Iterator[tuple[str, str]]:
    for field in kind.fields:
        before, after = _text(was.get(field.name)), _text(now.get(field.name))
        if before != after:
            yield field.name, after


def _rows(name: str, fields: Sequence[str], was: Sequence[Row], now: Sequence[Row]) -> Iterator[tuple[str, str]]:
    before, after = {row["key"]: row for row in was}, {row["key"]: row for row in now}
    for key in before.keys() - after.keys():
        yield f"{name}.{key}", ""
    for key, row in after.items():
        old = before.get(key, {})
        for field in fields:
            if _text(old.get(field)) != _text(row.get(field)):
                yield f"{name}.{key}.{field}", _text(row.get(field))


def _kept(was: Sequence[Row], now: Sequence[Row]) -> Iterator[tuple[str, str]]:
    taken, kept = {row["key"] for row in was}, {row.get("field") for row in was}
    free = (f"k{number}" for number in count(1) if f"k{number}" not in taken)
    for row in now:
        if row["field"] not in kept:
            yield f"{KEPT_AS_TEXT.name}.{next(free)}.field", row["field"]


def _text(value: object) -> str:
    return plain_text(str(value)) if value is not None else ""
