"""The closed list of what can be entered. A new kind is a file beside this one and its line here."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from repairlog.entries import (
    after,
    areas,
    attached,
    call,
    companies,
    dig,
    figures_kept,
    first_hour,
    instruments,
    leak,
    moved,
    note,
    operator,
    people,
    place,
    repair,
    righting,
    rules,
    set_aside,
    stores,
    tied,
    told,
    visit,
    work,
)
from repairlog.entries.fields import HAPPENED, HAPPENED_KNOWN, TYPED_FROM, EntryKind, Field, Rows, ref, text

DID = Rows(
    name="did",
    says="who did it",
    most=50,
    fields=(
        ref("person", "person", to="person"),
        text("named", "name, where the person is not on the books", longest=120),
    ),
    needs_one_of=("person", "named"),
)
"""Who did it: part of every entry, sealed with who typed and who sent it."""

KEPT_AS_TEXT = Rows(
    name="kept_as_text",
    says="measures that could not be read and that the person wants kept as written",
    fields=(text("field", "field, or list.key.field", longest=120, required=True),),
)


def _whole(kind: EntryKind) -> EntryKind:
    """The kind with what stands beside a day and beside a measure, wherever there is one."""
    if HAPPENED in kind.fields:
        kind = replace(kind, fields=(*kind.fields, HAPPENED_KNOWN, TYPED_FROM))
    every = [*kind.fields, *(field for rows in kind.rows for field in rows.fields)]
    if any(field.kind == "measure" for field in every):
        return replace(kind, rows=(*kind.rows, KEPT_AS_TEXT))
    return kind


_MODULES = (
    operator,
    areas,
    rules,
    companies,
    people,
    instruments,
    stores,
    call,
    leak,
    first_hour,
    visit,
    repair,
    after,
    work,
    told,
    note,
    set_aside,
    dig,
    place,
    tied,
    moved,
    attached,
    figures_kept,
    righting,
)

KINDS = MappingProxyType({kind.name: _whole(kind) for module in _MODULES for kind in module.KINDS})
"""Every kind of entry in its present version, by name."""

SUBJECT_KINDS = (
    "operator",
    "area",
    "company",
    "person",
    "crew",
    "instrument",
    "place",
    "shelf",
    "lot",
    "dig",
    "call",
    "source",
    "leak",
)
"""Every kind of subject that some entry opens, in the order in which every writer locks them: what others rest on
comes before what rests on it. Within a kind, by id."""

RIGHTING = ("corrected", "void")
"""The kinds that speak about another entry."""


def field_at(kind: EntryKind, path: str) -> Field | None:
    """The field at `name` or `list.key.name`; of `did`, too. None where the kind has no such field."""
    parts = path.split(".")
    if len(parts) == 1:
        return next((field for field in kind.fields if field.name == parts[0]), None)
    rows = rows_named(kind, parts[0])
    if rows is None or len(parts) != 3:
        return None
    return next((field for field in rows.fields if field.name == parts[2]), None)


def rows_named(kind: EntryKind, name: str) -> Rows | None:
    """The list of that name, `did` among them; None where the kind has none."""
    return next((rows for rows in (*kind.rows, DID) if rows.name == name), None)
