"""What is owed stands in rows of its own, folded in the commit that posts; adopting and confirming fold it again."""

from __future__ import annotations

from datetime import date

import pytest

from repairlog.access import EVERYTHING, Refused
from repairlog.intake import NotUnderstood
from repairlog.records import journal
from repairlog.records.post import ground
from repairlog.records.post.stale import fold_stale
from repairlog.records.queries.adopted import adopted, confirmations
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.tables import beside, due, worked
from repairlog.records.tables.journal import RULEBOOK_TEXT
from repairlog.records.verify import verify
from repairlog.rulebooks import rulebooks_of
from repairlog.trade.rulebook.kept import RulebookUnreadable
from tests.makers import book
from tests.makers import digs as d
from tests.makers.copies import rows
from tests.makers.rulebooks import OWN
from tests.makers.together import together


def owed(open_book, leak=None):
    """Task, day, whether it is a limit, by what it was settled: of that leak, or of all."""
    where = {"subject_id": book.read_id(leak)} if leak else {}
    found = rows(open_book.store, due.DUE_ITEM, **where)
    return sorted((row["task"], str(row["due_on"]), row["firm"], row["settled_by"] or "") for row in found)


def graded(open_book, *, how_many=1, **fields):
    """So many leaks of grade 2."""
    leaks = [book.leak(open_book) for _ in range(how_many)]
    open_book.say(*leaks, *[book.grade(each["id"], **fields) for each in leaks])
    return [each["id"] for each in leaks]


LOOK = ("re_evaluate", "2026-09-03", True, "")
REPAIR = ("repair", "2027-06-03", False, "")
LIMIT = ("repair", "2027-06-03", True, "")
"""Of a leak reported and graded on 3 March 2026, by the invented practice: six months; 15 months, which ends before
the next calendar year does; proposed until it is confirmed."""


def test_nothing_is_owed_before_a_rulebook_is_adopted_and_then_of_every_open_leak(open_book):
    (leak,) = graded(open_book)
    (ended,) = graded(open_book)
    open_book.say(book.ending(ended, how="customers", happened="2026-03-04"))
    assert owed(open_book) == []
    open_book.say(book.adopted(open_book.area, from_on="2026-03-05"))
    assert owed(open_book, leak) == [LOOK, REPAIR]
    assert owed(open_book, ended) == []  # it ended before
    assert check(open_book.store).differences == ()


def test_a_confirmation_makes_a_limit_of_what_was_proposed_and_its_void_takes_that_back(open_book):
    (leak,) = graded(open_book)
    sure = book.confirmed(open_book.area)
    open_book.say(book.adopted(open_book.area), sure)
    assert owed(open_book, leak) == [LOOK, LIMIT]
    open_book.say(book.void(sure["id"]))
    assert owed(open_book, leak) == [LOOK, REPAIR]
    assert check(open_book.store).differences == ()


def test_what_an_entry_settled_is_owed_again_when_it_is_made_void(open_book):
    open_book.say(book.adopted(open_book.area))
    (leak,) = graded(open_book)
    source = book.source(leak)
    attempt = book.attempt(leak, source=source["id"])
    open_book.say(source, attempt)
    settled = [(*LOOK[:3], "repaired"), (*REPAIR[:3], "repaired")]
    follow_up = ("follow_up", "2026-04-04", True, "")
    assert owed(open_book, leak) == [follow_up, *settled]
    open_book.say(book.void(attempt["id"]))
    assert owed(open_book, leak) == [LOOK, REPAIR]


def test_an_ended_leak_owes_its_follow_up_and_a_joined_one_nothing(open_book):
    open_book.say(book.adopted(open_book.area))
    ended, joined = graded(open_book, how_many=2)
    source, attempt = book.source(ended), book.attempt(ended)
    open_book.say(source, attempt | {"source": source["id"]}, book.ending(ended, [attempt["id"]]))
    open_book.say(book.ending(joined, how="joined", joined_to=ended, happened="2026-03-04"))
    still = [(row[0], row[1]) for row in owed(open_book, ended) if not row[3]]
    assert still == [("follow_up", "2026-04-04")]
    assert {row[3] for row in owed(open_book, joined)} == {"joined"}


