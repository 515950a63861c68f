"""Two names of one street: the filter by a street finds the leaks under both."""

from __future__ import annotations

from repairlog.access import EVERYTHING
from repairlog.records.queries.leaks import Wanted, leaks
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import digs as d


def found(store: Store, part: str) -> list[str]:
    with store.reading() as tx:
        streets = tuple(streets_named(EVERYTHING, tx, part=part))
        rows = leaks(EVERYTHING, tx, where=Wanted(streets=streets), beyond=None, most=9)
    return sorted(row.street for row in rows)


def test_a_street_is_found_under_either_of_its_names_until_that_is_made_void(store: Store) -> None:
    book = m.opened(store)
    names = [("Quarry Lane", "Harrowsedge"), ("Quarry Ln", "Harrowsedge"), ("Old Pit Road", "Harrowsedge")]
    book.say(*(m.leak(book, street=name, town=town) for name, town in names), m.leak(book, street="Mill Lane"))
    assert found(store, "quarry ln") == ["Quarry Ln"]
    first, second = d.streets(book.area, names[0], names[1]), d.streets(book.area, names[1], names[2])
    book.say(first, second)
    assert [found(store, part) for part in ("quarry lane", "quarry ln", "old pit")] == [
        ["Old Pit Road", "Quarry Lane", "Quarry Ln"]
    ] * 3
    assert found(store, "mill") == ["Mill Lane"]
    book.say(m.void(first["id"]))
    assert found(store, "quarry lane") == ["Quarry Lane"]
    assert found(store, "quarry ln") == ["Old Pit Road", "Quarry Ln"]


def test_the_name_that_is_kept_finds_leaks_though_none_bears_it(store: Store) -> None:
    book = m.opened(store)
    written = ("Quary Lane", "Harrowsedge")
    book.say(m.leak(book, street=written[0], town=written[1]))
    book.say(d.streets(book.area, ("Quarry Lane", "Harrowsedge"), written))
    assert found(store, "quarry harrowsedge") == ["Quary Lane"]
