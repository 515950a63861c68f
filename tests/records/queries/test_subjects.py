"""Subjects as far as somebody sees them: in their areas, and those areas themselves."""

from __future__ import annotations

import pytest

from repairlog.access import EVERYTHING, NOTHING, Scope
from repairlog.records.queries.settings import SubjectRow, subjects
from repairlog.records.store import Store
from tests.makers import book as m


@pytest.fixture
def known(store: Store) -> tuple[m.Book, dict[str, SubjectRow]]:
    """A book with a leak and its source, and what is to be told of its subjects, by name."""
    book = m.opened(store)
    leak = m.leak(book)
    source = m.source(leak["id"])
    book.say(leak, source)
    area = m.read_id(book.area)
    ids = {
        "operator": (book.operator, "operator", None),
        "area": (book.area, "area", None),
        "other area": (book.other_area, "area", None),
        "person": (str(book.crew.person), "person", None),
        "lot": (book.lot, "lot", area),
        "leak": (leak["id"], "leak", area),
        "source": (source["id"], "source", area),
    }
    rows = {name: SubjectRow(id=m.read_id(id), kind=kind, area=area) for name, (id, kind, area) in ids.items()}
    return book, rows


@pytest.mark.parametrize(
    ("who", "sees"),
    [
        ("nobody", set()),
        ("of the area", {"area", "lot", "leak", "source"}),
        ("of the other area", {"other area"}),
        ("of every area", {"operator", "area", "other area", "person", "lot", "leak", "source"}),
    ],
)
def test_a_subject_is_seen_in_its_area_and_an_area_in_itself(
    known: tuple[m.Book, dict[str, SubjectRow]], who: str, sees: set[str]
) -> None:
    book, rows = known
    scopes = {
        "nobody": NOTHING,
        "of the area": Scope(areas=frozenset({m.read_id(book.area)})),
        "of the other area": Scope(areas=frozenset({m.read_id(book.other_area)})),
        "of every area": EVERYTHING,
    }
    with book.store.reading() as tx:
        found = subjects(scopes[who], tx, ids=[row.id for row in rows.values()])
    assert {row.id: row for row in found} == {rows[name].id: rows[name] for name in sees}
