"""What a call was read against must still stand when it is posted; what came before is compared and not read again."""

import pytest

from repairlog.entries.entry import Moments
from repairlog.intake import NotUnderstood
from repairlog.intake.call import understand
from repairlog.records.post import SettingsChanged, post
from tests.intake.lines import now
from tests.makers import book as m
from tests.makers.book import RECEIVED, Book
from tests.makers.together import together

AT = Moments(received=RECEIVED)


def test_of_two_corrections_that_only_alone_leave_what_can_be_read_the_second_is_read_anew(book: Book) -> None:
    """Each leaves a material with its lot or its name; both would leave it with neither."""
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "lot": book.lot, "named": "W-81?", "used": "2"}])
    book.say(leak, attempt)
    first, second = (m.corrected(attempt["id"], (f"materials.m1.{name}", None)) for name in ("lot", "named"))
    read_before = understand(book.store, [second], actor=book.everyone, moments=AT)
    book.say(first)
    with pytest.raises(SettingsChanged):
        post(book.store, read_before, actor=book.everyone, moments=AT)
    with pytest.raises(NotUnderstood) as problem:
        book.say(second)
    assert [(each.field, each.code) for each in problem.value.complaints] == [("materials.m1", "needs_one_of")]


def test_eight_corrections_of_one_entry_at_once_are_all_taken(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    corrections = [m.corrected(leak["id"], ("street", f"Mill Lane {each}")) for each in range(8)]
    assert [len(each) for each in together(8, lambda place: book.say(corrections[place]))] == [1] * 8
    assert len(now(book.store, leak["id"]).corrected) == 8


def test_what_came_before_gives_its_receipts_again_though_it_could_not_be_read_any_more(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], happened="2026-03-05 10:02")
    first = book.say(leak, attempt)
    # Five hours farther west, what happened at ten in the morning would lie ahead of the server's clock.
    book.say(m.corrected(book.area, ("zone", "Pacific/Honolulu")))
    again = book.say(leak, attempt)
    assert [(each.index, each.leaf, each.new) for each in again] == [(each.index, each.leaf, False) for each in first]


def test_a_private_correction_gives_its_receipt_again_after_another_of_its_field(book: Book) -> None:
    leak = m.leak(book, reporter_name="N. Harbottle")
    correction = m.corrected(leak["id"], ("reporter_name", "N. Harbotle"))
    first = book.say(leak, correction)
    book.say(m.corrected(leak["id"], ("reporter_name", None)))
    assert [each.leaf for each in book.say(leak, correction)] == [each.leaf for each in first]
