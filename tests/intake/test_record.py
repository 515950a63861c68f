"""The way in on both databases: what is recorded, and that nothing that was typed is lost where it is not."""

import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import select

from repairlog.access import Actor, Refused
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id, uuid8
from repairlog.intake import Complaint, NotUnderstood, WaitsFor, record
from repairlog.intake.call import FURTHEST_OFF_MS, MOST_ENTRIES, understand
from repairlog.records.beside.unfinished import of_person
from repairlog.records.post import Conflict, SettingsChanged, post
from repairlog.records.store import Store
from repairlog.records.tables.facts import SUBJECT
from tests.intake.lines import is_there, kept, now, sealed, size, waits
from tests.makers import book as m
from tests.makers.book import RECEIVED, Book
from tests.makers.together import wait_until_waiting

AT = Moments(received=RECEIVED)


def sent_back(book: Book, *entries: Any, by: Actor | None = None, moments: Moments = AT) -> list[Complaint]:
    """What is complained of in a call of which nothing is recorded."""
    before = size(book.store)
    with pytest.raises(NotUnderstood) as problem:
        record(book.store, list(entries), actor=by or book.everyone, moments=moments)
    assert size(book.store) == before
    return list(problem.value.complaints)


def codes(complaints: list[Complaint]) -> list[tuple[int, str, str]]:
    return [(each.entry, each.field, each.code) for each in complaints]


def test_a_call_that_cannot_be_read_is_kept_as_it_was_typed_and_gone_when_the_mended_one_is_posted(book: Book) -> None:
    leak = m.leak(book, happened="yesterday", street="Mill\ud800 Lane", postal_code=10**30)
    assert codes(sent_back(book, leak, by=book.crew)) == [
        *((0, "street", "control_characters"), (0, "postal_code", "not_text")),
    ]
    (unfinished,) = of_person(book.store, book.crew.person)
    assert (str(unfinished.id), unfinished.because, unfinished.form, unfinished.raw, unfinished.kept_at) == (
        *(leak["id"], "not_understood", "entries", [leak], RECEIVED),
    )
    book.say(leak | {"happened": "2026-03-03", "street": "Mill Lane", "postal_code": "01234"}, by=book.crew)
    assert (kept(book.store), is_there(book.store, leak["id"])) == ({}, True)


def test_one_field_sent_back_holds_up_its_whole_call_and_every_complaint_is_told(book: Book) -> None:
    leak = m.leak(book)
    call = [leak, m.source(leak["id"], pressure="45"), m.grade(leak["id"], happened="2026-03-09")]
    assert codes(sent_back(book, *call)) == [(1, "pressure", "unit_missing"), (2, "happened", "in_the_future")]
    assert kept(book.store) == {leak["id"]: "not_understood"}


def test_a_call_that_is_refused_is_kept_for_a_supervisor_to_see(book: Book) -> None:
    leak = m.leak(book)
    end = m.ending(leak["id"], [], how="no_reading")
    book.say(leak)
    with pytest.raises(Refused):
        book.say(end, by=book.crew)
    (unfinished,) = of_person(book.store, book.crew.person)
    assert (unfinished.because, unfinished.raw, is_there(book.store, end["id"])) == ("refused", [end], False)
    book.say(end, by=book.supervisor)
    assert (kept(book.store), now(book.store, end["id"]).by["sent"]) == ({}, str(book.supervisor.person))


def test_what_was_kept_stays_until_all_of_it_is_recorded(book: Book) -> None:
    leak = m.leak(book)
    source = m.source(leak["id"], pressure="45 psy")
    sent_back(book, leak, source)
    book.say(leak)
    assert kept(book.store) == {leak["id"]: "not_understood"}
    book.say(leak, source | {"pressure": "45 psi"})
    assert kept(book.store) == {}


