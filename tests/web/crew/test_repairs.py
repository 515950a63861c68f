"""A crew logs a repair on one page: the attempt, its lots, its people and its test, all or none."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from repairlog.records.tables.facts import OF_KIND, OF_ROWS
from repairlog.records.tables.metadata import METADATA
from tests.makers import book as m
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.site import site


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


@pytest.fixture
def leak(book: m.Book) -> str:
    opened = m.leak(book)
    book.say(opened)
    return str(opened["id"])


def address(leak: str) -> str:
    return f"/leaks/{leak}/repair"


def rows_of(book: m.Book, table: str) -> list[Any]:
    with book.store.reading() as tx:
        return list(tx.connection.execute(select(METADATA.tables[table])))


TYPED: dict[str, str | list[str]] = {
    "repair__happened": ["2026-03-05", "10:02"],
    "repair__lasting": "permanent",
    "repair__method": "bolt-on clamp",
    "repair__cause": "corrosion_failure",
    "repair__hole_size": "1/16 in",
    "repair__pressure_found": "45 psi",
    "repair__pressure_installing": "20 psi",
    "repair__pressure_restored": "45 psi",
    "repair__outcome": "tight",
    "repair__remarks": "cut back to sound pipe",
}


def test_a_repair_with_its_lots_people_and_test_is_one_call(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    page = form_page(crew.get(address(leak)))
    saved = press_on(
        crew,
        address(leak),
        page,
        **TYPED,
        repair__materials__0__named="w-0118",
        repair__materials__0__used="2 rolls",
        repair__people__0__person=str(book.crew.person),
        repair__people__0__task="install clamp",
        test__kind_of_test="soap",
        test__result="tight",
        test__pressure="45 psi",
    )
    assert (saved.status_code, saved.location.rpartition("=")[2]) == (303, page.boxes["repair-id"][0])
    (attempt,), (test,) = rows_of(book, "repair_attempted"), rows_of(book, "tested")
    assert (attempt.method, attempt.hole_size_mm, round(attempt.pressure_found_kpa_gauge)) == (
        "bolt-on clamp",
        1.5875,
        310,
    )
    assert (test.attempt_id, test.kind_of_test, test.result, test.happened) == (
        attempt.id,
        "soap",
        "tight",
        "2026-03-05 10:02",
    )
    assert [(row.lot_id, row.named, row.used) for row in rows_of(book, "repair_attempted_materials")] == [
        (m.read_id(book.lot), None, "2 rolls")
    ]
    assert [(row.person_id, row.task) for row in rows_of(book, "repair_attempted_people")] == [
        (book.crew.person, "install clamp")
    ]
    assert [row.review for row in rows_of(book, "attempt")] == ["waiting"]