def test_a_dig_owes_its_restoration_by_the_day_that_was_said_without_any_rulebook(open_book):
    (leak,) = graded(open_book)
    dig = d.dig(open_book, [leak])
    owed_first, no_day = d.owed(dig["id"]), d.owed(dig["id"], by_on=None, what="lawn")
    open_book.say(dig, owed_first, {name: value for name, value in no_day.items() if value})
    row = rows(open_book.store, due.DUE_ITEM)[0]
    assert (row["task"], str(row["due_on"]), str(row["leak_id"])) == ("restore", "2026-04-30", leak)
    assert [each["fill_in"] for each in rows(open_book.store, due.DUE_MISSING)] == ["lawn"]
    open_book.say(d.restored(dig["id"]))
    assert [each["settled_by"] for each in rows(open_book.store, due.DUE_ITEM)] == ["restored"]
    assert rows(open_book.store, due.DUE_MISSING) == []
    assert check(open_book.store).differences == ()


@pytest.mark.parametrize("leaks", [2, 3])
def test_more_leaks_than_fold_at_once_are_marked_stale_and_worked_out_apart(open_book, monkeypatch, leaks):
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", 2)
    ids = graded(open_book, how_many=leaks)
    open_book.say(book.adopted(open_book.area))
    assert len(rows(open_book.store, beside.STALE)) == (3 if leaks == 3 else 0)
    fold_stale(open_book.store)
    assert all(owed(open_book, leak) == [LOOK, REPAIR] for leak in ids)
    assert check(open_book.store).differences == ()


def test_the_texts_are_kept_with_what_they_extend_once_and_open_without_their_files(open_book, tmp_path, database_url):
    proposal = {"rulebook": "saltmarsh-proposal", "digest": book.PROPOSAL, "although_proposed": "yes"}
    (receipt,) = open_book.say(book.adopted(open_book.area, **proposal))
    assert receipt.raised == ("proposed_rulebook_adopted",)
    open_book.say(book.adopted(open_book.other_area, **proposal))
    kept = {row["digest"]: row for row in rows(open_book.store, RULEBOOK_TEXT)}
    assert {digest: (row["id"], row["extends"]) for digest, row in kept.items()} == {
        book.PRACTICE: ("saltmarsh-practice", ""),
        book.PROPOSAL: ("saltmarsh-proposal", book.PRACTICE),
    }
    text = (OWN / "saltmarsh-proposal.toml").read_text("utf-8")
    assert kept[book.PROPOSAL]["text"] == text
    assert verify(open_book.store).problems == ()
    later = open_store(database_url, rulebooks=rulebooks_of())  # the folder is gone
    try:
        assert check(later).differences == ()
        with later.reading() as tx:
            found = adopted(EVERYTHING, tx, area=book.read_id(open_book.area), on=date(2026, 3, 5))
        assert found is not None
        assert (found.rulebook, found.digest, found.from_on) == ("saltmarsh-proposal", book.PROPOSAL, "2020-01-01")
    finally:
        later.close()


def test_a_book_whose_rulebook_nobody_can_read_is_not_folded_and_says_so(open_book, database_url):
    open_book.say(book.adopted(open_book.area))
    without = open_store(database_url)
    try:
        with pytest.raises(RulebookUnreadable):
            check(without)
    finally:
        without.close()


