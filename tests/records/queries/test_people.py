"""People are chosen from those who may have worked in the area."""

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.people import people_of
from repairlog.records.store import Store
from tests.makers import book as m


def names(book: m.Book, area: str, scope: Scope = EVERYTHING) -> list[str]:
    with book.store.reading() as tx:
        return [each.name for each in people_of(scope, tx, area=read_id(area))]


def test_people_of_the_area_of_every_area_and_without_a_role_are_offered(store: Store) -> None:
    book = m.opened(store)
    helper = {"kind": "person_added", "id": m.new_id(), "name": "A. Helper", "happened": "2026-01-05"}
    gone = {"kind": "person_added", "id": m.new_id(), "name": "B. Gone", "happened": "2026-01-05"}
    book.say(helper, gone)
    book.say(m.void(gone["id"]))
    here, there = names(book, book.area), names(book, book.other_area)
    assert here == ["A. Helper", "D. Okoro", "M. Aldous", "P. Lindqvist", "R. Tolland"]
    assert there == ["A. Helper", "P. Lindqvist", "R. Tolland"]


def test_people_of_an_area_outside_the_scope_are_not_told(sqlite_store: Store) -> None:
    book = m.opened(sqlite_store)
    assert names(book, book.area, Scope(areas=frozenset([read_id(book.other_area)]))) == []
