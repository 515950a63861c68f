"""Files that come with a form: put into their folder at once, whatever becomes of the form, so that none is lost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from uuid import UUID

from flask import current_app, request

from repairlog.records import blobs
from repairlog.records.beside.blobs import note_file
from repairlog.records.blobs import TooLarge
from repairlog.records.story import Story
from repairlog.web.frame.asking import asker, store

KEEPS_FILES = ("attachments.page", "attachments.to_books")
READS_FILES = ("cure_of_file.page",)
BESIDE = 1_000_000
"""Bytes of a form beside its file."""

TIMES = 4
"""How much larger than may be kept a file may come: all of its form is read, so that the page comes back with it and
says of the file what is wrong."""

BOX = "picture"


@dataclass(frozen=True, slots=True, kw_only=True)
class Files:
    """Where files lie, and the most bytes of one."""

    folder: Path
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Came:
    """A file that came with this form, as its entry will say it. `name`: as given; `taken`: as the file says."""

    digest: str
    length: int
    media_type: str
    name: str
    taken: str


def files() -> Files:
    """The folder of this site."""
    found: Files = current_app.extensions["repairlog.files"]
    return found


def let_files_in() -> None:
    """Let requests of the pages that take files be as large as a file may be, or larger where the page can say so."""
    if request.endpoint in KEEPS_FILES:
        request.max_content_length = TIMES * files().most + BESIDE
    elif request.endpoint in READS_FILES:
        request.max_content_length = files().most + BESIDE


def came() -> Came | None:
    """The file of this form, put into its folder; None where none came. Raises TooLarge."""
    sent = request.files.get(BOX)
    if sent is None or not sent.filename:
        return None
    of = files()
    file = blobs.put(of.folder, sent.stream, most=of.most)  # type: ignore[arg-type]
    if not file.length:
        return None
    media_type = blobs.media_type_of(of.folder, file.digest)
    note_file(store(), file, media_type=media_type, person=asker().actor.person, at=asker().at)
    name = " ".join(Path(sent.filename.replace("\\", "/")).name.split())[:200]
    return Came(
        digest=file.digest,
        length=file.length,
        media_type=media_type,
        name=name if name.isprintable() else "",
        taken=blobs.taken_of(of.folder, file.digest),
    )


def files_told(story: Story) -> Mapping[UUID, tuple[str, bool, bool]]:
    """By entry of a story that attaches one: the file's digest, whether it is here, whether it is a picture."""
    attached = [each.entry for each in story.told if each.entry.kind == "attached"]
    return {
        entry.id: (
            entry.text("digest"),
            blobs.is_here(files().folder, entry.text("digest")),
            entry.text("media_type").startswith("image/"),
        )
        for entry in attached
    }


__all__ = ["Came", "Files", "TooLarge", "came", "files", "files_told", "let_files_in"]
