"""The folder of the blobs: `sha256/ab/cd/` and the whole digest. A file comes whole or not at all."""

from __future__ import annotations

import os
import tempfile
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import BinaryIO, Literal

AT_ONCE = 1024 * 1024
State = Literal["here", "missing", "altered"]


class TooLarge(Exception):
    """The file is larger than is taken. `most`: in bytes, as in `facts`."""

    code = "file_too_large"

    def __init__(self, most: int) -> None:
        super().__init__(most)
        self.most = most
        self.facts = {"most": str(most)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Put:
    """A file that was put there. `digest`: its SHA-256, 64 hexadecimal digits; `length`: in bytes."""

    digest: str
    length: int


def put(folder: Path, content: BinaryIO, *, most: int) -> Put:
    """Put a file there under its digest, on the disk before this comes back; one that is there already stays as it is,
    unless it was altered: then the right one takes its place. Raises TooLarge for more than `most` bytes."""
    folder.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=folder, prefix="coming-")
    coming, digest, length = Path(name), sha256(), 0
    try:
        with os.fdopen(handle, "wb") as file:
            while part := content.read(AT_ONCE):
                length += len(part)
                if length > most:
                    raise TooLarge(most)
                digest.update(part)
                file.write(part)
            file.flush()
            os.fsync(file.fileno())
        made = Put(digest=digest.hexdigest(), length=length)
        to = path_of(folder, made.digest)
        to.parent.mkdir(parents=True, exist_ok=True)
        if state_of(folder, made.digest) != "here":
            coming.replace(to)
            _sync(to.parent)
        return made
    finally:
        coming.unlink(missing_ok=True)


def path_of(folder: Path, digest: str) -> Path:
    """Where the file of that digest lies, if it is there."""
    return folder / "sha256" / digest[:2] / digest[2:4] / digest


def is_here(folder: Path, digest: str) -> bool:
    """Whether a file lies there under that digest; what is in it is not looked at."""
    return path_of(folder, digest).is_file()


def state_of(folder: Path, digest: str) -> State:
    """Whether the file of that digest is there, and is what it was."""
    found = sha256()
    try:
        with path_of(folder, digest).open("rb") as file:
            while part := file.read(AT_ONCE):
                found.update(part)
    except FileNotFoundError:
        return "missing"
    return "here" if found.hexdigest() == digest else "altered"


def take_away(folder: Path, digest: str) -> None:
    """Delete the file of that digest, and the picture drawn from it."""
    path_of(folder, digest).unlink(missing_ok=True)
    for drawn in (folder / "aside").glob(f"{digest}-*"):
        drawn.unlink(missing_ok=True)


def _sync(folder: Path) -> None:
    """Have the name itself on the disk, too."""
    opened = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)