@pytest.mark.parametrize(("grade", "left"), [("2", False), ("3", True)], ids=["the same", "another"])
def test_what_another_kept_under_an_id_goes_only_where_it_says_the_same(book: Book, grade: str, left: bool) -> None:
    leak = m.leak(book, area=book.other_area)
    book.say(leak)
    mine = m.grade(leak["id"])
    with pytest.raises(Refused):
        book.say(mine | {"grade": grade}, by=book.crew)
    book.say(mine)
    assert bool(of_person(book.store, book.crew.person)) is left


@pytest.mark.parametrize("place", ["area", "other_area"])
def test_what_stands_in_place_of_a_conflict_is_shown_within_the_asker_s_scope_alone(book: Book, place: str) -> None:
    leak = m.leak(book, area=getattr(book, place))
    grade = m.grade(leak["id"])
    book.say(leak, grade)
    with pytest.raises(Conflict) as conflict:
        book.say(grade | {"grade": "3"}, by=book.crew)
    shown = {"2": conflict.value.stands.get("said", {}).get("grade"), "3": conflict.value.came["said"]["grade"]}
    assert shown == {"2": "2" if place == "area" else None, "3": "3"}


def test_a_repair_sent_before_its_leak_is_posted_by_itself_when_the_leak_comes(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], written="2026-03-05T15:10:00.000Z")
    early = Moments(received=RECEIVED - timedelta(minutes=5), offset_ms=-1200)
    with pytest.raises(WaitsFor) as waiting:
        book.say(attempt, by=book.crew, moments=early)
    assert waiting.value.ids == {read_id(leak["id"])}
    assert (kept(book.store), waits(book.store)) == ({attempt["id"]: "waits"}, {(attempt["id"], leak["id"])})
    receipts = book.say(leak, by=book.supervisor)
    line = sealed(book.store, attempt["id"])
    assert [each.id for each in receipts] == [read_id(leak["id"])]
    assert (kept(book.store), waits(book.store), line["by"]["sent"]) == ({}, set(), str(book.crew.person))
    assert line["moments"] == {
        "received": "2026-03-05T15:15:12.480Z",
        "written": "2026-03-05T15:10:00.000Z",
        "offset_ms": -1200,
    }


