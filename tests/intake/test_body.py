"""The body of a call: one entry or many, the device's clock, and nothing in it lost unsaid."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.entry import Moments
from repairlog.intake import NotUnderstood
from repairlog.intake.body import Call, Unreadable, read_call
from repairlog.intake.said import LEFT_OUT

ENTRY = {"kind": "note", "text": "x"}
SENT = datetime(2026, 3, 5, 15, 20, 12, tzinfo=UTC)


def read(said: Any) -> Call:
    return read_call(json.dumps(said).encode())


def complaints(body: str) -> list[tuple[int, str, str]]:
    with pytest.raises(NotUnderstood) as found:
        read_call(body.encode())
    return [(each.entry, each.field, each.code) for each in found.value.complaints]


@pytest.mark.parametrize(
    ("said", "call"),
    [
        (ENTRY, Call(entries=[ENTRY])),
        ([ENTRY, ENTRY], Call(entries=[ENTRY, ENTRY])),
        ([], Call(entries=[])),
        ({"entries": [ENTRY]}, Call(entries=[ENTRY])),
        ({"entries": [], "sent": None, "offset_ms": None}, Call(entries=[])),
        ({"entries": [ENTRY], "sent": ""}, Call(entries=[ENTRY])),
        ({"entries": [1, "x", None]}, Call(entries=[1, "x", None])),
        (
            {"entries": [ENTRY], "sent": "2026-03-05T15:20:12.000Z", "offset_ms": -120},
            Call(entries=[ENTRY], sent=SENT, offset_ms=-120),
        ),
        ({"kind": "note", "entries": [ENTRY]}, Call(entries=[{"kind": "note", "entries": [ENTRY]}])),
    ],
)
def test_one_entry_a_list_or_an_object_with_entries_is_a_call(said: Any, call: Call) -> None:
    assert read(said) == call


def test_a_call_says_when_it_came_in_and_what_the_device_says() -> None:
    received = datetime(2026, 3, 5, 15, 21, tzinfo=UTC)
    assert Call(entries=[], sent=SENT, offset_ms=7).moments(received) == Moments(
        received=received, sent=SENT, offset_ms=7
    )


@pytest.mark.parametrize("body", ["{}", '{"entries": null}', '{"entries": {"kind": "note"}}', '{"entries": "x"}'])
def test_what_holds_no_list_of_entries_is_no_call(body: str) -> None:
    assert complaints(body) == [(0, "entries", "not_a_call")]


@pytest.mark.parametrize("body", ["null", "7", '"text"', "true"])
def test_what_is_no_object_is_handed_on_as_an_entry_to_be_complained_of_there(body: str) -> None:
    assert read_call(body.encode()) == Call(entries=[json.loads(body)])


def test_what_a_call_does_not_say_is_named_with_what_it_may() -> None:
    with pytest.raises(NotUnderstood) as found:
        read({"entries": [], "send": "x", "entry": {}})
    told = {(each.field, each.code, tuple(each.facts["would_have"])) for each in found.value.complaints}
    around = ("entries", "sent", "offset_ms")
    assert told == {("send", "field_unknown", around), ("entry", "field_unknown", around)}


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("2026-03-05", "not_a_moment"),
        ("2026-03-05T15:20:12Z", "not_a_moment"),
        ("2026-03-05T15:20:12.000+00:00", "not_a_moment"),
        ("2026-02-30T15:20:12.000Z", "not_a_moment"),
        (1772724012, "not_a_moment"),
        ([], "not_a_moment"),
        (False, "not_a_moment"),
        ("1799-12-31T23:59:59.999Z", "year_out_of_range"),
        ("1800-01-01T00:00:00.000Z", None),
        ("2999-12-31T23:59:59.999Z", None),
        ("3000-01-01T00:00:00.000Z", "year_out_of_range"),
    ],
)
def test_when_it_was_sent_is_a_moment_of_a_year_that_is_believed(said: Any, code: str | None) -> None:
    body = json.dumps({"entries": [], "sent": said})
    assert (complaints(body) if code else []) == ([(0, "sent", code)] if code else [])
    assert code or read_call(body.encode()).sent


@pytest.mark.parametrize("said", ["7", 7.0, True, [], {}, "", 10**18])
def test_an_offset_that_is_no_whole_number_is_sent_back(said: Any) -> None:
    assert complaints(json.dumps({"entries": [], "offset_ms": said})) == [(0, "offset_ms", "not_a_whole_number")]


@pytest.mark.parametrize("said", [0, -1, 10**17])
def test_an_offset_is_a_whole_number_of_either_sign(said: int) -> None:
    assert read({"entries": [], "offset_ms": said}).offset_ms == said


@pytest.mark.parametrize(
    ("body", "twice"),
    [
        ('{"entries": [], "entries": []}', [(0, "entries")]),
        ('{"kind": "note", "text": "a", "text": "b"}', [(0, "text")]),
        ('{"kind": "note", "text": "a", "text": "a", "text": "a"}', [(0, "text")]),
        ('[{"kind": "note"}, {"kind": "x", "kind": "y", "id": 1, "id": 2}]', [(1, "kind"), (1, "id")]),
        (
            '{"entries": [{"kind": "visit", "readings": [{"key": "r1", "value": "1", "value": "2"}]}]}',
            [(0, "readings.r1.value")],
        ),
        (
            '{"entries": [{"kind": "visit", "readings": [{"value": "1", "value": "2"}, 7]}]}',
            [(0, "readings.0.value")],
        ),
        ('{"entries": [{"kind": "note", "text": {"a": 1, "a": 2}}]}', [(0, "text.a")]),
    ],
)
def test_a_name_that_stands_twice_in_one_object_is_complained_of_where_it_stands(
    body: str, twice: list[tuple[int, str]]
) -> None:
    assert complaints(body) == [(entry, field, "field_twice") for entry, field in twice]


def test_the_same_name_in_two_objects_is_fine() -> None:
    rows = [{"key": "r1", "value": "1"}, {"key": "r2", "value": "1"}]
    assert read([{"kind": "visit", "readings": rows}] * 2).entries == [{"kind": "visit", "readings": rows}] * 2


@pytest.mark.parametrize(
    ("body", "line", "column"),
    [
        (b"", 1, 1),
        (b"   ", 1, 1),
        (b'{"a": 1,}', 1, 8),
        (b'{\n  "a": NaN\n}', 2, 8),
        (b"[-Infinity]", 1, 3),
        (b'{"a":\n\n"\\ud800"}', 3, 2),
        (b'["\xc3\xa4",\n "\xc3\xa4\xff"]', 2, 4),
        (b"\xff\xfe[\x00]\x00", 1, 1),
        (b"[1] [2]", 1, 5),
        (b"[1e999]", 1, 2),
        (b"[" * 17 + b"]" * 17, 1, 1),
        (b"[" * 100_000, 1, None),
        (b"<entries/>", 1, 1),
        (b"kind=note", 1, 1),
    ],
)
def test_what_is_no_json_is_told_by_line_and_column(body: bytes, line: int, column: int | None) -> None:
    with pytest.raises(Unreadable) as found:
        read_call(body)
    assert (found.value.line, found.value.column if column else None) == (line, column)


def test_lists_inside_each_other_are_read_as_deep_as_an_entry_might_be() -> None:
    assert read_call(b"[" * 16 + b"]" * 16).entries == json.loads("[" * 16 + "]" * 16)


def test_a_mark_of_byte_order_is_no_part_of_the_json() -> None:
    assert read_call(b"\xef\xbb\xbf[]") == Call(entries=[])


@pytest.mark.parametrize("digits", [17, 18, 19, 300])
def test_a_number_longer_than_any_field_takes_comes_as_no_whole_number(digits: int) -> None:
    (number,) = read_call(b"[%s]" % (b"9" * digits)).entries
    assert isinstance(number, int) == (digits <= 18)


VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**16), 10**16)
    | st.text()
    | st.floats(allow_nan=False, allow_infinity=False),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)


@given(st.lists(VALUES))
def test_whatever_json_comes_as_entries_is_handed_on_as_it_came(entries: list[Any]) -> None:
    assert read({"entries": entries}).entries == entries


def test_nought_is_not_left_out() -> None:
    assert [value for value in (0, False, 0.0, None, "", [], {}) if value not in LEFT_OUT] == [0, False, 0.0]
