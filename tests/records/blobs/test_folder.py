"""Files lie under their digest, whole, and are never changed."""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest

from repairlog.records import blobs

# Source of the digest: FIPS 180-4, the one-block message "abc" (NIST's example values).
ABC = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_a_file_lies_under_its_digest_and_twice_is_once(tmp_path: Path) -> None:
    for _ in range(2):
        assert blobs.put(tmp_path, BytesIO(b"abc"), most=3) == blobs.Put(digest=ABC, length=3)
    at = tmp_path / "sha256" / "ba" / "78" / ABC
    assert [each for each in tmp_path.rglob("*") if each.is_file()] == [at]
    assert (at.read_bytes(), blobs.state_of(tmp_path, ABC), blobs.is_here(tmp_path, ABC)) == (b"abc", "here", True)


@pytest.mark.parametrize(("length", "taken"), [(9, True), (10, True), (11, False)])
def test_a_file_is_taken_up_to_its_most_and_nothing_is_left_of_a_larger_one(
    tmp_path: Path, length: int, taken: bool
) -> None:
    content = b"x" * length
    if taken:
        assert blobs.put(tmp_path, BytesIO(content), most=10).digest == sha256(content).hexdigest()
    else:
        with pytest.raises(blobs.TooLarge):
            blobs.put(tmp_path, BytesIO(content), most=10)
        assert [each for each in tmp_path.rglob("*") if each.is_file()] == []


def test_a_file_that_is_gone_or_altered_is_told_and_comes_right_when_it_comes_again(tmp_path: Path) -> None:
    assert blobs.state_of(tmp_path, ABC) == "missing"
    blobs.put(tmp_path, BytesIO(b"abc"), most=3)
    blobs.path_of(tmp_path, ABC).write_bytes(b"abd")
    assert blobs.state_of(tmp_path, ABC) == "altered"
    blobs.put(tmp_path, BytesIO(b"abc"), most=3)
    assert blobs.state_of(tmp_path, ABC) == "here"
    blobs.take_away(tmp_path, ABC)
    assert blobs.state_of(tmp_path, ABC) == "missing"


def test_what_breaks_off_on_its_way_leaves_nothing(tmp_path: Path) -> None:
    class Breaks(BytesIO):
        def read(self, _size: int | None = -1) -> bytes:
            raise OSError("the connection is gone")

    with pytest.raises(OSError, match="gone"):
        blobs.put(tmp_path, Breaks(b"abc"), most=3)
    assert list(tmp_path.iterdir()) == []
