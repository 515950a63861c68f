import json
import unicodedata
from collections import OrderedDict
from decimal import Decimal
from enum import IntEnum, StrEnum
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from repairlog.records.seal import NotSealable, canonical, leaf
from tests.makers.sealed import refusal_of

# The sealed line of an invented repair on Mill Lane, names unsorted on purpose.
REPAIR: dict[str, Any] = {
    "v": 1,
    "operator": "019cb600-0000-7000-8000-000000000001",
    "index": 417,
    "said": {
        "kind": "repair_attempted",
        "version": 1,
        "id": "019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a",
        "leak": "019cb4d0-1180-7abc-9def-000000000001",
        "source": "019cb4d1-2222-7abc-9def-000000000002",
        "happened": "2026-03-05 10:02",
        "lasting": "permanent",
        "method": "bolt_on_clamp",
        "cause": "corrosion_failure",
        "hole_size": "1/16 in",
        "pressure_found": "45 psi",
        "pipe_temperature": "57 F",
        "outcome": "tight",
        "materials": [
            {"key": "m1", "lot": "019c0a00-3333-7abc-9def-000000000003", "used": "1"},
            {"key": "m2", "named": "W-81?", "used": "2"},
        ],
        "people": [{"key": "p1", "person": "019c0a00-4444-7abc-9def-000000000004", "task": "install clamp"}],
    },
    "understood": {
        "happened_on": "2026-03-05",
        "happened_at": "2026-03-05T15:02:00.000Z",
        "zone": "America/New_York",
        "utc_offset": "-05:00",
        "hole_size": "1.5875 mm",
        "pressure_found": "310.264078 kPa gauge",
        "pipe_temperature": "13.8888889 degC",
        "atmosphere": "101.325 kPa absolute",
        "units": "c981a30c0e7b420b0ba50ce7d1d4174a511fdf20567b852ab02c774cb9a3591e",
    },
    "by": {
        "did": ["019c0a00-4444-7abc-9def-000000000004"],
        "typed": "019c0a00-4444-7abc-9def-000000000004",
        "sent": "019c0a00-5555-7abc-9def-000000000005",
        "sure": "password",
    },
    "moments": {
        "written": "2026-03-05T15:20:11.000Z",
        "sent": "2026-03-05T15:20:12.000Z",
        "received": "2026-03-05T15:20:12.480Z",
        "offset_ms": -120,
    },
    "rulebook": "72b6689cf49c7b5f53497442c5623bd23f6442134016c14430822da7dd450589",
}


def by_the_standard_library(value: object) -> bytes:
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def test_the_line_of_a_repair_keeps_its_bytes_and_its_leaf() -> None:
    line = canonical(REPAIR)
    assert line == by_the_standard_library(REPAIR)
    assert len(line) == 1393
    assert line.startswith(b'{"by":{"did":["019c0a00-4444-7abc-9def-000000000004"],"sent":"019c')
    assert leaf(line).hex() == "1f9e75562606b3c45790cbb3c514cde12df06a97cc796651ee5160f8f819d5a6"


# Every text but lone surrogates, brought to NFC; what comes out of NFC is again whole text.
texts = st.text(st.characters(exclude_categories=["Cs"]), min_size=1).map(
    lambda text: unicodedata.normalize("NFC", text)
)
names = st.text(st.characters(max_codepoint=0x7F), min_size=1)
whole_numbers = st.integers(min_value=-(2**53) + 1, max_value=2**53 - 1)
sealable = st.recursive(
    texts | whole_numbers | st.booleans(),
    lambda inner: st.lists(inner, min_size=1, max_size=5) | st.dictionaries(names, inner, min_size=1, max_size=5),
    max_leaves=25,
)


@given(sealable)
def test_a_line_is_what_rfc_8785_and_the_standard_library_write(value: Any) -> None:
    line = canonical(value)
    assert line == rfc8785.dumps(value)
    assert line == by_the_standard_library(value)
    assert json.loads(line) == value


