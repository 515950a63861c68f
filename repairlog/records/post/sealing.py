"""The lines that entries become, but for their place: who, when, what was said and understood, private digests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.access import Ask, left_on
from repairlog.entries.entry import NOT_YET, Entry, Moments, Standing, from_sealed, offset_ms
from repairlog.entries.moments import moment_text
from repairlog.records import seal
from repairlog.records.post.sent import Sent

FORMAT = 1
"""Version of the sealed line's own format."""


@dataclass(frozen=True, slots=True)
class Draft:
    """A sealed line without its index, and the private values (path, value, salt) that go beside it."""

    line: Mapping[str, Any]
    private: Sequence[tuple[str, str, bytes]]

    @property
    def id(self) -> str:
        return str(self.line["said"]["id"])


def draft(entry: Entry, *, operator: UUID, sent: Sent, ask: Ask, rulebook: str) -> Draft:
    """What is sealed of one entry. `ask`: as access saw it, which tells whether the sender had left by then.
    `rulebook`: digest of what held in its area on its day, empty where nothing did."""
    private = [(path, value, seal.new_salt()) for path, value in sorted(entry.private.items())]
    by: dict[str, Any] = {
        "did": list(entry.did),
        "typed": str(entry.typed),
        "sent": str(sent.actor.person),
        "sure": sent.actor.sure,
    }
    if left := left_on(sent.actor, ask):
        by["left_on"] = left
    line: dict[str, Any] = {
        "v": FORMAT,
        "operator": str(operator),
        "said": dict(entry.said),
        "understood": dict(entry.understood),
        "by": by,
        "moments": _moments(entry, sent.moments),
    }
    if rulebook:
        line["rulebook"] = rulebook
    if private:
        line["private"] = {path: seal.digest_of_private(value, salt=salt) for path, value, salt in private}
    return Draft(line, private)


def _moments(entry: Entry, moments: Moments) -> dict[str, Any]:
    sealed: dict[str, Any] = {"received": moment_text(moments.received)}
    if entry.written is not None:
        sealed["written"] = moment_text(entry.written)
    if moments.sent is not None:
        sealed["sent"] = moment_text(moments.sent)
    if (offset := offset_ms(moments)) is not None:
        sealed["offset_ms"] = offset
    return sealed


def day_in(zone: str, moment: datetime) -> str:
    """The legal day of a moment in that zone, `YYYY-MM-DD`."""
    return moment.astimezone(ZoneInfo(zone)).date().isoformat()


def provisional(drafts: Sequence[Draft]) -> list[Standing]:
    """The entries of these drafts as they will stand, each after every sealed one, in the order of the call."""
    return [from_sealed({**each.line, "index": NOT_YET + place}) for place, each in enumerate(drafts)]
