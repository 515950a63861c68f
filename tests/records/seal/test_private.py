from hashlib import sha256

import pytest

from repairlog.records.seal import NotSealable, digest_of_private, new_salt

SALT = bytes(range(32))


def test_a_private_value_stands_in_the_journal_as_the_digest_of_salt_and_text() -> None:
    text = "D. Okoro, 5 Mühlenweg"
    digest = digest_of_private(text, salt=SALT)
    assert digest == sha256(SALT + text.encode("utf-8")).hexdigest()
    # Worked out once with sha256sum over the same 32 + 22 bytes.
    assert digest == "da127a9ace5691b41f77ee6265b71d81254ef03798a4490f6410249035cf104d"


def test_the_same_text_under_another_salt_gives_another_digest() -> None:
    assert digest_of_private("555-0100", salt=SALT) != digest_of_private("555-0100", salt=SALT[::-1])
    assert digest_of_private("555-0100", salt=SALT) != digest_of_private("555-0101", salt=SALT)


@pytest.mark.parametrize("length", [0, 31, 33])
def test_a_salt_of_another_length_than_32_bytes_is_refused(length: int) -> None:
    with pytest.raises(ValueError, match=f"is 32 bytes; {length} came"):
        digest_of_private("555-0100", salt=bytes(length))


@pytest.mark.parametrize(("text", "code"), [("", "empty"), ("A\u030a", "not_nfc"), ("\ud83d", "surrogate")])
def test_a_private_text_is_held_to_the_rules_of_sealed_text(text: str, code: str) -> None:
    with pytest.raises(NotSealable) as refused:
        digest_of_private(text, salt=SALT)
    assert (refused.value.code, refused.value.path, refused.value.found) == (code, "", "str")


def test_salts_are_32_bytes_and_never_the_same() -> None:
    salts = [new_salt() for _ in range(100)]
    assert {len(salt) for salt in salts} == {32}
    assert len(set(salts)) == 100
