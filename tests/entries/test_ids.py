from datetime import UTC, datetime, timedelta, timezone
from hashlib import sha256
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.ids import NAMESPACE, as_id, is_version, name_based, new_uuid7, read_id, uuid7, uuid8

AT = datetime(2026, 3, 5, 15, 20, 11, tzinfo=UTC)
V7 = "019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a"

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
LAST = datetime(9999, 12, 31, 23, 59, 59, 999999, tzinfo=UTC)

moments = st.timedeltas(min_value=timedelta(0), max_value=LAST - EPOCH).map(lambda since: EPOCH + since)


@given(at=moments, random=st.binary(min_size=10, max_size=10))
def test_a_version_7_id_gives_back_its_millisecond_and_its_74_bits(at: datetime, random: bytes) -> None:
    made = uuid7(at=at, random=random)
    assert EPOCH + timedelta(milliseconds=made.int >> 80) == at.replace(microsecond=at.microsecond // 1000 * 1000)
    assert (made.int >> 64 & 0xFFF) << 62 | made.int & (1 << 62) - 1 == int.from_bytes(random) & (1 << 74) - 1
    assert (made.version, made.variant) == (7, "specified in RFC 4122")


def test_later_by_a_millisecond_sorts_later_whatever_chance_gives() -> None:
    before = uuid7(at=AT, random=b"\xff" * 10)
    after = uuid7(at=AT + timedelta(milliseconds=1), random=b"\x00" * 10)
    assert str(before) < str(after)
    assert before.bytes < after.bytes


def test_version_7_counts_from_the_first_millisecond_of_1970() -> None:
    with pytest.raises(ValueError, match="lies before 1970"):
        uuid7(at=EPOCH - timedelta(milliseconds=1), random=bytes(10))
    assert str(uuid7(at=EPOCH, random=bytes(10))) == "00000000-0000-7000-8000-000000000000"
    assert str(uuid7(at=EPOCH + timedelta(milliseconds=1), random=bytes(10))) == "00000000-0001-7000-8000-000000000000"


def test_version_7_wants_an_aware_moment_and_ten_bytes() -> None:
    with pytest.raises(ValueError, match="names no zone"):
        uuid7(at=AT.replace(tzinfo=None), random=bytes(10))
    for length in (9, 11):
        with pytest.raises(ValueError, match=f"takes 10 random bytes; {length} came"):
            uuid7(at=AT, random=bytes(length))


def test_new_ids_of_one_moment_differ_and_name_it() -> None:
    made = [new_uuid7(AT.astimezone(timezone(timedelta(hours=-5)))) for _ in range(100)]
    assert len(set(made)) == 100
    assert {one.int >> 80 for one in made} == {int(AT.timestamp()) * 1000}


def test_an_id_worked_out_of_an_old_list_never_changes() -> None:
    # Worked out here a second way, from the words of the docstring; the text holds both to the present value.
    name = b"6:import2:ES4:041717:M\xc3\xbchle, Mill Lane"
    hashed = sha256(NAMESPACE.bytes + name).digest()
    by_hand = bytearray(hashed[:16])
    by_hand[6] = by_hand[6] & 0x0F | 0x80
    by_hand[8] = by_hand[8] & 0x3F | 0x80
    made = uuid8("import", "ES", "0417", "Mühle, Mill Lane")
    assert made.bytes == bytes(by_hand)
    assert str(made) == "49793fb0-b747-8c39-84e4-f5e45ba1f5a9"
    assert made == name_based(NAMESPACE, name)


texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=4)
rows = st.lists(texts, min_size=1, max_size=4)


@given(one=rows, other=rows)
def test_only_the_same_parts_cut_the_same_way_give_the_same_id(one: list[str], other: list[str]) -> None:
    assert (uuid8(*one) == uuid8(*other)) == (one == other)


def test_parts_that_run_together_the_same_give_different_ids() -> None:
    cuts = [("a", "bc"), ("ab", "c"), ("abc",), ("abc", ""), ("", "abc"), ("bc", "a"), ("1:a2:bc",), ("1:a", "2:bc")]
    assert len({uuid8(*parts) for parts in cuts}) == len(cuts)


def test_an_id_of_nothing_and_of_half_a_character_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one part"):
        uuid8()
    with pytest.raises(ValueError, match="surrogates not allowed"):
        uuid8("\ud800")


def test_an_id_is_of_the_version_that_its_text_says() -> None:
    asked = [
        V7,
        str(uuid8("a")),
        "919108f7-52d1-4320-9bac-f847db4148a8",
        V7.upper(),
        "019cbec3-7c40-7a10-0b1c-2f7f1d2c3b4a",
        "",
    ]
    assert [(is_version(text, 7), is_version(text, 8)) for text in asked] == [
        (True, False),
        (False, True),
        (False, False),
        (False, False),  # capitals are not our form
        (False, False),  # the variant is not that of RFC 9562
        (False, False),
    ]


def test_an_id_is_read_in_one_form_only() -> None:
    assert read_id(V7) == UUID(V7)
    others = [
        V7.upper(),
        V7.replace("-", ""),
        "{" + V7 + "}",
        "urn:uuid:" + V7,
        V7 + "\n",
        " " + V7,
        V7[:-1],
        V7 + "0",
        V7[:-1] + "g",
        V7[:-1] + "\u0661",
        "",
    ]
    for text in others:
        with pytest.raises(ValueError, match="is no id; one is written"):
            read_id(text)
        assert as_id(text) is None


def test_what_is_no_text_is_no_id_and_nothing_is_raised() -> None:
    assert [as_id(value) for value in (V7, None, 7, UUID(V7), [V7])] == [UUID(V7), None, None, None, None]


@given(st.uuids())
def test_reading_what_an_id_prints_gives_the_id(one: UUID) -> None:
    assert read_id(str(one)) == one
