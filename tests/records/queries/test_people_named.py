"""People by name or id: all of one name, those alone whom the asker may see, and nobody who was added in error."""

from typing import Any

from repairlog.access import EVERYTHING, NOTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.people import PersonRow, people_named, people_with
from repairlog.records.store import Store
from tests.makers import book as m


def person(**fields: Any) -> dict[str, Any]:
    return {"kind": "person_added", "id": m.new_id(), "name": "M. Aldous", "happened": "2026-01-02"} | fields


def test_everybody_of_a_name_is_found_with_what_tells_them_apart(store: Store) -> None:
    book, other = m.opened(store), person(name="m. aldous", company="Fenwick Trenching", staff_number="77")
    book.say(other)
    with store.reading() as tx:
        found = people_named(EVERYTHING, tx, named="M. ALDOUS")
    theirs = PersonRow(id=read_id(other["id"]), name="m. aldous", company="Fenwick Trenching", staff_number="77")
    assert sorted(found, key=lambda row: row.company) == [PersonRow(id=book.crew.person, name="M. Aldous"), theirs]


def test_a_part_of_a_name_is_nobody_s(store: Store) -> None:
    m.opened(store)
    with store.reading() as tx:
        assert people_named(EVERYTHING, tx, named="Aldous") == []
        assert people_named(EVERYTHING, tx, named="%") == []


def test_who_was_added_in_error_is_not_found(store: Store) -> None:
    book, other = m.opened(store), person(name="Nobody")
    book.say(other)
    book.say(m.void(other["id"]))
    with store.reading() as tx:
        assert people_named(EVERYTHING, tx, named="Nobody") == []
        assert people_with(EVERYTHING, tx, ids=[read_id(other["id"])]) == []


def test_a_scope_of_areas_sees_those_who_have_a_role_there_or_everywhere(store: Store) -> None:
    book = m.opened(store)
    every = [each.person for each in (book.crew, book.officer)]
    scopes = {"here": book.area, "elsewhere": book.other_area}
    with store.reading() as tx:
        seen = {
            where: {row.name for row in people_with(Scope(areas=frozenset({read_id(id)})), tx, ids=every)}
            for where, id in scopes.items()
        }
        nobody = people_with(NOTHING, tx, ids=every)
    assert (seen, nobody) == ({"here": {"M. Aldous", "P. Lindqvist"}, "elsewhere": {"P. Lindqvist"}}, [])
