"""A private value and the corrections that go by it: it is never in the journal, and never half there."""

import pytest

from repairlog.intake import NotUnderstood
from repairlog.records.store import Store
from tests.intake.lines import now
from tests.makers import book as m


@pytest.mark.parametrize(("of", "to"), [("reporter_name", "town"), ("town", "reporter_name")])
def test_a_value_is_said_again_where_its_correction_goes_from_a_private_field_to_another_or_back(
    sqlite_store: Store, of: str, to: str
) -> None:
    book = m.opened(sqlite_store)
    leak = m.leak(book, town="Harrowsedge")
    correction = m.corrected(leak["id"], (of, "Far End"))
    book.say(leak, correction)
    moved = ("changes.c1.field", to)
    with pytest.raises(NotUnderstood) as problem:
        book.say(m.corrected(correction["id"], moved))
    assert [(each.field, each.code) for each in problem.value.complaints] == [("changes.c1.to", "field_missing")]
    book.say(m.corrected(correction["id"], moved, ("changes.c1.to", "Far End")))
    stands = now(book.store, leak["id"])
    assert (stands.text("town"), "reporter_name" in stands.private) == (
        ("Far End", False) if to == "town" else ("Harrowsedge", True)
    )
