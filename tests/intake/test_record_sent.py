"""What several senders brought at several moments goes through the door in one call, and each stands by their own."""

from datetime import timedelta

import pytest

from repairlog.access import Refused
from repairlog.entries.entry import Moments
from repairlog.intake import NotUnderstood
from repairlog.intake.record import record_sent
from repairlog.records.post import Conflict, Sent
from tests.intake.lines import sealed
from tests.makers import book
from tests.makers.copies import copy_of

EARLY = Moments(received=book.RECEIVED, sent=book.RECEIVED + timedelta(seconds=2))
LATE = Moments(received=book.RECEIVED + timedelta(hours=3))


def of(book, *roles):
    """Senders of these roles: the crew early, everybody else late."""
    return [Sent(actor=getattr(book, role), moments=EARLY if role == "crew" else LATE) for role in roles]


def test_each_line_is_sealed_with_its_own_sender_and_moments(sqlite_book):
    leak = book.leak(sqlite_book)
    call = [leak, book.grade(leak["id"]), book.note(leak["id"])]
    receipts = record_sent(sqlite_book.store, call, sent=of(sqlite_book, "crew", "crew", "supervisor"))
    lines = [sealed(sqlite_book.store, entry["id"]) for entry in call]
    first, crew, supervisor = receipts[0].index, str(sqlite_book.crew.person), str(sqlite_book.supervisor.person)
    by_crew = {"received": "2026-03-05T15:20:12.480Z", "sent": "2026-03-05T15:20:14.480Z", "offset_ms": 2000}
    assert [(line["index"], line["by"]["sent"], line["moments"]) for line in lines] == [
        (first, crew, by_crew),
        (first + 1, crew, by_crew),
        (first + 2, supervisor, {"received": "2026-03-05T18:20:12.480Z"}),
    ]


def test_each_entry_is_judged_by_the_rights_of_its_own_sender_and_one_refused_takes_all_back(sqlite_book):
    leak = book.leak(sqlite_book)
    source = book.source(leak["id"])
    attempt = book.attempt(leak["id"], source=source["id"])
    call = [leak, source, attempt, book.review(leak["id"], attempt["id"])]
    before = copy_of(sqlite_book.store)
    with pytest.raises(Refused) as refused:
        record_sent(sqlite_book.store, call, sent=of(sqlite_book, "supervisor", "supervisor", "supervisor", "crew"))
    assert (refused.value.position, refused.value.kind) == (3, "repair_reviewed")
    assert copy_of(sqlite_book.store) == before
    receipts = record_sent(sqlite_book.store, call, sent=of(sqlite_book, "crew", "crew", "crew", "supervisor"))
    assert [receipt.new for receipt in receipts] == [True] * 4


def test_a_crew_puts_right_in_the_same_call_what_it_typed_itself_but_not_the_supervisors(sqlite_book):
    leak = book.leak(sqlite_book)
    call = [leak, book.note(leak["id"]), book.corrected(leak["id"], ("house_number", "16"))]
    with pytest.raises(Refused) as refused:
        record_sent(sqlite_book.store, call, sent=of(sqlite_book, "supervisor", "supervisor", "crew"))
    assert refused.value.position == 2
    assert len(record_sent(sqlite_book.store, call, sent=of(sqlite_book, "crew", "supervisor", "crew"))) == 3


def test_what_is_to_come_is_judged_by_the_moment_at_which_each_came_in(sqlite_book):
    """12:00 in the area is 17:00 UTC: yet to come for what came in at 15:20, past for what came at 18:20."""
    leak, at_noon = book.leak(sqlite_book), {"happened": "2026-03-05 12:00"}
    call = [leak, book.note(leak["id"], **at_noon), book.note(leak["id"], **at_noon)]
    with pytest.raises(NotUnderstood) as unclear:
        record_sent(sqlite_book.store, call, sent=of(sqlite_book, "crew", "crew", "supervisor"))
    assert [(each.entry, each.field, each.code) for each in unclear.value.complaints] == [
        (1, "happened", "in_the_future")
    ]


def test_a_conflict_shows_what_stands_in_the_scope_of_whoever_sent_that_entry(sqlite_book):
    there = book.leak(sqlite_book, area=sqlite_book.other_area)
    sqlite_book.say(there)
    call = [book.leak(sqlite_book), there | {"house_number": "99"}]
    with pytest.raises(Conflict) as conflict:
        record_sent(sqlite_book.store, call, sent=of(sqlite_book, "officer", "crew"))
    assert (str(conflict.value.id), conflict.value.stands) == (there["id"], {})
    with pytest.raises(Conflict) as conflict:
        record_sent(sqlite_book.store, call, sent=of(sqlite_book, "crew", "officer"))
    assert conflict.value.stands["said"]["house_number"] == "14"
