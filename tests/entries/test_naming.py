"""What an entry names: subjects, its own among them, other entries, and the one that it puts right."""

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.naming import ids_brought, named_entries, named_subjects, own_subject, target_of
from tests.makers import book as m

LEAK, PERSON, LOT = (m.new_id() for _ in range(3))


def test_an_entry_names_what_it_opens_first_and_then_everything_else_once() -> None:
    attempt = m.attempt(
        LEAK,
        authorised_by=PERSON,
        materials=[{"key": "m1", "lot": LOT}, {"key": "m2", "named": "W-81?"}, {"key": "m3", "lot": LOT}],
        people=[{"key": "p1", "person": PERSON}],
    )
    opened = m.source(LEAK)
    assert named_subjects(attempt, [{"key": "d1", "person": PERSON}, {"key": "d2", "named": "a hand"}]) == [
        (UUID(LEAK), "leak"),
        (UUID(PERSON), "authorised_by"),
        (UUID(LOT), "materials.lot"),
        (UUID(PERSON), "people.person"),
        (UUID(PERSON), "did.person"),
    ]
    assert named_subjects(opened) == [(UUID(opened["id"]), "opens"), (UUID(LEAK), "leak")]


def test_what_puts_right_names_an_entry_and_no_subject() -> None:
    entry = m.new_id()
    assert [named_subjects(each) for each in (m.void(entry), m.corrected(entry, ("leak", LEAK)))] == [[], []]


def test_only_a_correction_and_a_void_speak_about_another_entry() -> None:
    said: list[dict[str, Any]] = [m.corrected(LEAK, ("street", "x")), m.void(LEAK), m.review(LEAK, m.new_id())]
    assert [target_of(each) for each in said] == [UUID(LEAK), UUID(LEAK), None]


@pytest.mark.parametrize(
    ("said", "subject"),
    [
        (m.visit(LEAK), LEAK),
        (m.source(LEAK), LEAK),
        (m.note(PERSON), PERSON),
        ({"kind": "leak_opened", "id": LOT, "area": LEAK}, LOT),
    ],
    ids=["visit", "source", "note", "opened"],
)
def test_an_entry_stands_in_the_story_of_what_it_names_so_or_else_of_what_it_opens(
    said: dict[str, Any], subject: str
) -> None:
    assert own_subject(said) == UUID(subject)


def test_an_entry_names_earlier_ones_in_fields_and_in_rows_but_not_by_putting_right() -> None:
    first, second = m.new_id(), m.new_id()
    assert named_entries(m.review(LEAK, first)) == {UUID(first)}
    assert named_entries(m.ending(LEAK, [first, second])) == {UUID(first), UUID(second)}
    assert [named_entries(each) for each in (m.visit(LEAK), m.void(first))] == [set(), set()]


def test_a_correction_brings_the_ids_among_its_values_whatever_field_they_are_for() -> None:
    changes = (("leak", LEAK), ("remarks", LOT), ("grade", "2"), ("reason", None))
    assert ids_brought(m.corrected(PERSON, *changes)) == {UUID(LEAK), UUID(LOT)}
    assert ids_brought(m.void(PERSON)) == set()
