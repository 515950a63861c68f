"""What a file is, its content says; what is shown of a picture is drawn anew."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from repairlog.records import blobs

ORIENTATION, TAKEN = 274, 36867  # Exif 2.32


def drawn(format: str, *, size: tuple[int, int] = (40, 20), exif: Image.Exif | None = None) -> bytes:
    made = BytesIO()
    Image.new("RGB", size, "white").save(made, format, **({"exif": exif} if exif else {}))
    return made.getvalue()


def kept(folder: Path, content: bytes) -> str:
    return blobs.put(folder, BytesIO(content), most=10**7).digest


@pytest.mark.parametrize(
    ("content", "media_type"),
    [
        (drawn("JPEG"), "image/jpeg"),
        (drawn("PNG"), "image/png"),
        (drawn("WEBP"), "image/webp"),
        (b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", "application/pdf"),
        (b"tag 31\n", "text/plain"),
        ("Stück 31".encode(), "text/plain"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "text/plain"),
        (b"MZ\x90\x00\x03", "application/octet-stream"),
        (b"\xff\xd8\xff", "application/octet-stream"),
        (drawn("BMP"), "application/octet-stream"),
    ],
)
def test_a_file_is_what_its_content_says_it_is(tmp_path: Path, content: bytes, media_type: str) -> None:
    assert blobs.media_type_of(tmp_path, kept(tmp_path, content)) == media_type


def test_a_picture_is_drawn_upright_smaller_and_without_what_the_file_says_beside_it(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # to be turned by a quarter
    exif[271] = "a maker"
    exif.get_ifd(34665)[TAKEN] = "2026:03:05 09:40:00"
    digest = kept(tmp_path, drawn("JPEG", size=(3200, 1000), exif=exif))
    assert blobs.taken_of(tmp_path, digest) == "2026:03:05 09:40:00"
    at = blobs.picture_of(tmp_path, digest)
    assert at is not None
    with Image.open(at) as picture:
        assert (picture.format, picture.size, dict(picture.getexif())) == ("JPEG", (500, 1600), {})
    assert blobs.picture_of(tmp_path, digest) == at
    blobs.take_away(tmp_path, digest)
    assert not at.exists()


@pytest.mark.parametrize("content", [b"tag 31\n", b"\xff\xd8\xff", drawn("PNG", size=(900, 900))[:200]])
def test_of_what_is_no_whole_picture_none_is_drawn(tmp_path: Path, content: bytes) -> None:
    digest = kept(tmp_path, content)
    assert (blobs.picture_of(tmp_path, digest), blobs.taken_of(tmp_path, digest)) == (None, "")


def test_of_a_picture_that_was_altered_none_is_drawn(tmp_path: Path) -> None:
    digest = kept(tmp_path, drawn("PNG"))
    blobs.path_of(tmp_path, digest).write_bytes(drawn("PNG", size=(9, 9)))
    assert blobs.picture_of(tmp_path, digest) is None
