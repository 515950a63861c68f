"""The body of a call in JSON, read so that nothing in it is lost unsaid: its entries, and what the device says of its
own clock.

Source of the form: RFC 8259. What it leaves to the reader, a name that stands twice in one object, is complained of
here; a number that no field takes, where the field is read.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import orjson

from repairlog.entries.entry import Moments
from repairlog.entries.moments import read_moment
from repairlog.intake.complaint import Complaint, NotUnderstood
from repairlog.intake.said import Reading, shown
from repairlog.intake.when import EARLIEST_YEAR, LATEST_YEAR

AROUND = ("entries", "sent", "offset_ms")
"""The entries of a call, and what it may say beside them."""

DEEPEST = 16
"""Lists and objects inside each other; a call has five of them, and what is nested deeper is no entry."""

LONGEST_WHOLE = 18
"""Digits of a whole number at the most, its sign among them."""

Twice = Sequence[tuple[Mapping[str, Any], str]]
"""Objects in which a name stands twice, with that name."""


class Unreadable(Exception):
    """The body is no JSON. `line`, `column`: where it ends to be, from 1."""

    code = "json_unreadable"

    def __init__(self, *, line: int, column: int) -> None:
        super().__init__(f"line {line}, column {column}")
        self.line = line
        self.column = column


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """`entries`: raw, as they came. `sent`, `offset_ms`: the device's own clock, None where it says nothing."""

    entries: Sequence[object]
    sent: datetime | None = None
    offset_ms: int | None = None

    def moments(self, received: datetime) -> Moments:
        """When it came in, with what the device says."""
        return Moments(received=received, sent=self.sent, offset_ms=self.offset_ms)


def read_call(body: bytes) -> Call:
    """One entry, a list of entries, or an object with `entries` beside `sent` and `offset_ms`.

    Raises Unreadable where it is no JSON, NotUnderstood where it is JSON and no call.
    """
    raw, twice = _parsed(body)
    around = (
        raw if isinstance(raw, dict) and "kind" not in raw else {"entries": raw if isinstance(raw, list) else [raw]}
    )
    reading, entries = Reading(0), around.get("entries")
    for name in around.keys() - {*AROUND}:
        reading.complain(shown(name), "field_unknown", would_have=list(AROUND))
    for name in (name for each, name in twice if each is around):
        reading.complain(shown(name), "field_twice", got=shown(name))
    if not isinstance(entries, list):
        reading.complain("entries", "not_a_call")
        entries = []
    call = Call(entries=entries, sent=_sent(around, reading), offset_ms=_offset_ms(around, reading))
    if complaints := [*reading.complaints, *_of_entries(entries, twice)]:
        raise NotUnderstood(complaints)
    return call


def _parsed(body: bytes) -> tuple[Any, Twice]:
    text = _text(body)
    try:
        read = orjson.loads(text)  # strict, and says where; of a name that stands twice it keeps the last unsaid
    except orjson.JSONDecodeError as error:
        raise Unreadable(line=error.lineno, column=error.colno) from None
    if _is_too_deep(read):
        raise Unreadable(line=1, column=1)
    twice: list[tuple[dict[str, Any], str]] = []

    def made(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        value = dict(pairs)
        if len(value) < len(pairs):
            twice.extend((value, name) for name, count in Counter(name for name, _ in pairs).items() if count > 1)
        return value

    return json.loads(text, object_pairs_hook=made, parse_int=_whole), twice


def _text(body: bytes) -> str:
    try:
        return body.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode()
        raise Unreadable(line=before.count("\n") + 1, column=len(before) - before.rfind("\n")) from None


def _whole(text: str) -> int | float:
    """A longer number comes as no whole number, which no field takes, so that its field complains of it."""
    return int(text) if len(text) <= LONGEST_WHOLE else float(text)


def _is_too_deep(value: object) -> bool:
    level = [value]
    for _ in range(DEEPEST):
        level = [inner for each in level for _name, inner in _inside(each)]
    return bool(level)


def _inside(value: object) -> Sequence[tuple[str, object]]:
    """What stands in an object by its name, in a list by the row's key or else its place."""
    if isinstance(value, dict):
        return list(value.items())
    if not isinstance(value, list):
        return ()
    keys = [row.get("key", place) if isinstance(row, dict) else place for place, row in enumerate(value)]
    return [(shown(key), row) for key, row in zip(keys, value, strict=True)]


def _of_entries(entries: Sequence[object], twice: Twice) -> Iterator[Complaint]:
    for place, entry in enumerate(entries if twice else ()):
        reading = Reading(place)
        for path in _twice_in(entry, twice):
            reading.complain(path, "field_twice", got=path.rpartition(".")[2])
        yield from reading.complaints


def _twice_in(value: object, twice: Twice, path: str = "") -> Iterator[str]:
    """Where in an entry a name stands twice, as complaints tell it: `name`, `list.key.name`."""
    yield from (path + shown(name) for each, name in twice if each is value)
    for name, inner in _inside(value):
        yield from _twice_in(inner, twice, f"{path}{shown(name)}.")


def _sent(around: Mapping[str, Any], reading: Reading) -> datetime | None:
    if (said := around.get("sent")) is None or said == "":
        return None
    try:
        sent = read_moment(said if isinstance(said, str) else "")
    except ValueError:
        reading.complain("sent", "not_a_moment", got=shown(said))
        return None
    if not EARLIEST_YEAR <= sent.year <= LATEST_YEAR:
        reading.complain("sent", "year_out_of_range", got=said, least=str(EARLIEST_YEAR), most=str(LATEST_YEAR))
    return sent


def _offset_ms(around: Mapping[str, Any], reading: Reading) -> int | None:
    said = around.get("offset_ms")
    if said is None or (isinstance(said, int) and not isinstance(said, bool)):
        return said
    reading.complain("offset_ms", "not_a_whole_number", got=shown(said))
    return None
