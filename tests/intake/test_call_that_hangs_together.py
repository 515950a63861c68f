"""An entry of a call that hangs on another of the same call, which could not be read."""

import pytest

from repairlog.intake import NotUnderstood
from repairlog.records.tables import beside
from tests.makers import book
from tests.makers.copies import rows


def test_what_speaks_about_an_entry_of_the_call_that_could_not_be_read_does_not_wait_for_it(sqlite_store):
    """It would wait for its own call for ever; the complaint about the entry is what the person must hear."""
    open_book = book.opened(sqlite_store)
    leak = book.leak(open_book, happened="2026-02-30")
    with pytest.raises(NotUnderstood) as problem:
        open_book.say(leak, book.corrected(leak["id"], ("street", "Mill Lane")), book.visit(leak["id"]))
    assert [(c.entry, c.field, c.code) for c in problem.value.complaints] == [(0, "happened", "no_such_day")]
    assert [row["because"] for row in rows(sqlite_store, beside.UNFINISHED)] == ["not_understood"]
