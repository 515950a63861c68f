"""The same id with other content is a Conflict: both texts are told, nothing is changed."""

from dataclasses import replace
from hashlib import sha256
from uuid import UUID

import pytest
from sqlalchemy import update

from repairlog.access import Membership
from repairlog.entries.entry import Moments
from repairlog.entries.ids import uuid8
from repairlog.intake.call import understand
from repairlog.records.post import Conflict
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.tables.journal import JOURNAL
from tests.makers import book
from tests.makers.copies import copy_of, rows

WRITTEN = "2026-03-05T15:20:11.000Z"


def stands(open_book, **fields):
    """A grade that was posted, with who did, who typed and when it was written."""
    leak = book.leak(open_book)
    crew = str(open_book.crew.person)
    grade = book.grade(leak["id"], did=[{"key": "d1", "person": crew}], typed=crew, written=WRITTEN, **fields)
    open_book.say(leak, grade)
    return grade


def content(entry):
    said = {name: value for name, value in entry.items() if name not in ("did", "typed", "written")} | {"version": 1}
    return {"said": said, "did": entry["did"], "typed": entry["typed"], "written": entry["written"]}


OTHER = [
    {"grade": "1"},
    {"reason": "odor inside"},
    {"happened": "2026-03-03 08:41"},
    {"did": [{"key": "d1", "named": "a passer-by"}]},
    {"did": [{"key": "d2", "named": "a passer-by"}, {"key": "d1", "named": "another"}]},
    {"written": "2026-03-05T15:20:12.000Z"},
]


@pytest.mark.parametrize("other", OTHER)
def test_other_content_is_a_conflict_that_shows_both_texts_and_changes_nothing(open_book, other):
    grade = stands(open_book)
    before = copy_of(open_book.store)
    with pytest.raises(Conflict) as conflict:
        open_book.say(grade | other)
    assert (conflict.value.id, conflict.value.code) == (UUID(grade["id"]), "conflict")
    assert (conflict.value.stands, conflict.value.came) == (content(grade), content(grade | other))
    assert copy_of(open_book.store) == before


def test_another_person_who_typed_it_is_a_conflict(open_book):
    grade = stands(open_book)
    with pytest.raises(Conflict) as conflict:
        open_book.say(grade | {"typed": str(open_book.supervisor.person)})
    assert conflict.value.came["typed"] == str(open_book.supervisor.person)


def test_a_field_that_is_left_out_now_is_a_conflict(open_book):
    grade = stands(open_book, reason="odor inside")
    with pytest.raises(Conflict) as conflict:
        open_book.say({name: value for name, value in grade.items() if name != "reason"})
    assert conflict.value.stands["said"]["reason"] == "odor inside"
    assert "reason" not in conflict.value.came["said"]


def test_a_copy_without_the_device_s_clock_is_the_same(open_book):
    grade = stands(open_book)
    assert [r.new for r in open_book.say({n: v for n, v in grade.items() if n != "written"})] == [False]


def test_two_of_one_id_in_one_call_that_differ_are_a_conflict(open_book):
    leak = book.leak(open_book)
    before = copy_of(open_book.store)
    with pytest.raises(Conflict) as conflict:
        open_book.say(leak, leak | {"house_number": "15"})
    shown = (conflict.value.stands["said"]["house_number"], conflict.value.came["said"]["house_number"])
    assert shown == ("14", "15")
    assert copy_of(open_book.store) == before


def test_two_of_one_id_in_one_call_with_other_private_values_are_a_conflict(open_book):
    leak = book.leak(open_book, reporter_name="J. Thwaite")
    with pytest.raises(Conflict):
        open_book.say(leak, leak | {"reporter_name": "J. Thwaites"})
    assert rows(open_book.store, PRIVATE_VALUE) == []


