"""Every complaint has its sentence, says what came, and what to do."""

import string
from dataclasses import replace
from typing import Any

import pytest

from repairlog.intake.complaint import Complaint
from repairlog.words import complaints
from repairlog.words.complaints import sentence
from tests.words.spoken import complaint_codes

CODES = sorted(complaint_codes())
PLAIN = [
    *("got", "unit", "other", "wanted", "longest", "most", "least"),
    *("basis", "limit", "atmosphere", "named", "received", "by"),
]
FACTS: dict[str, Any] = {**dict.fromkeys(PLAIN, "7"), "would_have": ["this", "that"]}


@pytest.mark.parametrize("code", CODES)
def test_a_complaint_is_a_sentence_with_something_to_do(code: str) -> None:
    message, hint = sentence(Complaint(entry=0, field="readings.r1.value", code=code, facts=FACTS))
    assert (message[-1], hint[-1], message[0].islower()) == (".", ".", False)


@pytest.mark.parametrize("code", CODES)
def test_a_complaint_without_facts_is_still_said(code: str) -> None:
    needs = {"basis", "unit", "other", "wanted", "named", "limit", "atmosphere", "received", "by"}
    facts = dict.fromkeys(needs, "it")
    assert all(sentence(Complaint(entry=0, field="", code=code, facts=facts)))


def test_every_code_of_a_call_is_known() -> None:
    assert len(CODES) > 50
    assert {"id_version", "leaves_unreadable", "when_unreadable", "unit_unknown", "id_missing"} <= set(CODES)


def test_no_sentence_is_kept_that_nothing_raises() -> None:
    tables = (
        complaints._of_calls(),
        complaints._of_text(),
        complaints._of_choices(),
        complaints._of_whens(),
        complaints._of_subjects(),
        complaints._of_righting(),
        complaints._of_rules(),
    )
    assert {code for table in tables for code in table} - set(CODES) == set()


def test_no_sentence_uses_a_word_that_the_house_does_not() -> None:
    said = " ".join(" ".join(sentence(Complaint(entry=0, field="x", code=code, facts=FACTS))) for code in CODES)
    words = {word.strip(string.punctuation + "“”").lower() for word in said.split()}
    assert words & {"invalid", "error", "failed", "must", "please", "oops", "mandatory", "district"} == set()


@pytest.mark.parametrize(
    ("complaint", "said"),
    [
        (
            Complaint(entry=0, field="cause", code="not_one_of", facts={"got": "rust", "would_have": ["a", "b"]}),
            ("“rust” is none of the answers here.", "Choose one of: a, b."),
        ),
        (
            Complaint(entry=0, field="strete", code="field_unknown", facts={"would_have": ["street", "town"]}),
            ("There is no field “strete” here.", "Choose one of: street, town."),
        ),
        (
            Complaint(entry=0, field="changes", code="field_unknown", facts={"got": "strete", "would_have": ["town"]}),
            ("There is no field “strete” here.", "Choose one of: town."),
        ),
        (
            Complaint(entry=0, field="remarks", code="too_long", facts={"got": "4001", "longest": "4000"}),
            (
                "The text has 4001 characters; 4000 is the most.",
                "Shorten it here, and put the rest into the remarks or an entry of its own.",
            ),
        ),
        (
            Complaint(
                entry=0,
                field="happened",
                code="hour_comes_twice",
                facts={"got": "2026-11-01 01:30", "would_have": ["-04:00", "-05:00"]},
            ),
            (
                "On that night clocks were put back, and “2026-11-01 01:30” came twice.",
                "Write which one is meant by its offset, such as: -04:00, -05:00; the first is the earlier.",
            ),
        ),
        (
            Complaint(entry=0, field="materials.m1", code="needs_one_of", facts={"would_have": ["lot", "named"]}),
            ("This row names nothing.", "Fill in one of: lot, named."),
        ),
        (
            Complaint(
                entry=0, field="pressure_found", code="unit_unknown", facts={"unit": "psy", "would_have": ["45 psi"]}
            ),
            ("The unit “psy” is not known here.", "Write one that is, such as: 45 psi."),
        ),
        (
            Complaint(entry=0, field="places", code="not_a_list_of_rows"),
            (
                "What came is no list of rows.",
                'Send a list of objects, each with its own "key", such as [{"key": "r1"}].',
            ),
        ),
    ],
    ids=lambda value: value.code if isinstance(value, Complaint) else "",
)
def test_a_complaint_shows_what_came_and_what_to_do(complaint: Complaint, said: tuple[str, str]) -> None:
    assert sentence(complaint) == said


def test_a_long_list_of_choices_is_cut() -> None:
    many = Complaint(entry=0, field="x", code="not_one_of", facts={"got": "z", "would_have": list("abcdefghijklm")})
    assert sentence(many)[1] == "Choose one of: a, b, c, d, e, f, g, h, i, j, k, l ...."
    twelve = replace(many, facts={"got": "z", "would_have": list("abcdefghijkl")})
    assert sentence(twelve)[1] == "Choose one of: a, b, c, d, e, f, g, h, i, j, k, l."


def test_braces_that_a_person_typed_are_said_as_they_are() -> None:
    braces = Complaint(entry=0, field="{x}", code="not_one_of", facts={"got": "{0} {got}", "would_have": ["{a}"]})
    assert sentence(braces) == ("“{0} {got}” is none of the answers here.", "Choose one of: {a}.")


def test_a_code_that_nobody_knows_is_not_passed_over() -> None:
    with pytest.raises(KeyError):
        sentence(Complaint(entry=0, field="", code="no_such_code"))
