"""What an entry names: the subject in whose story it stands, the entry that it puts right, and all the others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Row
from repairlog.entries.fields import FieldKind
from repairlog.entries.ids import as_id, read_id
from repairlog.entries.kinds import DID, KINDS, RIGHTING


def target_of(said: Mapping[str, Any]) -> UUID | None:
    """The entry that a correction or a void speaks about; None for every other kind."""
    return read_id(said["entry"]) if said["kind"] in RIGHTING else None


def own_subject(said: Mapping[str, Any]) -> UUID:
    """The subject in whose story an entry that puts no other right stands: one that it names, or that it opens."""
    return read_id(said[KINDS[said["kind"]].folds_in or "id"])


def named_subjects(said: Mapping[str, Any], did: Sequence[Row] = ()) -> list[tuple[UUID, str]]:
    """Every subject that an entry names with what it is named as: `leak`, `materials.lot`, `did.person`.

    A subject that the entry opens stands first, as `opens`.
    """
    kind = said["kind"]
    named = [(read_id(said["id"]), "opens")] if KINDS[kind].opens else []
    for of, name in _fields_of(kind, "ref"):
        if not of:
            named += [(read_id(said[name]), name)] if name in said else []
        else:
            rows = did if of == DID.name else said.get(of, ())
            named += [(read_id(row[name]), f"{of}.{name}") for row in rows if name in row]
    return list(dict.fromkeys(named))


def named_entries(said: Mapping[str, Any]) -> set[UUID]:
    """Every earlier entry that an entry names, but for the one that it puts right."""
    if target_of(said) is not None:
        return set()
    fields = _fields_of(said["kind"], "entry")
    return {read_id(row[name]) for of, name in fields for row in (said.get(of, ()) if of else [said]) if name in row}


def ids_brought(said: Mapping[str, Any]) -> set[UUID]:
    """Every id among a correction's new values: any of them may be a subject that it names anew."""
    return {id for change in said.get("changes", ()) if (id := as_id(change.get("to")))}


@cache
def _fields_of(kind: str, holding: FieldKind) -> tuple[tuple[str, str], ...]:
    """The fields of a kind that hold such a thing, each with the list it stands in; without one for its own."""
    own = [("", each) for each in KINDS[kind].fields]
    rows = [(of.name, each) for of in (*KINDS[kind].rows, DID) for each in of.fields]
    return tuple((of, each.name) for of, each in (*own, *rows) if each.kind == holding)