def test_a_private_value_stands_beside_the_journal_under_its_own_salt_and_digest(open_book):
    open_book.say(*[book.leak(open_book, reporter_name="J. Thwaite") for _ in range(2)])
    kept = rows(open_book.store, PRIVATE_VALUE)
    assert [(r["path"], r["value"], len(r["salt"]), r["removed_on"]) for r in kept] == [
        ("reporter_name", "J. Thwaite", 32, None)
    ] * 2
    assert [r["digest"] for r in kept] == [sha256(r["salt"] + b"J. Thwaite").hexdigest() for r in kept]
    assert len({r["digest"] for r in kept}) == 2
    assert b"Thwaite" not in b"".join(r["line"] for r in rows(open_book.store, JOURNAL))


def test_the_same_private_value_is_no_conflict_and_keeps_its_salt(open_book):
    leak = book.leak(open_book, reporter_name="J. Thwaite")
    open_book.say(leak)
    before = copy_of(open_book.store)
    assert [r.new for r in open_book.say(leak)] == [False]
    assert copy_of(open_book.store) == before


@pytest.mark.parametrize("name", ["J. Thwaites", None])
def test_another_private_value_or_none_is_a_conflict_that_does_not_tell_the_value(open_book, name):
    leak = book.leak(open_book, reporter_name="J. Thwaite")
    open_book.say(leak)
    other = {field: value for field, value in leak.items() if field != "reporter_name"}
    with pytest.raises(Conflict) as conflict:
        open_book.say(other | ({"reporter_name": name} if name else {}))
    assert "Thwaite" not in repr((conflict.value.stands, conflict.value.came, str(conflict.value)))


@pytest.mark.parametrize("name", ["J. Thwaite", "somebody else"])
def test_a_private_value_whose_salt_is_removed_is_not_compared(open_book, name):
    leak = book.leak(open_book, reporter_name="J. Thwaite")
    open_book.say(leak)
    with open_book.store.writing() as tx:
        gone = {"salt": None, "value": None, "removed_on": book.RECEIVED.date()}
        tx.connection.execute(update(PRIVATE_VALUE).values(**gone))
    assert [r.new for r in open_book.say(leak | {"reporter_name": name})] == [False]


def say_as_import(open_book, entry):
    """As an old list is taken in, for an administrator."""
    held = Membership(role="administrator", area=None, from_on="2025-01-02")
    return open_book.say(entry, by=replace(open_book.everyone, sure="import", memberships=(held,)))


def listed(open_book):
    return book.leak(open_book, id=str(uuid8("an invented list", "17")))


def test_an_id_that_an_import_worked_out_compares_what_was_said_alone(open_book):
    leak = listed(open_book)
    say_as_import(open_book, leak)
    other = leak | {"did": [{"key": "d1", "named": "a clerk"}], "written": WRITTEN}
    assert [r.new for r in say_as_import(open_book, other | {"typed": str(open_book.crew.person)})] == [False]


def test_an_id_that_an_import_worked_out_with_another_word_said_is_a_conflict(open_book):
    leak = listed(open_book)
    say_as_import(open_book, leak)
    with pytest.raises(Conflict) as conflict:
        say_as_import(open_book, leak | {"town": "Nether Harrowsedge"})
    assert (list(conflict.value.stands), list(conflict.value.came)) == (["said"], ["said"])


def test_a_later_correction_does_not_make_the_first_telling_a_conflict(open_book):
    grade = stands(open_book)
    open_book.say(book.corrected(grade["id"], ("grade", "1")))
    assert [r.new for r in open_book.say(grade)] == [False]


def test_an_entry_as_it_would_be_understood_today_is_not_compared(open_book):
    grade = stands(open_book)
    moments = Moments(received=book.RECEIVED)
    open_book.say(book.corrected(open_book.area, ("zone", "Pacific/Auckland")))
    (again,) = understand(open_book.store, [grade], actor=open_book.everyone, moments=moments)
    assert (again.said["grade"], again.understood) == (grade["grade"], {})
    assert [r.new for r in open_book.say(grade)] == [False]
