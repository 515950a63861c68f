"""Rulebooks as the book of record meets them: their texts by digest, and whoever reads texts, handed in from above."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from repairlog.trade.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """The text of one rulebook. `digest`: of the rulebook, SHA-256, hex; `extends`: digests of those that it extends,
    in its order."""

    digest: str
    id: str
    title: str
    text: str
    extends: tuple[str, ...]


class RulebookUnreadable(Exception):
    """A rulebook that was adopted cannot be opened: its text is not in the book, or this release cannot read it.
    `facts`: its `digest`."""

    code = "rulebook_unreadable"

    def __init__(self, digest: str) -> None:
        super().__init__(digest)
        self.facts = {"digest": digest}


def _nothing_offered() -> Mapping[str, Rulebook]:
    return {}


def _all_read() -> Sequence[str]:
    return ()


def _no_texts(_digest: str) -> Sequence[Kept]:
    return ()


def _nobody_reads(texts: Sequence[Kept]) -> Rulebook:
    raise RulebookUnreadable(texts[-1].digest)


@dataclass(frozen=True, slots=True)
class Rulebooks:
    """What whoever opens a book hands it. `offered`: by id, the rulebooks that can be adopted; `texts`: the text of
    one of them and of all it extends, what is extended first, none where no rulebook offered has that digest; `read`:
    the last one of such texts, read; raises RulebookUnreadable. `unread`: files in which
    something is wrong, so that what they say is not offered. `opened`: by digest, those that were read already."""

    offered: Callable[[], Mapping[str, Rulebook]] = _nothing_offered
    texts: Callable[[str], Sequence[Kept]] = _no_texts
    read: Callable[[Sequence[Kept]], Rulebook] = _nobody_reads
    unread: Callable[[], Sequence[str]] = _all_read
    opened: dict[str, Rulebook] = field(default_factory=dict, repr=False)


def digest_of_text(text: str) -> str:
    """SHA-256, hex, of a text whose ends of lines are one character."""
    return hashlib.sha256(text.encode(errors="surrogateescape")).hexdigest()


def digest_of(text_digest: str, *, extended: Sequence[str]) -> str:
    """SHA-256, hex, of a text's digest and those of the rulebooks it extends, in its order."""
    return hashlib.sha256("\n".join(("rulebook", text_digest, *extended)).encode()).hexdigest()
