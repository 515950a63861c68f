"""The canonical line against the published test data of RFC 8785 (JSON Canonicalization Scheme).

Source of the values: `jcs_rfc8785_vectors.json`, whose head names it: the test data of cyberphone/json-canonicalization
and the table of RFC 8785 appendix B.
"""

import json
import struct
from typing import Any

import pytest

from repairlog.records.seal import NotSealable, canonical
from tests.makers.published import values
from tests.makers.sealed import refusal_of

PUBLISHED = values("jcs_rfc8785_vectors.json")
OBJECTS = {case["name"]: case for case in PUBLISHED["objects"]}


def input_of(name: str) -> Any:
    return json.loads(OBJECTS[name]["input"])


def bytes_of(name: str) -> bytes:
    return bytes.fromhex(OBJECTS[name]["canonical_hex"])


def test_each_published_object_holds_something_that_is_never_sealed_and_is_refused_there() -> None:
    assert {name: refusal_of(input_of(name)) for name in OBJECTS} == {
        "arrays": ("empty", "[1]['10']", "NoneType"),
        "french": ("name", "['p\\xe9ch\\xe9']", "str"),
        "structures": ("kind", "['1']['\\n']", "float"),
        "unicode": ("not_nfc", "['Unnormalized Unicode']", "str"),
        "values": ("kind", "numbers[0]", "float"),
        "weird": ("name", "['\\u20ac']", "str"),
    }


def test_the_published_objects_without_what_is_never_sealed_give_the_published_bytes() -> None:
    arrays = input_of("arrays")
    del arrays[1]["10"], arrays[1]["1"]
    assert canonical(arrays) == bytes_of("arrays").replace(b'"1":[],"10":null,', b"")
    french = {name: text for name, text in input_of("french").items() if name.isascii()}
    assert canonical(french) == b'{"peach":"This sorting order","sin":"ignore locale"}'
    structures = input_of("structures")
    structures["1"]["\n"] = int(structures["1"]["\n"])
    structures = {name: item for name, item in structures.items() if name and item}
    assert canonical(structures) == (
        bytes_of("structures").replace(b'"":"empty",', b"").replace(b'"10":{},', b"").replace(b',"A":{},"a":{}', b"")
    )
    values = input_of("values")
    del values["numbers"], values["literals"][0]
    numbers = bytes_of("values").index(b',"numbers"'), bytes_of("values").index(b',"string"')
    assert canonical(values) == (bytes_of("values")[: numbers[0]] + bytes_of("values")[numbers[1] :]).replace(
        b"null,", b""
    )


@pytest.mark.parametrize("name", ["french", "structures", "values", "weird"])
def test_every_text_of_a_published_object_is_escaped_as_published(name: str) -> None:
    members = input_of(name).items()
    texts = [text for member in members for text in member if isinstance(text, str) and text and text != "\ufb33"]
    assert texts
    assert [text for text in texts if canonical(text) not in bytes_of(name)] == []


def test_ascii_names_stand_in_the_published_order() -> None:
    weird = {name: text for name, text in input_of("weird").items() if name.isascii()}
    assert canonical(weird) == (b'{"\\n":"Newline","\\r":"Carriage Return","1":"One","</script>":"Browser Challenge"}')
    assert bytes_of("weird").startswith(canonical(weird)[:-1])


def test_a_text_that_nfc_would_change_is_refused_even_where_the_standard_takes_it() -> None:
    assert refusal_of("\ufb33") == ("not_nfc", "", "str")  # Hebrew letter of "weird": excluded from composition
    assert refusal_of("A\u030a") == ("not_nfc", "", "str")
    assert canonical("\u00c5") == b'"\xc3\x85"'


@pytest.mark.parametrize("case", PUBLISHED["numbers"], ids=lambda case: case["ieee_hex"])
def test_no_floating_point_number_of_appendix_b_is_sealed(case: dict[str, str]) -> None:
    (number,) = struct.unpack(">d", bytes.fromhex(case["ieee_hex"]))
    assert refusal_of({"measured": number}) == ("kind", "measured", "float")


def test_whole_numbers_end_where_the_published_table_ends_them() -> None:
    published = {
        int(c["python"]): c["rfc8785"] for c in PUBLISHED["errors_and_integers"] if c.get("python", "").isdigit()
    }
    assert {number: sealed_or_refused(number) for number in published} == {
        number: "large" if text == "IntegerDomainError" else text for number, text in published.items()
    }
    assert sorted(published)[:2] == [2**53 - 1, 2**53]


def sealed_or_refused(value: object) -> str:
    try:
        return canonical(value).decode()
    except NotSealable as refused:
        return refused.code
