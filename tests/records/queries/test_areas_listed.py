"""Who has a role in an area on a day, and how far it has counted."""

from datetime import date

import pytest

from repairlog.access import EVERYTHING
from repairlog.records.queries.areas_listed import Counted, HolderRow, counted, holders
from repairlog.records.store import Store
from tests.makers import book as m


def held(book: m.Book, on: str) -> list[HolderRow]:
    with book.store.reading() as tx:
        return holders(EVERYTHING, tx, area=m.read_id(book.area), on=date.fromisoformat(on))


@pytest.mark.parametrize(
    ("on", "there"),
    [
        ("2026-03-01", False),
        ("2026-03-02", True),
        ("2026-03-03", True),
        ("2026-03-30", True),
        ("2026-03-31", True),
        ("2026-04-01", False),
    ],
)
def test_whoever_has_a_role_there_has_it_from_its_first_day_to_its_last(
    sqlite_store: Store, on: str, there: bool
) -> None:
    book = m.opened(sqlite_store)
    helper = m.person("A. Helm")
    book.say(helper, m.role_given(helper["id"], area=book.area, until_on="2026-03-31"))
    found = [row for row in held(book, on) if row.name == "A. Helm"]
    expected = HolderRow(
        person=m.read_id(helper["id"]), name="A. Helm", role="crew", every_area=False, until_on="2026-03-31"
    )
    assert found == ([expected] if there else [])


def test_holders_come_by_role_and_name_and_neither_from_elsewhere_nor_who_was_added_in_error(
    sqlite_store: Store,
) -> None:
    book = m.opened(sqlite_store)
    first, wrong, elsewhere, everywhere = (m.person(name) for name in ("A. Helm", "In Error", "E. Lund", "B. Ives"))
    roles = [m.role_given(each["id"], area=book.area) for each in (first, wrong)]
    roles += [m.role_given(elsewhere["id"], area=book.other_area), m.role_given(everywhere["id"])]
    book.say(first, wrong, elsewhere, everywhere, *roles)
    book.say(m.void(wrong["id"]))
    assert [(row.role, row.name, row.every_area) for row in held(book, "2026-03-05")] == [
        ("administrator", "R. Tolland", True),
        ("crew", "A. Helm", False),
        ("crew", "B. Ives", True),
        ("crew", "M. Aldous", False),
        ("officer", "P. Lindqvist", True),
        ("supervisor", "D. Okoro", False),
    ]


def test_an_area_has_counted_its_leaks_and_calls_by_year_the_last_first(sqlite_store: Store) -> None:
    book = m.opened(sqlite_store)
    book.say(m.leak(book), m.leak(book), m.leak(book, happened="2025-11-02"), m.leak(book, area=book.other_area))
    with book.store.reading() as tx:
        found = counted(EVERYTHING, tx, area=m.read_id(book.area))
    assert found == [Counted(year=2026, leaks=2, calls=0), Counted(year=2025, leaks=1, calls=0)]