def test_a_chain_of_three_calls_is_posted_link_by_link(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    test, correction = m.test_of(leak["id"], attempt["id"]), m.corrected(attempt["id"], ("method", "weld"))
    for each in (correction, test, attempt):
        with pytest.raises(WaitsFor):
            book.say(each)
    assert set(kept(book.store).values()) == {"waits"}
    book.say(leak)
    assert (kept(book.store), size(book.store)) == ({}, 8 + 4)
    assert now(book.store, attempt["id"]).text("method") == "weld"


def test_calls_that_wait_for_one_leak_are_posted_in_the_order_in_which_they_came(book: Book) -> None:
    leak = m.leak(book)
    later, earlier = m.visit(leak["id"]), m.visit(leak["id"])
    for minute, each in enumerate((earlier, later)):
        with pytest.raises(WaitsFor):
            book.say(each, moments=Moments(received=RECEIVED - timedelta(minutes=10 - minute)))
    book.say(leak)
    assert sealed(book.store, earlier["id"])["index"] < sealed(book.store, later["id"])["index"]


def test_a_call_waits_for_all_that_it_names(book: Book) -> None:
    leak, other = m.leak(book), m.leak(book)
    book.say(leak)
    lot = m.new_id()
    attempt = m.attempt(leak["id"], source=m.new_id(), materials=[{"key": "m1", "lot": lot}])
    with pytest.raises(WaitsFor) as waiting:
        book.say(attempt)
    assert waiting.value.ids == {read_id(lot), read_id(attempt["source"])}
    received = {"kind": "lot_received", "id": lot, "area": book.area, "item": "tape", "lot_number": "W-2"}
    book.say(received | {"happened": "2026-03-01"}, other)
    assert waits(book.store) == {(attempt["id"], attempt["source"])}
    book.say(m.source(leak["id"], id=attempt["source"]))
    assert (kept(book.store), is_there(book.store, attempt["id"])) == ({}, True)


def test_a_call_that_waited_and_is_then_refused_stays_with_that_reason(book: Book) -> None:
    leak = m.leak(book)
    end = m.ending(leak["id"], [], how="no_reading")
    with pytest.raises(WaitsFor):
        book.say(end, by=book.crew)
    book.say(leak)
    assert (kept(book.store), waits(book.store)) == ({end["id"]: "refused"}, set())


def test_a_call_that_waited_and_meets_another_under_its_id_is_kept_as_that_conflict(book: Book) -> None:
    leak = m.leak(book)
    mine = m.grade(leak["id"])
    with pytest.raises(WaitsFor):
        book.say(mine, by=book.crew)
    with pytest.raises(WaitsFor):
        book.say(mine | {"grade": "3"}, by=book.supervisor)
    book.say(leak)
    (unfinished,) = of_person(book.store, book.supervisor.person)
    assert (unfinished.because, unfinished.raw) == ("conflict", [mine | {"grade": "3"}])
    assert sealed(book.store, mine["id"])["said"]["grade"] == "2"


def test_a_call_that_waited_and_is_then_not_understood_stays_with_that_reason(book: Book) -> None:
    leak = m.leak(book, area=book.other_area)
    attempt = m.attempt(leak["id"], pressure_found="-13 psi")  # a vacuum at 5,280 ft is 12.1 psi below
    with pytest.raises(WaitsFor):
        book.say(attempt)
    book.say(leak)
    assert (kept(book.store), waits(book.store)) == ({attempt["id"]: "not_understood"}, set())


def test_a_call_without_an_id_is_complained_of_and_cannot_be_kept(book: Book) -> None:
    assert codes(sent_back(book, {"kind": "visit"}))[0] == (0, "id", "id_missing")
    assert kept(book.store) == {}


def test_the_same_call_twice_is_one_entry_and_one_receipt(book: Book) -> None:
    leak = m.leak(book, reporter_name="A. Caller")
    call = [leak, m.source(leak["id"]), m.visit(leak["id"]), m.grade(leak["id"])]
    first, before = book.say(*call), size(book.store)
    later = Moments(received=RECEIVED + timedelta(days=400), offset_ms=7)
    again = book.say(*call, moments=later)
    assert [replace(each, new=False) for each in first] == again
    assert (size(book.store), [each.new for each in first]) == (before, [True] * 4)


def test_the_same_entry_twice_in_one_call_is_one_entry(book: Book) -> None:
    leak = m.leak(book)
    receipts = book.say(leak, leak)
    assert (receipts[0], size(book.store)) == (receipts[1], 9)


def test_an_id_with_other_content_is_a_conflict_and_nothing_is_lost_or_changed(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    with pytest.raises(Conflict) as conflict:
        book.say(leak | {"street": "Mill Lane"})
    assert (conflict.value.stands["said"]["street"], conflict.value.came["said"]["street"]) == (
        *("Quarry Lane", "Mill Lane"),
    )
    assert now(book.store, leak["id"]).text("street") == "Quarry Lane"


@pytest.mark.parametrize("count", [0, MOST_ENTRIES + 1])
def test_a_call_has_from_one_to_a_thousand_entries(book: Book, count: int) -> None:
    leak = m.leak(book)
    (complaint,) = sent_back(book, *([leak] * count))
    assert (complaint.code, complaint.facts) == ("number_of_entries", {"got": str(count), "most": "1000"})


@pytest.mark.parametrize("sure", ["password", "system", "import"])
def test_an_id_of_version_8_comes_from_a_list_alone(book: Book, sure: str) -> None:
    leak = m.leak(book, id=str(uuid8("saltmarsh", "row 7")))
    who = replace(book.everyone, sure=sure, memberships=(replace(book.officer.memberships[0], role="administrator"),))
    if sure == "import":
        assert book.say(leak, by=who)[0].number == "ES-26-0001"
    else:
        assert codes(sent_back(book, leak, by=who)) == [(0, "id", "id_version")]


@pytest.mark.parametrize("id", ["019cb4d0-1180-4abc-9def-000000000001", "00000000-0000-0000-0000-000000000000"])
def test_an_id_of_another_version_is_sent_back(book: Book, id: str) -> None:
    assert codes(sent_back(book, m.leak(book, id=id))) == [(0, "id", "id_version")]


@pytest.mark.parametrize(
    ("off", "read"),
    [
        (FURTHEST_OFF_MS, True),
        (FURTHEST_OFF_MS + 1, False),
        (-FURTHEST_OFF_MS, True),
        (-FURTHEST_OFF_MS - 1, False),
        (10**18, False),
    ],
)
def test_a_clock_is_read_up_to_a_century_off(book: Book, off: int, read: bool) -> None:
    leak = m.leak(book, written="1970-01-01T00:00:00.000Z")
    moments = Moments(received=RECEIVED, offset_ms=off)
    if read:
        assert book.say(leak, moments=moments)[0].new
    else:
        assert codes(sent_back(book, leak, moments=moments)) == [(0, "sent", "clock_too_far_off")]


def test_a_device_whose_clock_fell_back_to_1970_is_read_by_its_offset(book: Book) -> None:
    sent = datetime(1970, 1, 1, 0, 10, tzinfo=UTC)
    leak = m.leak(book, written="1970-01-01T00:00:00.000Z")
    receipt = book.say(leak, by=book.crew, moments=Moments(received=RECEIVED, sent=sent))[0]
    assert (receipt.new, "left_on" in sealed(book.store, leak["id"])["by"]) == (True, False)


def test_a_device_that_is_ahead_does_not_use_a_role_that_begins_tomorrow(book: Book) -> None:
    tomorrow = replace(book.crew.memberships[0], from_on="2026-03-06")
    ahead = replace(book.crew, memberships=(tomorrow,), signed_in_on="2026-03-06")
    leak = m.leak(book, written="2026-03-06T15:00:00.000Z")
    with pytest.raises(Refused):
        book.say(leak, by=ahead)


def test_a_book_has_one_operator(book: Book) -> None:
    second = {
        "kind": "operator_opened",
        "id": m.new_id(),
        "name": "Fenwick Gas",
        "zone": "UTC",
        "happened": "2025-01-02",
    }
    assert codes(sent_back(book, second)) == [(0, "kind", "operator_opened_already")]


def test_the_operator_s_own_opening_sent_again_is_no_second_one(book: Book) -> None:
    first = {"kind": "operator_opened", "id": book.operator, "name": "Saltmarsh Gas", "zone": "America/New_York"}
    with pytest.raises(Conflict):
        book.say(first | {"happened": "2025-01-03"})
    assert not book.say(first | {"happened": "2025-01-02"})[0].new


def test_a_book_begins_with_its_operator(store: Store) -> None:
    person = m.new_id()
    actor = Actor(person=read_id(person), sure="system")
    area = {"kind": "area_opened", "id": m.new_id(), "name": "X", "code": "X", "zone": "UTC", "happened": "2025-01-02"}
    with pytest.raises(NotUnderstood) as problem:
        record(store, [area], actor=actor, moments=AT)
    assert codes(list(problem.value.complaints)) == [(0, "kind", "operator_not_opened")]


def test_who_did_it_and_who_typed_it_are_people(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    odd = m.visit(leak["id"], did=[{"key": "d1", "person": leak["id"]}], typed=book.lot)
    found = [(each.field, each.code, each.facts) for each in sent_back(book, odd)]
    assert found == [
        ("did.d1.person", "subject_of_other_kind", {"got": "leak", "would_have": ["person"]}),
        ("typed", "subject_of_other_kind", {"got": "lot", "would_have": ["person"]}),
    ]


@pytest.mark.parametrize("field", ["did", "typed"])
def test_an_entry_waits_for_the_person_who_did_or_typed_it(book: Book, field: str) -> None:
    person = m.new_id()
    named = {"did": [{"key": "d1", "person": person}], "typed": person}[field]
    leak = m.leak(book, **{field: named})
    with pytest.raises(WaitsFor):
        book.say(leak)
    book.say({"kind": "person_added", "id": person, "name": "T. Visitor", "happened": "2026-03-01"})
    assert is_there(book.store, leak["id"])


def test_a_supervisor_takes_a_correction_of_their_own_back(book: Book) -> None:
    leak = m.leak(book)
    correction = m.corrected(leak["id"], ("street", "Mill Lane"))
    void = m.void(correction["id"])
    book.say(leak)
    for each in (correction, void, m.void(void["id"])):
        book.say(each, by=book.supervisor)
    assert now(book.store, leak["id"]).text("street") == "Mill Lane"


def test_a_supervisor_does_not_put_right_what_only_an_administrator_enters(book: Book) -> None:
    person = str(book.crew.person)
    correction = m.corrected(person, ("name", "M. Aldous-Reed"))
    book.say(correction)
    everywhere = replace(book.supervisor, memberships=(replace(book.supervisor.memberships[0], area=None),))
    for each in (m.corrected(person, ("name", "X")), m.void(person), m.void(correction["id"])):
        with pytest.raises(Refused):
            book.say(each, by=everywhere)
    assert now(book.store, person).text("name") == "M. Aldous-Reed"


def test_a_crew_does_not_take_a_supervisor_s_correction_back(book: Book) -> None:
    leak = m.leak(book)
    correction = m.corrected(leak["id"], ("street", "Mill Lane"))
    book.say(leak, by=book.crew)
    book.say(correction, by=book.supervisor)
    with pytest.raises(Refused):
        book.say(m.void(correction["id"]), by=book.crew)


def higher(book: Book) -> dict[str, Any]:
    """Eastmarsh is said to lie a mile high, where it was said to lie at the sea."""
    return m.corrected(book.area, ("elevation", "5280 ft"))


def test_what_was_understood_with_an_area_s_old_settings_is_not_posted(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    attempt = m.attempt(leak["id"])
    old = understand(book.store, [attempt], actor=book.everyone, moments=AT)
    book.say(higher(book))
    with pytest.raises(SettingsChanged):
        post(book.store, old, actor=book.everyone, moments=AT)
    book.say(attempt)
    assert sealed(book.store, attempt["id"])["understood"]["atmosphere"] == "83.4317691 kPa absolute"


def test_a_call_that_meets_a_change_of_settings_is_understood_anew(book: Book) -> None:
    # Both wait for who holds the area, the change first; by then the other is understood with what stood before it,
    # though it names nothing but a leak.
    leak = m.leak(book)
    book.say(leak)
    attempt = m.attempt(leak["id"])
    with ThreadPoolExecutor(2) as pool:
        with book.store.writing() as tx:
            tx.connection.execute(select(SUBJECT).where(SUBJECT.c.id == read_id(book.area)).with_for_update())
            changing = pool.submit(book.say, higher(book))
            _let_wait(book.store, 1)
            saying = pool.submit(book.say, attempt)
            _let_wait(book.store, 2)
        assert [each.new for each in [*changing.result(20), *saying.result(20)]] == [True] * 2
    assert sealed(book.store, attempt["id"])["understood"]["atmosphere"] == "83.4317691 kPa absolute"


def _let_wait(store: Store, count: int) -> None:
    if store.dialect == "postgresql":
        wait_until_waiting(store, count)
    else:
        time.sleep(0.3)  # SQLite's writers wait in the process, in the order in which they came
