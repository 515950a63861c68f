"""Ids against the worked examples of RFC 9562 (Universally Unique IDentifiers)."""

from datetime import datetime, timedelta, timezone
from hashlib import sha256
from uuid import NAMESPACE_DNS, UUID

from repairlog.entries.ids import name_based, uuid7


def test_version_7_is_the_example_of_appendix_a_6() -> None:
    # Source: RFC 9562 appendix A.6: Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00, rand_a and rand_b as below.
    at = datetime(2022, 2, 22, 14, 22, 22, tzinfo=timezone(timedelta(hours=-5)))
    rand_a, rand_b = 0xCC3, 0x18C4DC0C0C07398F
    made = uuid7(at=at, random=(rand_a << 62 | rand_b).to_bytes(10))
    assert made == UUID("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")


def test_version_8_is_the_name_based_example_of_appendix_b_2() -> None:
    # Source: RFC 9562 appendix B.2: the DNS namespace and www.example.com, SHA-256 and what becomes of it.
    hashed = sha256(UUID("6ba7b810-9dad-11d1-80b4-00c04fd430c8").bytes + b"www.example.com").hexdigest()
    assert hashed == "5c146b143c524afd938a375d0df1fbf6fe12a66b645f72f6158759387e51f3c8"
    assert name_based(NAMESPACE_DNS, b"www.example.com") == UUID("5c146b14-3c52-8afd-938a-375d0df1fbf6")
