"""Every question to the book takes the asker's scope first, and who may see nothing is told nothing."""

import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from datetime import UTC, date, datetime
from typing import Any

import pytest

from repairlog.access import NOTHING
from repairlog.records import queries
from repairlog.records.queries.calls import WantedCalls
from repairlog.records.queries.companies import WantedCompanies
from repairlog.records.queries.digs_listed import WantedDigs
from repairlog.records.queries.due import WantedDue
from repairlog.records.queries.gaps import WantedGaps
from repairlog.records.queries.instruments_listed import WantedInstruments
from repairlog.records.queries.leaks import Wanted
from repairlog.records.queries.looked_at import WantedLooks
from repairlog.records.queries.people_listed import WantedPeople
from repairlog.records.queries.places_listed import WantedPlaces
from repairlog.records.queries.work import WantedWork
from repairlog.records.store import Store
from tests.makers import book as m

A_DAY = {"on": date(2026, 3, 5), "soon_until": date(2026, 3, 5)}
ASKED = {
    "WantedCompanies": WantedCompanies(on=date(2026, 3, 5)),
    "WantedGaps": WantedGaps(),
    "WantedPlaces": WantedPlaces(),
    "WantedPeople": WantedPeople(**A_DAY),
    "WantedInstruments": WantedInstruments(**A_DAY),
}
"""What is asked for, by what a question takes."""


def questions() -> Iterator[Any]:
    for module in pkgutil.iter_modules(queries.__path__, f"{queries.__name__}."):
        for name, function in inspect.getmembers(importlib.import_module(module.name), inspect.isfunction):
            if function.__module__ == module.name and not name.startswith("_"):
                yield pytest.param(function, id=f"{module.name.rpartition('.')[2]}.{name}")


def _argument(parameter: inspect.Parameter, book: m.Book, tx: Any) -> Any:
    return {
        "scope": NOTHING,
        "tx": tx,
        "ids": [m.read_id(book.area), m.read_id(book.lot)],
        "area": m.read_id(book.area),
        "leak": m.read_id(book.area),
        "leaks": [m.read_id(book.area)],
        "days": {m.read_id(book.area): date(2026, 3, 4)},
        "numbers": ["W-0118"],
        "digests": ["0" * 64],
        "digest": m.PRACTICE,
        "named": "M. Aldous",
        "number": "ES-26",
        "part": "lane",
        "text": "truck",
        "where": Wanted(),
        "digging": WantedDigs(),
        "giving": WantedWork(),
        "wanted": WantedCalls(),
        "call": m.read_id(book.area),
        "company": m.read_id(book.area),
        "names": ["Dale Pipe Co"],
        "beyond": None,
        "asked": ASKED.get(str(parameter.annotation)),
        "after": None,
        "instrument": m.read_id(book.area),
        "shelf": m.read_id(book.area),
        "looked": WantedLooks(),
        "id": m.read_id(book.area),
        "kind": "person",
        "owing": WantedDue(),
        "person": book.crew.person,
        "people": [book.crew.person],
        "instruments": [m.read_id(book.area)],
        "on": date(2026, 3, 5),
        "at": datetime(2026, 3, 5, tzinfo=UTC),
        "since": datetime(2026, 3, 5, tzinfo=UTC),
        "most": 50,
    }[parameter.name]


@pytest.mark.parametrize("question", list(questions()))
def test_a_question_takes_the_scope_first_and_an_empty_scope_is_told_nothing(
    question: Any, sqlite_store: Store
) -> None:
    book = m.opened(sqlite_store)
    parameters = list(inspect.signature(question).parameters.values())
    assert parameters[0].name == "scope"
    with sqlite_store.reading() as tx:
        unnamed = [each for each in parameters if each.kind is not each.KEYWORD_ONLY]
        named = {each.name: _argument(each, book, tx) for each in parameters if each.kind is each.KEYWORD_ONLY}
        answer = question(*(_argument(each, book, tx) for each in unnamed), **named)
    assert not answer
