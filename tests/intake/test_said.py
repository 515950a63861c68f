"""From raw fields to what was said: every complaint, and what is kept of what came."""

import unicodedata
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

import orjson
import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.kinds import DID, KINDS
from repairlog.intake.complaint import Complaint
from repairlog.intake.said import Said, said_of
from repairlog.records.seal import canonical
from tests.makers import book as m
from tests.words.spoken import complaint_codes

LEAK, PERSON = m.new_id(), m.new_id()
ID = m.new_id()
GRADE: dict[str, Any] = {"kind": "grade_set", "id": ID, "leak": LEAK, "happened": "2026-03-03", "grade": "2"}


def read(**fields: Any) -> Said:
    """What a grade with these fields says, where nothing is complained of."""
    said, complaints = said_of(GRADE | fields, 0)
    assert complaints == []
    return said


def complained(raw: object) -> list[tuple[str, str, dict[str, Any]]]:
    """Field, code and facts of every complaint about a raw entry."""
    return [(each.field, each.code, dict(each.facts)) for each in said_of(raw, 0)[1]]


def visit(**fields: Any) -> dict[str, Any]:
    return {"kind": "visit", "id": ID, "leak": LEAK, "happened": "2026-03-03"} | {
        "purpose": "re_evaluation",
        "outcome": "looked",
        **fields,
    }


def attempt(**fields: Any) -> dict[str, Any]:
    return {"kind": "repair_attempted", "id": ID, "leak": LEAK, "happened": "2026-03-03"} | {
        "lasting": "permanent",
        "outcome": "tight",
        **fields,
    }


def test_an_entry_says_what_was_given_with_the_version_of_its_kind() -> None:
    assert read().said == {"version": 1, **GRADE}


def test_who_did_it_who_typed_it_and_when_stand_beside_what_was_said() -> None:
    said = read(
        did=[{"key": "d1", "person": PERSON}, {"key": "d2", "named": "a hand"}],
        typed=PERSON,
        written="2026-03-03T12:00:00.000Z",
    )
    assert (said.said, said.did, said.typed, said.written) == (
        {"version": 1, **GRADE},
        [{"key": "d1", "person": PERSON}, {"key": "d2", "named": "a hand"}],
        UUID(PERSON),
        datetime(2026, 3, 3, 12, tzinfo=UTC),
    )


def test_a_private_value_is_not_among_what_will_be_sealed() -> None:
    raw = {"kind": "leak_opened", "id": ID, "area": LEAK, "happened": "2026-03-03", "reporter_name": "A. Caller"}
    said, complaints = said_of(raw, 0)
    assert (complaints, said.private, "A. Caller" in str(said.said)) == ([], {"reporter_name": "A. Caller"}, False)


@pytest.mark.parametrize("empty", ["", None, "  ", "\r\n", "\u2003"])
def test_what_is_empty_counts_as_left_out(empty: str | None) -> None:
    assert read(reason=empty, did=[] if empty is None else "", typed=None, written="").said == {"version": 1, **GRADE}


@pytest.mark.parametrize("empty", [None, "", [], [{"key": "p1"}], [{"key": "p1", "label": " ", "owner": None}]])
def test_rows_that_say_nothing_are_left_out(empty: Any) -> None:
    rows = [] if not empty else [("places.p1.kind", "field_missing", {})]
    assert (complained(visit(places=empty)), "places" in said_of(visit(places=empty), 0)[0].said) == (rows, False)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  over the main  ", "over the main"),
        ("Cafe\u0301 Lane", "Café Lane"),
        ("one\r\ntwo\rthree\nfour", "one\ntwo\nthree\nfour"),
        ("a\tb", "a\tb"),
        ("0", "0"),
        ("😀 ½ °F", "😀 ½ °F"),
    ],
)
def test_text_is_kept_in_one_form(typed: str, kept: str) -> None:
    assert read(reason=typed).said["reason"] == kept


@pytest.mark.parametrize("length", [999, 1000, 1001])
def test_a_text_is_kept_to_its_last_character_and_one_more_is_too_long(length: int) -> None:
    wrong = [("reason", "too_long", {"longest": "1000", "got": "1001"})]
    assert complained(GRADE | {"reason": "x" * length}) == (wrong if length == 1001 else [])


def test_a_text_is_measured_as_it_is_kept() -> None:
    assert len(read(reason="e\u0301" * 1000).said["reason"]) == 1000


