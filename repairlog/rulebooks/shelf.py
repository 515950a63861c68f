"""Rulebooks on a shelf: those of a folder, with each other and with what is shipped."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from repairlog import shipped
from repairlog.rulebooks.composed import composed
from repairlog.rulebooks.reading import Text, read_text
from repairlog.rulebooks.wrong import RulebookWrong, Wrong
from repairlog.trade.rulebook import Rulebook

LONGEST = 1_000_000
"""Bytes of a file that is still a rulebook."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelved:
    """A rulebook beside the text it was read from. `extends`: digests of the rulebooks it extends, in its order."""

    rulebook: Rulebook
    text: str
    extends: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """`by_id`: every rulebook that could be read whole. `wrongs`: what is wrong in those that could not."""

    by_id: Mapping[str, Shelved] = field(default_factory=dict)
    wrongs: tuple[Wrong, ...] = ()

    def whole(self, digest: str) -> list[Shelved]:
        """The rulebook of that digest and everything that it rests on, what is extended before what extends it; none
        where there is no such rulebook."""
        by_digest = {each.rulebook.digest: each for each in self.by_id.values()}
        found: dict[str, Shelved] = {}
        _with_extended(digest, by_digest, found)
        return list(found.values())


def _with_extended(digest: str, by_digest: Mapping[str, Shelved], found: dict[str, Shelved]) -> None:
    if digest in found or digest not in by_digest:
        return
    for each in by_digest[digest].extends:
        _with_extended(each, by_digest, found)
    found[digest] = by_digest[digest]


def shipped_shelf() -> Shelf:
    """The rulebooks that come with this release. Raises RulebookWrong."""
    return read_shelf(files_of(shipped.config() / "rulebooks"))


def files_of(folder: Path) -> list[Path]:
    """The rulebook files of a folder, by name."""
    return sorted(folder.glob("*.toml"))


def read_shelf(files: Iterable[Path], *, beside: Shelf | None = None) -> Shelf:
    """The rulebooks of those files, which may extend each other and those `beside`. Raises RulebookWrong, which tells
    of every file at once, and OSError where a file cannot be read."""
    shelf = looked_at(files, beside=beside)
    if shelf.wrongs:
        raise RulebookWrong(shelf.wrongs)
    return shelf


def looked_at(files: Iterable[Path], *, beside: Shelf | None = None) -> Shelf:
    """The same, with what is wrong told beside what could be read."""
    return shelf_of(((str(file), _raw(file)) for file in files), beside=beside)


def _raw(file: Path) -> bytes:
    with file.open("rb") as opened:
        return opened.read(LONGEST + 1)


def shelf_of(named: Iterable[tuple[str, bytes]], *, beside: Shelf | None = None) -> Shelf:
    """The rulebooks of texts, each with the name that people know it by, beside those of another shelf."""
    filling = _Filling(shelved=dict(beside.by_id) if beside else {})
    for file, raw in named:
        _read(raw, file=file, into=filling)
    for id in list(filling.texts):
        _compose(id, filling, on_the_way=())
    return Shelf(by_id=filling.shelved, wrongs=tuple(sorted(filling.wrongs, key=lambda each: (each.file, each.line))))


@dataclass(slots=True, kw_only=True)
class _Filling:
    shelved: dict[str, Shelved]
    texts: dict[str, Text] = field(default_factory=dict)
    failed: set[str] = field(default_factory=set)
    wrongs: list[Wrong] = field(default_factory=list)


def _read(raw: bytes, *, file: str, into: _Filling) -> None:
    if len(raw) > LONGEST:
        into.wrongs.append(Wrong(file=file, line=1, rule="", key="", code="too_long", expected=f"{LONGEST:,}"))
        return
    text, wrongs = read_text(raw, file=file)
    if text is None:
        into.wrongs.extend(wrongs)
    elif text.id in into.texts:
        text.at.inner("id").wrong("rulebook_twice", got=text.id, expected=into.texts[text.id].file)
        into.wrongs.extend(wrongs)
    else:
        into.texts[text.id] = text
        into.shelved.pop(text.id, None)


def _compose(id: str, filling: _Filling, *, on_the_way: tuple[str, ...]) -> Shelved | None:
    """The rulebook of that id, what it extends composed before it; None where it or one of those is wrong."""
    if id in filling.shelved or id not in filling.texts:
        return filling.shelved.get(id)
    text = filling.texts[id]
    extended: list[Shelved] = []
    for each in text.extends:
        if each in (id, *on_the_way):
            text.at.inner("extends").wrong("extends_in_a_ring", got=each)
        elif each not in filling.texts and each not in filling.shelved and each not in filling.failed:
            among = sorted({*filling.texts, *filling.shelved} - {id})
            text.at.inner("extends").wrong("rulebook_unknown", got=each, among=among)
        elif found := _compose(each, filling, on_the_way=(*on_the_way, id)):
            extended.append(found)
    return _shelve(text, extended, filling)


def _shelve(text: Text, extended: list[Shelved], filling: _Filling) -> Shelved | None:
    if text.id in filling.shelved:
        return filling.shelved[text.id]
    done = len(extended) == len(text.extends)
    rulebook = composed(text, extended=[each.rulebook for each in extended]) if done else None
    if rulebook is None or text.at.wrongs:
        filling.texts.pop(text.id, None)
        filling.failed.add(text.id)
        filling.wrongs.extend(text.at.wrongs)
        return None
    shelved = Shelved(rulebook=rulebook, text=text.text, extends=tuple(each.rulebook.digest for each in extended))
    filling.shelved[text.id] = shelved
    return shelved
