"""What many tests put into an empty book in the same way: on SQLite put in once a process, and copied after that."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import wraps
from inspect import unwrap
from pathlib import Path
from typing import Any, TypeVar

from repairlog.records.store import Store
from repairlog.records.store.engine import sqlite_file

T = TypeVar("T")


@dataclass(frozen=True)
class _Kept:
    """A file before and after it was filled, and what the filling told."""

    empty: bytes
    filled: bytes
    told: Any


def once(fill: Callable[[Store], T]) -> Callable[[Store], T]:
    """Let it fill the first book that comes; a later one that is byte for byte what that one was before becomes what
    it was after, with the same ids. Any other, and every one on PostgreSQL, is filled anew."""
    kept: list[_Kept] = []

    @wraps(fill)
    def filled(store: Store) -> T:
        file = sqlite_file(store.engine.url)
        if file is None:
            return fill(store)
        empty = _all_of(store, file)
        for each in kept:
            if each.empty == empty:
                file.write_bytes(each.filled)
                return _of(store, each.told)
        told = fill(store)
        kept.append(_Kept(empty, _all_of(store, file), told))
        return told

    return filled


def anew(fill: Callable[[Store], T]) -> Callable[[Store], T]:
    """The same, for a test that counts ids of its own: it fills every book."""
    return unwrap(fill)


def _all_of(store: Store, file: Path) -> bytes:
    """The last connection that is closed leaves nothing in the log beside the file."""
    store.close()
    assert not file.with_name(file.name + "-wal").exists()
    return file.read_bytes()


def _of(store: Store, told: Any) -> Any:
    """What was told of one book, told of another."""
    held = {each.name: getattr(told, each.name) for each in fields(told)}
    stores = {name: store for name, value in held.items() if isinstance(value, Store)}
    books = {
        name: _of(store, value)
        for name, value in held.items()
        if is_dataclass(value) and any(isinstance(getattr(value, each.name), Store) for each in fields(value))
    }
    return replace(told, **stores, **books)
