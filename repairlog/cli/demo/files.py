"""The demo's pictures and written files put where the book's files lie, each noted as sent by whoever saved it."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO
from pathlib import Path

from repairlog.cli.demo.player import Save
from repairlog.records import blobs
from repairlog.records.beside.blobs import note_file
from repairlog.records.store import Store


def put_files(store: Store, folder: Path, *, of: Iterable[Save]) -> None:
    """Put every file of these saves into the folder of the book's files."""
    for save in of:
        for content, media_type in save.files:
            file = blobs.put(folder, BytesIO(content), most=len(content))
            note_file(store, file, media_type=media_type, person=save.by, at=save.moments.received)
