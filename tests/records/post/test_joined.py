"""Numbers joined to each other in a ring, or to one that was opened in error, stay open and owe; in whichever order and
call they came, and when what joined them is taken back."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import pytest

from repairlog.records.post import ground
from repairlog.records.post.stale import fold_stale
from repairlog.records.rebuild import check, rebuild
from repairlog.records.tables import beside, due, worked
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.together import together

RING, ERROR = "joined_in_a_ring", "joined_to_one_opened_in_error"


def leaks(book: m.Book, how_many: int) -> list[str]:
    """So many leaks of grade 2, by a rulebook that asks for their repair."""
    opened = [m.leak(book) for _ in range(how_many)]
    book.say(m.adopted(book.area), *opened, *[m.grade(each["id"]) for each in opened])
    return [str(each["id"]) for each in opened]


def join(this: str, other: str, **fields: str) -> dict[str, object]:
    return m.ending(this, how="joined", joined_to=other, **fields)


def stand(book: m.Book, ids: Sequence[str]) -> list[tuple[str, bool, list[str]]]:
    """Of each, its status, whether it owes anything, and what is raised of how it is joined."""
    status = {str(row["id"]): row["status"] for row in rows(book.store, worked.LEAK)}
    owing = {str(row["subject_id"]) for row in rows(book.store, due.DUE_ITEM, settled_on=None)}
    raised = [(str(row["subject_id"]), row["code"]) for row in rows(book.store, worked.GAP)]
    found = [(status[id], id in owing, [code for of, code in raised if of == id and "joined" in code]) for id in ids]
    assert check(book.store).differences == ()
    return found


OPEN, ENDED = ("open", True, []), ("ended", False, [])
IN_A_RING = ("open", True, [RING])


@pytest.mark.parametrize("how_many", [2, 3])
def test_a_ring_of_joins_is_kept_and_every_leak_of_it_stays_open_and_owes(open_book: m.Book, how_many: int) -> None:
    ids = leaks(open_book, how_many)
    for this, other in itertools.pairwise(ids):
        open_book.say(join(this, other))
    assert stand(open_book, ids) == [*[ENDED] * (how_many - 1), OPEN]
    closes = join(ids[-1], ids[0])
    (receipt,) = open_book.say(closes)
    assert (receipt.new, receipt.raised) == (True, (RING,))
    assert stand(open_book, ids) == [IN_A_RING] * how_many
    open_book.say(m.void(closes["id"]))
    assert stand(open_book, ids) == [*[ENDED] * (how_many - 1), OPEN]
    rebuild(open_book.store)
    assert stand(open_book, ids) == [*[ENDED] * (how_many - 1), OPEN]


def test_a_ring_of_one_call_and_of_leaks_opened_in_it_is_raised_all_the_same(open_book: m.Book) -> None:
    open_book.say(m.adopted(open_book.area))
    opened = [m.leak(open_book) for _ in range(2)]
    ids = [str(each["id"]) for each in opened]
    grades = [m.grade(id) for id in ids]
    open_book.say(*opened, *grades, join(ids[0], ids[1]), join(ids[1], ids[0]))
    assert stand(open_book, ids) == [IN_A_RING] * 2


def test_a_leak_joined_to_itself_or_to_no_number_stays_open(open_book: m.Book) -> None:
    ids = leaks(open_book, 2)
    open_book.say(join(ids[0], ids[0]), m.ending(ids[1], how="joined"))
    assert stand(open_book, ids) == [("open", True, ["joined_to_itself"]), ("open", True, ["joined_without_number"])]


def test_what_leads_into_a_ring_is_ended_and_goes_on_as_one_that_is_open(open_book: m.Book) -> None:
    ids = leaks(open_book, 3)
    open_book.say(join(ids[0], ids[1]), join(ids[1], ids[2]), join(ids[2], ids[1]))
    assert stand(open_book, ids) == [ENDED, IN_A_RING, IN_A_RING]


def test_a_ring_ends_where_one_of_it_is_opened_again_or_joined_elsewhere_and_comes_back_with_what_took_it_apart(
    open_book: m.Book,
) -> None:
    ids = leaks(open_book, 3)
    first, second = join(ids[0], ids[1]), join(ids[1], ids[0])
    again = m.reopened(ids[1], happened="2026-03-05 11:00")
    open_book.say(first, second)
    open_book.say(again)
    assert stand(open_book, ids) == [ENDED, OPEN, OPEN]
    open_book.say(m.void(again["id"]))
    assert stand(open_book, ids) == [IN_A_RING, IN_A_RING, OPEN]
    elsewhere = m.corrected(second["id"], ("joined_to", ids[2]))
    open_book.say(elsewhere)
    assert stand(open_book, ids) == [ENDED, ENDED, OPEN]
    open_book.say(m.void(elsewhere["id"]))
    assert stand(open_book, ids) == [IN_A_RING, IN_A_RING, OPEN]
    open_book.say(m.corrected(elsewhere["id"], ("changes.c1.to", ids[0])))  # a void one: nothing follows from it
    assert stand(open_book, ids) == [IN_A_RING, IN_A_RING, OPEN]


def test_a_number_joined_to_one_that_is_opened_in_error_is_open_again_and_owes(open_book: m.Book) -> None:
    ids = leaks(open_book, 2)
    open_book.say(join(ids[0], ids[1]))
    wrong = m.void(ids[1])
    open_book.say(wrong)
    assert stand(open_book, ids[:1]) == [("open", True, [ERROR])]
    open_book.say(m.void(wrong["id"]))
    assert stand(open_book, ids) == [ENDED, OPEN]
    end = m.ending(ids[1], how="opened_in_error")
    open_book.say(end)
    assert stand(open_book, ids) == [("open", True, [ERROR]), ENDED]
    open_book.say(m.void(end["id"]))
    assert stand(open_book, ids) == [ENDED, OPEN]


@pytest.mark.parametrize("how_many", [2, 3])
def test_many_that_were_joined_to_one_opened_in_error_are_marked_and_worked_out_apart(
    open_book: m.Book, monkeypatch: pytest.MonkeyPatch, how_many: int
) -> None:
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", 2)
    *ids, hub = leaks(open_book, how_many + 1)
    open_book.say(*[join(id, hub) for id in ids])
    open_book.say(m.void(hub))
    assert len(rows(open_book.store, beside.STALE)) == (3 if how_many == 3 else 0)
    fold_stale(open_book.store)
    assert stand(open_book, ids) == [("open", True, [ERROR])] * how_many


def test_two_who_close_a_ring_at_once_both_see_it(open_book: m.Book) -> None:
    ids = leaks(open_book, 2)
    calls = [join(ids[0], ids[1]), join(ids[1], ids[0])]
    together(2, lambda place: open_book.say(calls[place]))
    assert stand(open_book, ids) == [IN_A_RING] * 2