@pytest.mark.parametrize("char", ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\ud800"])
def test_characters_that_nobody_sees_are_sent_back(char: str) -> None:
    assert complained(GRADE | {"reason": f"over{char}the main"}) == [("reason", "control_characters", {})]


@pytest.mark.parametrize("version", [1, "1", None])
def test_the_version_may_be_a_number_or_text_or_left_out(version: Any) -> None:
    raw = {name: value for name, value in (GRADE | {"version": version}).items() if value is not None}
    assert (complained(raw), said_of(raw, 0)[0].said["version"]) == ([], 1)


def rows_of(count: int) -> list[dict[str, str]]:
    return [{"key": f"p{number}", "kind": "surface"} for number in range(count)]


@pytest.mark.parametrize("count", [199, 200, 201])
def test_a_list_takes_its_rows_and_not_one_more(count: int) -> None:
    wrong = [("places", "too_many_rows", {"most": "200", "got": "201"})]
    assert complained(visit(places=rows_of(count))) == (wrong if count == 201 else [])


@pytest.mark.parametrize(
    ("year", "wrong"),
    [("1799", True), ("1800", False), ("1801", False), ("2199", False), ("2200", False), ("2201", True)],
)
def test_a_whole_number_is_read_between_its_ends(year: str, wrong: bool) -> None:
    raw = m.source(LEAK, installed_year=year)
    facts = {"got": year, "least": "1800", "most": "2200"}
    assert complained(raw) == ([("installed_year", "out_of_range", facts)] if wrong else [])


def test_a_whole_number_is_the_same_as_number_and_as_text() -> None:
    assert [said_of(m.source(LEAK, installed_year=y), 0)[0].said["installed_year"] for y in (1974, " 1974 ")] == [
        1974
    ] * 2


@pytest.mark.parametrize("key", ["r1", "a_b", "0", "x" * 40])
def test_a_row_has_a_short_plain_key(key: str) -> None:
    assert said_of(visit(places=[{"key": key, "kind": "vault"}]), 0)[0].said["places"][0]["key"] == key


def picture(**fields: Any) -> dict[str, Any]:
    return {"kind": "attached", "id": ID, "subject": LEAK, "happened": "2026-03-03"} | {
        "digest": DIGEST,
        "length": "3",
        "media_type": "image/jpeg",
        **fields,
    }


def test_a_file_is_named_by_the_64_hexadecimal_digits_of_its_digest() -> None:
    said, complaints = said_of(picture(original=DIGEST), 0)
    assert (said.said["digest"], said.said["original"], complaints) == (DIGEST, DIGEST, [])


# SHA-256 of "abc", as sha256sum prints it
DIGEST = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
HOLE = f"{LEAK}/p1"
SENT_BACK: list[tuple[Any, str, str, dict[str, Any]]] = [
    ("an entry", "", "not_an_object", {}),
    ([GRADE], "", "not_an_object", {}),
    (None, "", "not_an_object", {}),
    ({}, "kind", "kind_unknown", {"got": "", "would_have": list(KINDS)}),
    ({"kind": ["visit"]}, "kind", "kind_unknown", {"got": "['visit']", "would_have": list(KINDS)}),
    (GRADE | {"kind": "graded"}, "kind", "kind_unknown", {"got": "graded", "would_have": list(KINDS)}),
    (GRADE | {"version": 2}, "version", "version_unknown", {"got": "2", "would_have": ["1"]}),
    (GRADE | {"id": ""}, "id", "id_missing", {"got": ""}),
    (GRADE | {"id": ID.upper()}, "id", "not_an_id", {"got": ID.upper()}),
    (GRADE | {"id": ID + "0"}, "id", "not_an_id", {"got": ID + "0"}),
    (GRADE | {"leak": "ES-26-0417"}, "leak", "not_an_id", {"got": "ES-26-0417"}),
    (GRADE | {"leak": HOLE}, "leak", "not_an_id", {"got": HOLE}),
    (GRADE | {"typed": "M. Aldous"}, "typed", "not_an_id", {"got": "M. Aldous"}),
    (GRADE | {"written": "2026-03-03 12:00"}, "written", "not_a_moment", {"got": "2026-03-03 12:00"}),
    (
        GRADE | {"written": "1799-12-31T23:59:59.999Z"},
        "written",
        "year_out_of_range",
        {"got": "1799-12-31T23:59:59.999Z", "least": "1800", "most": "2999"},
    ),
    (GRADE | {"happened": ""}, "happened", "field_missing", {}),
    (GRADE | {"happened": 20260303}, "happened", "not_text", {"got": "20260303"}),
    (GRADE | {"grade": True}, "grade", "not_text", {"got": "True"}),
    (GRADE | {"grade": ["2"]}, "grade", "not_text", {"got": "['2']"}),
    (GRADE | {"rank": 0}, "rank", "out_of_range", {"got": "0", "least": "1", "most": "99"}),
    (GRADE | {"rank": 100}, "rank", "out_of_range", {"got": "100", "least": "1", "most": "99"}),
    (GRADE | {"rank": True}, "rank", "not_a_whole_number", {"got": "True"}),
    (GRADE | {"rank": 1.0}, "rank", "not_a_whole_number", {"got": "1.0"}),
    (GRADE | {"rank": "-1"}, "rank", "not_a_whole_number", {"got": "-1"}),
    (GRADE | {"rank": "1" * 17}, "rank", "not_a_whole_number", {"got": "1" * 17}),
    (
        visit(ground="damp"),
        "ground",
        "not_one_of",
        {"got": "damp", "would_have": ["dry", "wet", "frozen", "snow", "paved"]},
    ),
    (visit(places="p1"), "places", "not_a_list_of_rows", {}),
    (visit(places={"key": "p1"}), "places", "not_a_list_of_rows", {}),
    (visit(places=["p1"]), "places", "not_a_list_of_rows", {}),
    (visit(places=[{"kind": "vault"}]), "places.0", "row_key_unreadable", {"got": ""}),
    (visit(places=[{"key": "P 1", "kind": "vault"}]), "places.0", "row_key_unreadable", {"got": "P 1"}),
    (visit(places=[{"key": 1, "kind": "vault"}]), "places.0", "row_key_unreadable", {"got": "1"}),
    (visit(places=[{"key": "x" * 41, "kind": "vault"}]), "places.0", "row_key_unreadable", {"got": "x" * 41}),
    (visit(places=rows_of(1) * 2), "places.p0", "row_key_twice", {"got": "p0"}),
    (
        visit(places=[{"key": "p1", "kind": "bar_hole", "same_as": LEAK}]),
        "places.p1.same_as",
        "not_an_id",
        {"got": LEAK},
    ),
    (visit(readings=[{"key": "r1", "kind": "peak"}]), "readings.r1.value", "field_missing", {}),
    (
        attempt(materials=[{"key": "m1", "used": "1"}]),
        "materials.m1",
        "needs_one_of",
        {"would_have": ["lot", "named"]},
    ),
    (attempt(people=[{"key": "p1", "task": "weld"}]), "people.p1", "needs_one_of", {"would_have": ["person", "named"]}),
    (
        {"kind": "lot_received", "id": ID, "area": LEAK, "item": "tape", "lot_number": "1", "happened": "2026-03-03"}
        | {"expires_on": "2026-02-30"},
        "expires_on",
        "not_a_day",
        {"got": "2026-02-30"},
    ),
    (
        {"kind": "lot_received", "id": ID, "area": LEAK, "item": "tape", "lot_number": "1", "happened": "2026-03-03"}
        | {"expires_on": "20260930"},
        "expires_on",
        "not_a_day",
        {"got": "20260930"},
    ),
    (picture(digest=DIGEST[:-1]), "digest", "not_a_digest", {"got": DIGEST[:-1]}),
    (picture(digest=DIGEST + "0"), "digest", "not_a_digest", {"got": DIGEST + "0"}),
    (picture(digest=DIGEST.upper()), "digest", "not_a_digest", {"got": DIGEST.upper()}),
    (picture(original=DIGEST[:-1] + "g"), "original", "not_a_digest", {"got": DIGEST[:-1] + "g"}),
]


@pytest.mark.parametrize(("raw", "field", "code", "facts"), SENT_BACK)
def test_what_cannot_be_read_is_sent_back_with_what_came(raw: Any, field: str, code: str, facts: Any) -> None:
    assert complained(raw) == [(field, code, facts)]


def test_a_row_of_who_did_it_names_somebody() -> None:
    assert complained(GRADE | {"did": [{"key": "d1", "role": "crew"}]}) == [
        ("did.d1.role", "field_unknown", {"would_have": ["person", "named"]})
    ]


@pytest.mark.parametrize(
    ("raw", "field", "would_have"),
    [
        (GRADE | {"garde": "2"}, "garde", [each.name for each in KINDS["grade_set"].fields]),
        (GRADE | {"did": [{"key": "d1", "nmaed": "x"}]}, "did.d1.nmaed", [each.name for each in DID.fields]),
        (
            visit(places=[{"key": "p1", "kind": "vault", "depth": "3 ft"}]),
            "places.p1.depth",
            [each.name for each in KINDS["visit"].rows[0].fields],
        ),
        (GRADE | {"said": "x", "index": 3}, "said", None),
    ],
)
def test_a_field_that_the_kind_does_not_have_is_never_dropped_unseen(raw: Any, field: str, would_have: Any) -> None:
    found = {each[0]: each for each in complained(raw)}
    assert found[field][1] == "field_unknown"
    assert would_have is None or found[field][2] == {"would_have": would_have}


def test_every_complaint_of_a_form_is_told_at_once() -> None:
    raw = GRADE | {"grade": "", "rank": "high", "reason": "x" * 1001, "leak": "?", "street": "Mill Lane"}
    assert sorted((field, code) for field, code, _ in complained(raw)) == [
        ("grade", "field_missing"),
        ("leak", "not_an_id"),
        ("rank", "not_a_whole_number"),
        ("reason", "too_long"),
        ("street", "field_unknown"),
    ]


def test_a_complaint_names_the_entry_s_place_in_the_call() -> None:
    assert said_of({}, 7)[1] == [
        Complaint(entry=7, field="kind", code="kind_unknown", facts={"got": "", "would_have": list(KINDS)})
    ]


TEXTS = st.one_of(
    st.text(max_size=30),
    st.sampled_from(["2026-03-03", "45 psi", "tight", "peak", "p1", LEAK, HOLE, "\ud800", "x" * 5000, "1", "\x00"]),
)
SCALARS = st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), TEXTS, st.just(10**400))
NAMES = st.sampled_from(
    sorted({"key"} | {f.name for kind in KINDS.values() for rows in kind.rows for f in rows.fields})
)
ROWS = st.dictionaries(st.one_of(NAMES, TEXTS), st.one_of(SCALARS, st.just("r1")), max_size=5)
VALUES = st.recursive(SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3))


