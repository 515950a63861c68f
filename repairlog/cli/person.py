"""The person that a command is about: on the books, by name or by id."""

from __future__ import annotations

import unicodedata

from repairlog.access import EVERYTHING
from repairlog.entries.ids import as_id
from repairlog.records.beside.sign_ins import can_be_a_name
from repairlog.records.queries.people import PersonRow, people_named, people_with
from repairlog.records.store import Store


class PersonUnknown(Exception):
    """Nobody on the books is meant by it. `facts`: what was `got`."""

    code = "person_unknown"

    def __init__(self, got: str) -> None:
        super().__init__(got)
        self.facts = {"got": got}


class PersonUnclear(Exception):
    """Several people on the books have that name. `facts`: what was `got`, and who they are (`would_have`)."""

    code = "person_unclear"

    def __init__(self, got: str, people: list[PersonRow]) -> None:
        super().__init__(got)
        self.facts = {"got": got, "would_have": "; ".join(map(_told_apart, people))}


def person_meant(store: Store, got: str) -> PersonRow:
    """The person of that name or id. Raises PersonUnknown and PersonUnclear."""
    name = unicodedata.normalize("NFC", " ".join(got.split()))
    if not can_be_a_name(name):
        raise PersonUnknown(got.encode(errors="replace").decode())
    with store.reading() as tx:
        if (id := as_id(name)) is not None:
            found = people_with(EVERYTHING, tx, ids=[id])
        else:
            found = people_named(EVERYTHING, tx, named=name)
    if not found:
        raise PersonUnknown(got)
    if len(found) > 1:
        raise PersonUnclear(got, found)
    return found[0]


def _told_apart(person: PersonRow) -> str:
    return ", ".join(filter(None, (str(person.id), person.company, person.staff_number)))
