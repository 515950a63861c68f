"""Facts: what the entries say, corrections applied. One table a kind of entry, made from the fields it declares."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sqlalchemy import BigInteger, Boolean, Column, Date, Double, Index, Table, Text, UniqueConstraint, text

from repairlog.entries.fields import HAPPENED_KNOWN, TYPED_FROM, EntryKind, Field
from repairlog.entries.kinds import DID, KINDS
from repairlog.records.columns import Id, Moment
from repairlog.records.tables.metadata import table

NUMBER_COLUMNS = {
    "pressure": ("kpa_gauge",),
    "hole": ("mm",),
    "distance": ("m",),
    "elevation": ("m",),
    "temperature": ("degc",),
    "duration": ("s",),
    "area": ("m2",),
    "gas": ("percent_gas", "ppm_co", "ppm_m"),
}
"""Endings of the columns that hold a measure's number, by quantity: each carries its unit in its name."""

_OF_OPERATOR = text("kind = 'operator'")

SUBJECT = table(
    "subject",
    "facts",
    Column("id", Id, primary_key=True, comment="the id of the entry that opened it"),
    Column("kind", Text, nullable=False, comment="what it is: leak, lot, person"),
    Column("area_id", Id, comment="the operating area it was opened in; none for the operator and for people"),
    Column("within_id", Id, comment="the leak of a source"),
    Index(None, "kind", "area_id"),
    Index("one_operator", "kind", unique=True, sqlite_where=_OF_OPERATOR, postgresql_where=_OF_OPERATOR),
    comment="what records are about; locked by every post that folds or rests on it",
)

ENTRY = table(
    "entry",
    "facts",
    Column("id", Id, primary_key=True, comment="the entry's id"),
    Column("journal_index", BigInteger, nullable=False, comment="its place in the journal"),
    Column("kind", Text, nullable=False, comment="its kind"),
    Column("subject_id", Id, nullable=False, comment="the subject in whose story it stands"),
    Column("happened_on", Date, nullable=False, comment="legal day in the area's zone"),
    Column("happened_at", Moment, comment="moment; none where only the day is known"),
    Column("happened_known", Text, comment="on_or_before where an old list gives no day"),
    Column("typed_from", Text, comment="paper where it was written there first"),
    Column("zone", Text, nullable=False, comment="zone of the legal day"),
    Column("utc_offset", Text, comment="offset then in force, where the hour is known"),
    Column("written_at", Moment, comment="by the device's clock"),
    Column("received_at", Moment, nullable=False, comment="by the server's clock"),
    Column("typed_by", Id, nullable=False, comment="who typed it"),
    Column("sent_by", Id, nullable=False, comment="whose credential sent it"),
    Column("sure", Text, nullable=False, comment="how sure we are of the sender: password, token, import, system"),
    Column("corrected", Boolean, nullable=False, comment="some correction of it counts"),
    Column("void", Boolean, nullable=False, comment="it was made void"),
    UniqueConstraint("journal_index"),
    Index(None, "subject_id", "happened_on"),
    comment="the index of entries: the Sheet and the lists read it, never the journal's own columns",
)

ABOUT = table(
    "about",
    "facts",
    Column("entry_id", Id, primary_key=True, comment="the entry"),
    Column("subject_id", Id, primary_key=True, comment="a subject it names"),
    Column("as_what", Text, primary_key=True, comment="as what: opens, leak, materials.lot, rights"),
    Index(None, "subject_id", "as_what", "entry_id"),
    comment="ties an entry to every subject it names",
)

STREET = table(
    "street",
    "facts",
    Column("id", Id, primary_key=True, comment="digest of name and town"),
    Column("name", Text, nullable=False, comment="as first written, by digest the same"),
    Column("town", Text, nullable=False, comment="town; empty where none was given"),
    Column("search_key", Text, nullable=False, comment="name and town as they are looked up"),
    Index(None, "search_key"),
    comment="streets that an entry names, so that a part of a name is looked up among thousands, not millions",
)


NUMBERED = ("leak", "call")
"""Kinds of subjects that the door gives a number, and that lie in a street."""


def _columns_of(field: Field) -> Iterator[Column[Any]]:
    if field in (HAPPENED_KNOWN, TYPED_FROM):
        return  # a column of `entry`
    if field.private:
        yield Column(f"{field.name}_digest", Text, comment=f"{field.says}: salted digest; the value stands beside")
    elif field.kind in ("ref", "entry"):
        yield Column(f"{field.name}_id", Id, comment=field.says)
    elif field.kind == "day":
        yield Column(field.name, Date, comment=field.says)
    elif field.kind == "whole":
        yield Column(field.name, BigInteger, comment=field.says)
    else:
        yield Column(field.name, Text, comment=f"{field.says}, as typed")
    if field.kind == "measure":
        for ending in NUMBER_COLUMNS[field.quantity]:
            yield Column(f"{field.name}_{ending}", Double, comment=f"{field.says}, in the unit of this column's name")
    if field.kind == "when" and field.name != "happened":
        yield Column(f"{field.name}_on", Date, comment=f"{field.says}: legal day")
        yield Column(f"{field.name}_at", Moment, comment=f"{field.says}: moment, where the hour is known")


def _key() -> list[Column[Any]]:
    return [Column("entry_id", Id, primary_key=True), Column("key", Text, primary_key=True, comment="the row's key")]


def _table_of(kind: EntryKind) -> Table:
    columns = [column for field in kind.fields for column in _columns_of(field)]
    if any(field.name == "grade" for field in kind.fields):
        columns.append(Column("rank_understood", BigInteger, comment="rank of the grade, as understood"))
    if kind.opens in NUMBERED:
        columns.append(Column("number_given", Text, comment="number given by the door"))
        columns.append(Column("street_id", Id, comment="the street"))
    return table(
        kind.name, "facts", Column("id", Id, primary_key=True, comment="the entry"), *columns, comment=kind.says
    )


OF_KIND = {name: _table_of(kind) for name, kind in KINDS.items()}
"""The facts table of each kind of entry."""

OF_ROWS = {
    (name, rows.name): table(
        f"{name}_{rows.name}",
        "facts",
        *_key(),
        *(column for field in rows.fields for column in _columns_of(field)),
        comment=f"{kind.says}: {rows.says}",
    )
    for name, kind in KINDS.items()
    for rows in kind.rows
}
"""The facts table of each list of each kind of entry."""

Index(None, OF_KIND["attached"].c.digest)

WHO_DID = table(
    "did",
    "facts",
    *_key(),
    *(column for field in DID.fields for column in _columns_of(field)),
    comment="who did what an entry says",
)
