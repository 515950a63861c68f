"""An entry on its way to the door, and the same entry read back from its sealed line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from repairlog.entries.ids import read_id
from repairlog.entries.moments import read_moment
from repairlog.entries.versions import lifted

Row = Mapping[str, Any]

NOT_YET = 1 << 60
"""With its place in the call added, the index of an entry that has none yet: after every index there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry as `intake` understood it, before the door gives it an index.

    `said`: as the person gave it: plain values (text, whole numbers) and lists of flat rows, absent left out.
    `understood`: what was made of it: a flat map of paths (`pressure_found`, `readings.r3.value`) to text.
    `did`, `typed`: who did it (rows), who typed it. `written`: the device's clock, None where it gave none.
    `private`: values by path that stand beside the journal. `rests_on`: the version of the settings that it was
    understood with, by area. `read_up_to`: of what puts another entry right, the index of the last entry about the same
    matter that it was read against; None where nobody says so.
    """

    said: Mapping[str, Any]
    understood: Mapping[str, Any]
    did: Sequence[Row]
    typed: UUID
    written: datetime | None = None
    private: Mapping[str, str] = field(default_factory=dict)
    rests_on: Mapping[UUID, int] = field(default_factory=dict)
    read_up_to: int | None = None

    @property
    def id(self) -> UUID:
        return read_id(self.said["id"])

    @property
    def kind(self) -> str:
        return str(self.said["kind"])


@dataclass(frozen=True, slots=True, kw_only=True)
class Moments:
    """When a call came in: the server's clock; what the device said of its own. `offset_ms`: device less server."""

    received: datetime
    sent: datetime | None = None
    offset_ms: int | None = None


def offset_ms(moments: Moments) -> int | None:
    """The device's clock less the server's: as measured, else sent less received, None where neither is known."""
    if moments.offset_ms is not None or moments.sent is None:
        return moments.offset_ms
    return (moments.sent - moments.received) // timedelta(milliseconds=1)


def written_truly(written: datetime | None, moments: Moments) -> datetime:
    """When an entry was written: by the device's clock with its offset taken off, else when it was received.

    Never later than it was received: a clock that runs ahead lends nobody a role that begins tomorrow.
    """
    if written is None:
        return moments.received
    return min(written - timedelta(milliseconds=offset_ms(moments) or 0), moments.received)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A sealed entry as it stands now: read from its line, with the corrections that count applied.

    `index`: its place in the journal. `private`: digest by path. `by`: did, typed, sent, sure. `moments`: written,
    sent, received, as sealed. `corrected`: indexes of the corrections applied, in the journal's order.
    `void`: index of the entry that made it void, None where it stands.
    """

    index: int
    said: Mapping[str, Any]
    understood: Mapping[str, Any]
    by: Mapping[str, Any]
    moments: Mapping[str, Any]
    private: Mapping[str, str]
    corrected: tuple[int, ...] = ()
    void: int | None = None

    @property
    def id(self) -> UUID:
        return read_id(self.said["id"])

    @property
    def kind(self) -> str:
        return str(self.said["kind"])

    @property
    def on(self) -> str:
        """The legal day on which it happened, `YYYY-MM-DD`."""
        return str(self.understood["happened_on"])

    def text(self, name: str) -> str:
        """What was said under that name; empty where nothing was."""
        return str(self.said.get(name, ""))

    def said_at(self, path: str) -> str:
        """What was said at `name` or `list.key.name`; empty where nothing was."""
        name, _, rest = path.partition(".")
        if not rest:
            return self.text(name)
        key, _, field = rest.partition(".")
        return next((str(row.get(field, "")) for row in self.rows(name) if row["key"] == key), "")

    def rows(self, name: str) -> Sequence[Row]:
        """The rows of that list; none where it was left out."""
        rows: Sequence[Row] = self.said.get(name, ())
        return rows


def from_sealed(sealed: Mapping[str, Any]) -> Standing:
    """The entry of one parsed journal line in its kind's present version, before any correction."""
    sealed = lifted(sealed)
    return Standing(
        index=sealed["index"],
        said=sealed["said"],
        understood=sealed["understood"],
        by=sealed["by"],
        moments=sealed["moments"],
        private=sealed.get("private", {}),
    )


def order_of_happening(entry: Standing) -> tuple[str, int, str, int]:
    """Sorts entries as they happened: day; moments, then those without, then days not known; moment; index."""
    at = entry.understood.get("happened_at", "")
    group = 2 if "happened_known" in entry.understood else (0 if at else 1)
    return (entry.on, group, at, entry.index)


def moment_received(entry: Standing) -> datetime:
    """When the server received it."""
    return read_moment(entry.moments["received"])