@st.composite
def raw_entries(draw: st.DrawFn) -> Any:
    """Nearly an entry: some fields as they should be, some anything at all."""
    kind = KINDS[draw(st.sampled_from(sorted(KINDS)))]
    fields = [field.name for field in kind.fields]
    good = {field.name: _good(field) for field in kind.fields if field.required} | {"kind": kind.name, "id": ID}
    any_name = st.sampled_from([*fields, *(r.name for r in kind.rows), "did", "typed", "written", "version", "id", "x"])
    odd = draw(st.dictionaries(any_name, st.one_of(VALUES, st.lists(ROWS, max_size=4)), max_size=6))
    return good | odd


def _good(field: Any) -> str:
    if field.kind == "code":
        return str(field.codes[0])
    good = {"ref": LEAK, "entry": LEAK, "when": "2026-03-03", "whole": "7", "digest": DIGEST}
    return good.get(field.kind, "45")


def check_sealable(said: Said) -> None:
    rows = said.did or []
    for value in [said.said, *rows, *({"value": text} for text in said.private.values())]:
        assert unicodedata.is_normalized("NFC", canonical(value).decode())


@given(st.one_of(VALUES, raw_entries()))
def test_whatever_comes_is_said_or_complained_of_and_what_is_said_can_be_sealed(raw: Any) -> None:
    said, complaints = said_of(raw, 0)
    if not complaints:
        check_sealable(said)
    for each in complaints:
        assert orjson.dumps({"field": each.field, "code": each.code, **each.facts})


@given(raw_entries())
def test_what_was_said_says_the_same_when_it_comes_again(raw: Any) -> None:
    said, complaints = said_of(raw, 0)
    if complaints:
        return
    again, none = said_of(said.said | ({"did": said.did} if said.did else {}) | said.private, 0)
    assert (again.said, again.did, again.private, none) == (said.said, said.did, said.private, [])


def test_every_complaint_that_reading_a_form_can_make_is_made_here() -> None:
    made = {code for _raw, _field, code, _facts in SENT_BACK}
    elsewhere = {"too_long", "too_many_rows", "control_characters", "field_unknown"}
    of_said = complaint_codes("said.py")
    assert of_said - made - elsewhere == set()
