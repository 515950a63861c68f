"""The places of an area, looked up by words of their name and address."""

from __future__ import annotations

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.places import PlaceRow, places_of
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import digs as d


def test_a_place_is_found_by_words_of_its_name_and_address_within_the_scope(store: Store) -> None:
    book = m.opened(store)
    service, gone, wrong = d.place(book), d.place(book, house_number="2", called="the old bakery"), d.place(book)
    far = d.place(book, area=book.other_area)
    book.say(service, gone, wrong, far)
    book.say(d.retired(gone["id"]), m.void(wrong["id"]))
    area = read_id(book.area)

    def found(part: str, *, most: int = 9, scope: Scope = EVERYTHING) -> list[str]:
        with store.reading() as tx:
            return [row.house_number for row in places_of(scope, tx, area=area, part=part, most=most)]

    assert found("") == ["14", "2"]
    assert found("quarry 14") == ["14"]
    assert found("BAKERY") == ["2"]
    assert found("quarry lane 3") == []
    assert found("", most=1) == ["14"]
    assert found("", scope=Scope(areas=frozenset([read_id(book.other_area)]))) == []
    with store.reading() as tx:
        rows = places_of(EVERYTHING, tx, area=area, part="bakery", most=9)
    bakery = {"what": "service", "called": "the old bakery", "house_number": "2", "street": "Quarry Lane"}
    assert rows == [PlaceRow(id=read_id(gone["id"]), town="Harrowsedge", retired_on="2026-03-05", **bakery)]