@given(st.dictionaries(names, sealable, min_size=2, max_size=6))
def test_the_order_in_which_names_came_changes_nothing(value: dict[str, Any]) -> None:
    assert canonical(dict(reversed(value.items()))) == canonical(value)


class Outcome(StrEnum):
    TIGHT = "tight"


class Rank(IntEnum):
    FIRST = 1


NEVER_SEALED = [
    (1.0, ("kind", "float")),
    (float("nan"), ("kind", "float")),
    (Decimal("1.5"), ("kind", "Decimal")),
    (b"text", ("kind", "bytes")),
    (("a",), ("kind", "tuple")),
    ({"a"}, ("kind", "set")),
    (OrderedDict(a=1), ("kind", "OrderedDict")),
    (Outcome.TIGHT, ("kind", "Outcome")),
    (Rank.FIRST, ("kind", "Rank")),
    (None, ("empty", "NoneType")),
    ("", ("empty", "str")),
    ([], ("empty", "list")),
    ({}, ("empty", "dict")),
    (2**53, ("large", "int")),
    (-(2**53), ("large", "int")),
    (10**400, ("large", "int")),
    ("A\u030a", ("not_nfc", "str")),
    ("\ud83d", ("surrogate", "str")),
    ("ab\udc80", ("surrogate", "str")),
]


@pytest.mark.parametrize(("value", "refusal"), NEVER_SEALED, ids=lambda part: repr(part)[:30])
def test_what_is_never_sealed_is_refused_at_the_top_in_a_list_and_in_a_row(
    value: object, refusal: tuple[str, str]
) -> None:
    code, found = refusal
    assert refusal_of(value) == (code, "", found)
    assert refusal_of(["a", value]) == (code, "[1]", found)
    assert refusal_of({"said": {"a": 1, "readings": [{"key": "r1"}, {"value": value}]}}) == (
        code,
        "said.readings[1].value",
        found,
    )


@pytest.mark.parametrize(
    ("name", "step", "found"),
    [
        ("", "['']", "str"),
        ("stra\u00dfe", "['stra\\xdfe']", "str"),
        ("\ud83d", "['\\ud83d']", "str"),
        (1, "[1]", "int"),
        (True, "[True]", "bool"),
        (None, "[None]", "NoneType"),
    ],
)
def test_a_name_that_is_no_ascii_text_is_refused(name: object, step: str, found: str) -> None:
    assert refusal_of({"said": {"a": 1, name: "text"}}) == ("name", "said" + step, found)


def test_whole_numbers_are_sealed_up_to_the_last_that_every_reader_keeps() -> None:
    assert canonical([2**53 - 2, 2**53 - 1, -(2**53) + 1]) == b"[9007199254740990,9007199254740991,-9007199254740991]"


def test_true_is_not_one() -> None:
    assert canonical([True, 1, False, 0]) == b"[true,1,false,0]"


def nested(levels: int) -> object:
    value: object = "text"
    for _ in range(levels):
        value = [value]
    return value


def test_a_value_may_lie_32_levels_down_and_no_deeper() -> None:
    assert canonical(nested(31)) == b"[" * 31 + b'"text"' + b"]" * 31
    assert canonical(nested(32)) == b"[" * 32 + b'"text"' + b"]" * 32
    assert refusal_of(nested(33)) == ("deep", "[0]" * 32, "list")


def test_a_value_that_contains_itself_is_refused() -> None:
    round_and_round: dict[str, object] = {}
    round_and_round["again"] = round_and_round
    assert refusal_of(round_and_round)[0] == "deep"


def test_a_refusal_says_where_and_why_and_keeps_the_value_to_itself() -> None:
    with pytest.raises(NotSealable) as refused:
        canonical({"said": {"notes": ["fine", "M. Aldous, A\u030asgata"]}})
    assert str(refused.value) == (
        "said.notes[1] (str) cannot be sealed: the text is not in Unicode form NFC; normalise it first"
    )
    with pytest.raises(NotSealable) as refused:
        canonical(1.5)
    assert str(refused.value) == (
        "the value (float) cannot be sealed: "
        "only text, whole numbers, true and false, lists and objects are sealed; write a measure as text"
    )
