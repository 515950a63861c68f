"""What a file is by its content, and a picture of it, drawn anew: nothing of the file's own bytes reaches a browser."""

from __future__ import annotations

import os
import struct
import tempfile
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from repairlog.records.blobs.folder import path_of, state_of

FORMATS = {"JPEG": "image/jpeg", "PNG": "image/png", "GIF": "image/gif", "WEBP": "image/webp"}
SEVERAL = {"MPO": "image/jpeg"}
"""What the library calls a JPEG that holds further pictures, as some telephones make."""

LONGEST = 1600
"""Pixels of the longer side of a picture that is drawn."""

_BROKEN = (OSError, ValueError, SyntaxError, struct.error)
"""What the library raises of a file that begins as a picture and does not go on as one."""

_TAKEN, _TAKEN_IN = 36867, 34665  # Exif 2.32: DateTimeOriginal, in the Exif directory


def media_type_of(folder: Path, digest: str) -> str:
    """What the file is, as its content says; application/octet-stream for what is nothing that is known here."""
    with _opened(path_of(folder, digest)) as image:
        if image is not None:
            return (FORMATS | SEVERAL)[image.format]
    content = path_of(folder, digest).read_bytes()
    if content.startswith(b"%PDF-"):  # ISO 32000-2, 7.5.2
        return "application/pdf"
    try:
        text = content.decode()
    except UnicodeDecodeError:
        return "application/octet-stream"
    return "text/plain" if text.replace("\n", "").replace("\r", "").replace("\t", "").isprintable() else _UNKNOWN


_UNKNOWN = "application/octet-stream"


def taken_of(folder: Path, digest: str) -> str:
    """When a picture was taken, as the file itself says, such as `2026:03:05 09:40:00`; empty where it does not."""
    with _opened(path_of(folder, digest)) as image:
        if image is None:
            return ""
        try:
            taken = image.getexif().get_ifd(_TAKEN_IN).get(_TAKEN, "")
        except _BROKEN:
            return ""
    text = str(taken).strip("\x00 ")
    return text if len(text) <= 40 and text.isprintable() else ""


def picture_of(folder: Path, digest: str) -> Path | None:
    """A JPEG of that picture, turned upright, without what else the file holds; drawn once and kept aside. None where
    the file is no picture, is not there, or was altered."""
    drawn = folder / "aside" / f"{digest}-{LONGEST}.jpg"
    if drawn.is_file():
        return drawn
    if state_of(folder, digest) != "here":
        return None
    from PIL import ImageOps

    with _opened(path_of(folder, digest)) as image:
        if image is None:
            return None
        try:
            upright = ImageOps.exif_transpose(image).convert("RGB")
        except _BROKEN:
            return None  # it begins as a picture and does not end as one
        upright.thumbnail((LONGEST, LONGEST))
        drawn.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=drawn.parent, prefix="coming-")
        with os.fdopen(handle, "wb") as file:
            upright.save(file, "JPEG", quality=85)
        Path(name).replace(drawn)
    return drawn


@contextmanager
def _opened(path: Path) -> Iterator[Any]:
    """The picture in that file; None where it is none. The library is loaded with the first one: a page without
    pictures does not wait for it."""
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(path, formats=tuple(FORMATS))
    except (*_BROKEN, UnidentifiedImageError, Image.DecompressionBombError, Warning):
        yield None
        return
    with image:
        yield image
