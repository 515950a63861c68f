"""The facts of one entry as it stands: its own table's row, the rows of its lists, who did it, what it opens."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from decimal import Decimal
from functools import lru_cache
from hashlib import sha256
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Row as SaidRow
from repairlog.entries.entry import Standing
from repairlog.entries.fields import HAPPENED_KNOWN, TYPED_FROM, Field
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import DID, KINDS
from repairlog.entries.moments import read_moment
from repairlog.records.tables import facts
from repairlog.records.tables.picture import Picture, add
from repairlog.records.tables.search_key import search_key
from repairlog.units import split_canonical


def entry_facts(entry: Standing) -> Picture:
    """Rows of the facts tables for one entry, corrections applied; a void entry keeps its rows.

    The rows of `entry` and `about` are not among them: they carry the place in the journal.
    """
    picture: Picture = {}
    kind = KINDS[entry.kind]
    add(picture, facts.OF_KIND[entry.kind], id=entry.id, **_own_row(entry))
    for rows in kind.rows:
        for row in entry.rows(rows.name):
            path = f"{rows.name}.{row['key']}."
            values = _values(entry, rows.fields, row, path=path)
            add(picture, facts.OF_ROWS[entry.kind, rows.name], entry_id=entry.id, key=row["key"], **values)
    for row in entry.by["did"]:
        values = _values(entry, DID.fields, row, path=f"did.{row['key']}.")
        add(picture, facts.WHO_DID, entry_id=entry.id, key=row["key"], **values)
    if kind.opens:
        add(
            picture,
            facts.SUBJECT,
            id=entry.id,
            kind=kind.opens,
            area_id=_id(entry.said, "area"),
            within_id=_id(entry.said, kind.folds_in),
        )
    if kind.opens in facts.NUMBERED and (street := street_as_row(entry.text("street"), entry.text("town"))):
        add(picture, facts.STREET, **street)
    return picture


def entry_index(entry: Standing, *, subject: UUID) -> Mapping[str, Any]:
    """The entry's row of the table `entry`. `subject`: in whose story it stands now."""
    understood = entry.understood
    return {
        "id": entry.id,
        "journal_index": entry.index,
        "kind": entry.kind,
        "subject_id": subject,
        "happened_on": date.fromisoformat(entry.on),
        "happened_at": _moment(understood.get("happened_at")),
        "happened_known": understood.get("happened_known"),
        "typed_from": entry.said.get("typed_from"),
        "zone": understood["zone"],
        "utc_offset": understood.get("utc_offset"),
        "written_at": _moment(entry.moments.get("written")),
        "received_at": _moment(entry.moments["received"]),
        "typed_by": read_id(entry.by["typed"]),
        "sent_by": read_id(entry.by["sent"]),
        "sure": entry.by["sure"],
        "corrected": bool(entry.corrected),
        "void": entry.void is not None,
    }


def _own_row(entry: Standing) -> dict[str, Any]:
    row = _values(entry, KINDS[entry.kind].fields, entry.said, path="")
    table = facts.OF_KIND[entry.kind]
    if "rank_understood" in table.c:
        row["rank_understood"] = entry.understood.get("rank")
    if "number_given" in table.c:
        row["number_given"] = entry.understood.get("number")
        row["street_id"] = street_of(entry)
    return row


def _values(entry: Standing, fields: tuple[Field, ...], said: SaidRow, *, path: str) -> dict[str, Any]:
    return {
        name: value
        for field in fields
        if field not in (HAPPENED_KNOWN, TYPED_FROM)
        for name, value in _columns(entry, field, said, path=path)
    }


def _columns(entry: Standing, field: Field, said: SaidRow, *, path: str) -> Iterator[tuple[str, Any]]:
    name, value = field.name, said.get(field.name)
    if field.private:
        yield f"{name}_digest", entry.private.get(path + name)
    elif field.kind in ("ref", "entry"):
        yield f"{name}_id", read_id(value) if value else None
    elif field.kind == "day":
        yield name, date.fromisoformat(value) if value else None
    else:
        yield name, value
    if field.kind == "measure":
        yield from _numbers(entry, field, entry.understood.get(path + name))
    if field.kind == "when" and name != "happened":
        on = entry.understood.get(f"{path}{name}_on")
        yield f"{name}_on", date.fromisoformat(on) if on else None
        yield f"{name}_at", _moment(entry.understood.get(f"{path}{name}_at"))


def _numbers(entry: Standing, field: Field, canonical: str | None) -> Iterator[tuple[str, float | None]]:
    """A measure as numbers, in the units that the columns' names say; nothing for what it is not."""
    endings = facts.NUMBER_COLUMNS[field.quantity]
    numbers: dict[str, float | None] = dict.fromkeys(endings)
    if canonical:
        read = split_canonical(canonical)
        value, ending = read.value, endings[0]
        if read.qualifier == "absolute":
            value -= split_canonical(entry.understood["atmosphere"]).value
        if field.quantity == "gas":
            ending = {"%gas": "percent_gas", "ppm": "ppm_co", "ppm-m": "ppm_m"}[read.unit]
        numbers[ending] = float(Decimal(value))
    for ending, number in numbers.items():
        yield f"{field.name}_{ending}", number


def street_of(opened: Standing) -> UUID | None:
    """The street of a leak or a call; None where its opening names none."""
    street = street_as_row(opened.text("street"), opened.text("town"))
    return street["id"] if street else None


@lru_cache(maxsize=4096)  # they lie in some thousand streets
def street_as_row(name: str, town: str) -> Mapping[str, Any] | None:
    """A street as a row: keyed by a digest of name and town, so that the same words are one street."""
    name, town = _as_one(name), _as_one(town)
    if not name:
        return None
    digest = sha256(f"{len(name)} {name} {town}".encode()).digest()
    return {"id": UUID(bytes=digest[:16]), "name": name, "town": town, "search_key": search_key(f"{name} {town}")}


def _as_one(name: str) -> str:
    return " ".join(name.upper().split())


def _id(said: Mapping[str, Any], name: str) -> UUID | None:
    return read_id(said[name]) if name and name in said else None


def _moment(text: str | None) -> datetime | None:
    return read_moment(text) if text else None
