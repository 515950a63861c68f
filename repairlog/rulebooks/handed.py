"""The rulebooks that whoever opens a book hands it: those shipped and those of the operator's own folder."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

from repairlog.rulebooks.shelf import Shelf, files_of, looked_at, shelf_of, shipped_shelf
from repairlog.trade.rulebook import Rulebook
from repairlog.trade.rulebook.kept import Kept, Rulebooks, RulebookUnreadable


def rulebooks_of(own: Path | None = None) -> Rulebooks:
    """Those that come with this release, and those in the folder `own`, which may extend or replace them. Nothing is
    read before it is asked for; the folder is read anew each time, since its files are the operator's to change."""

    def offered() -> Mapping[str, Rulebook]:
        return {id: each.rulebook for id, each in shelf_with(own).by_id.items()}

    def texts(digest: str) -> Sequence[Kept]:
        return [
            Kept(
                digest=each.rulebook.digest,
                id=each.rulebook.id,
                title=each.rulebook.title,
                text=each.text,
                extends=each.extends,
            )
            for each in shelf_with(own).whole(digest)
        ]

    def unread() -> Sequence[str]:
        return list(dict.fromkeys(Path(each.file).name for each in shelf_with(own).wrongs))

    return Rulebooks(offered=offered, texts=texts, read=read_kept, unread=unread)


def shelf_with(own: Path | None) -> Shelf:
    """The shelf of both; what is wrong in a file of the operator's own is told beside the others."""
    if own is None or not own.is_dir():
        return _shipped()
    return looked_at(files_of(own), beside=_shipped())


def read_kept(texts: Sequence[Kept]) -> Rulebook:
    """The last one of kept texts, those that it extends before it. Raises RulebookUnreadable."""
    asked = texts[-1]
    found = shelf_of((each.id, each.text.encode()) for each in texts).by_id.get(asked.id)
    if found is None or found.rulebook.digest != asked.digest:
        raise RulebookUnreadable(asked.digest)
    return found.rulebook


@cache
def _shipped() -> Shelf:
    """Read once a process: what is shipped changes with a release alone."""
    return shipped_shelf()