def test_what_is_sealed_names_the_rulebook_of_its_area_and_day(open_book):
    from_the_fourth = book.adopted(open_book.area, from_on="2026-03-04")
    before, after = book.leak(open_book), book.leak(open_book, happened="2026-03-04 08:00")
    elsewhere = book.leak(open_book, area=open_book.other_area, happened="2026-03-04 08:00")
    open_book.say(from_the_fourth, before, after, elsewhere)
    open_book.say(again := book.grade(after["id"], happened="2026-03-04 09:00"))
    with open_book.store.reading() as tx:
        known = journal.known(tx, {book.read_id(each["id"]) for each in (before, after, elsewhere, again)})
    sealed = {str(id): each.sealed.get("rulebook") for id, each in known.items()}
    digests = {before["id"]: None, after["id"]: book.PRACTICE, elsewhere["id"]: None, again["id"]: book.PRACTICE}
    assert sealed == digests


def test_who_confirmed_which_rule_by_what_is_told_the_newest_first(open_book):
    first, second = book.confirmed(open_book.area), book.confirmed(open_book.area, "permanent", happened="2025-02-03")
    in_error = book.confirmed(open_book.area, "act-1", happened="2025-02-04")
    first["did"] = [{"key": "d1", "person": str(open_book.officer.person)}, {"key": "d2", "named": "the law firm"}]
    open_book.say(book.adopted(open_book.area), first, second, in_error, by=open_book.officer)
    open_book.say(book.void(in_error["id"]), by=open_book.officer)
    with open_book.store.reading() as tx:
        found = confirmations(EVERYTHING, tx, area=book.read_id(open_book.area))
        holds = adopted(EVERYTHING, tx, area=book.read_id(open_book.area), on=date(2026, 3, 5))
    told = [(each.rule, each.on, each.who, each.document, each.page) for each in found]
    assert told == [
        ("permanent", "2025-02-03", ("P. Lindqvist",), "manual, revision 7", "4-12"),
        ("repair-2", "2025-01-03", ("P. Lindqvist", "the law firm"), "manual, revision 7", "4-12"),
    ]
    assert holds is not None
    assert dict(holds.confirmed) == {"permanent": "2025-02-03", "repair-2": "2025-01-03"}


@pytest.mark.parametrize(
    ("entry", "complaint"),
    [
        ({"digest": "0" * 64}, ("digest", "rulebook_unknown")),
        ({"rulebook": "us-guide"}, ("rulebook", "rulebook_of_other_digest")),
        ({"rulebook": "saltmarsh-proposal", "digest": book.PROPOSAL}, ("although_proposed", "rulebook_proposed")),
        ({"kind": "rule_confirmed", "rule": "repair-9"}, ("rule", "rule_unknown")),
        ({"kind": "working_days_set", "calendar": "us-ny"}, ("calendar", "calendar_unknown")),
    ],
)
def test_what_nobody_knows_here_is_sent_back(open_book, entry, complaint):
    make = {"rule_confirmed": book.confirmed, "working_days_set": book.working_days}.get(
        entry.get("kind"), book.adopted
    )
    with pytest.raises(NotUnderstood) as refused:
        open_book.say(make(open_book.area) | entry)
    assert [(each.field, each.code) for each in refused.value.complaints] == [complaint]
    assert rows(open_book.store, RULEBOOK_TEXT) == []


def test_a_crew_adopts_and_confirms_nothing(open_book):
    for entry in (book.adopted(open_book.area), book.confirmed(open_book.area), book.working_days(open_book.area)):
        with pytest.raises(Refused):
            open_book.say(entry, by=open_book.crew)
    assert [row["adoptions"] for row in rows(open_book.store, worked.AREA)] == [None, None]


def test_areas_that_adopt_the_same_at_once_keep_its_text_once(open_book):
    calls = [book.adopted(area) for area in (open_book.area, open_book.other_area)]
    receipts = together(len(calls), lambda place: open_book.say(calls[place]))
    assert [each[0].new for each in receipts] == [True, True]
    assert [row["digest"] for row in rows(open_book.store, RULEBOOK_TEXT)] == [book.PRACTICE]
    assert (verify(open_book.store).problems, check(open_book.store).differences) == ((), ())
