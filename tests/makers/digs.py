"""Entries to say about digs and places, what ties things together, and what is attached."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import Any
from uuid import UUID

from repairlog.records.effects.entries import street_as_row
from tests.makers.book import Book, new_id


def dig(book: Book, leaks: Sequence[str] = (), **fields: Any) -> dict[str, Any]:
    """A dig over a service, with a ticket that holds."""
    return {
        "kind": "dig_opened",
        "id": new_id(),
        "area": book.area,
        "happened": "2026-03-05 08:30",
        "ticket": "T-10418",
        "ticket_from": "2026-03-05 07:00",
        "ticket_until": "2026-03-19 17:00",
        "surface": "asphalt",
        "leaks": [{"key": f"l{place}", "leak": id} for place, id in enumerate(leaks, start=1)],
        "ties": [{"key": "t1", "from_what": "corner of number 14", "distance": "12 ft 4 in"}],
    } | fields


def found(dig: str, **fields: Any) -> dict[str, Any]:
    """The source is found."""
    return _in(dig, "dig_found", happened="2026-03-05 09:30", found="source", depth="3 ft 6 in", cover="30 in") | fields


def exposed(dig: str, **fields: Any) -> dict[str, Any]:
    """Steel with a damaged coating and a pit."""
    said = {"outside": "coated", "coating": "coal tar", "coating_state": "damaged", "corrosion_outside": "pitting"}
    return _in(dig, "pipe_exposed", happened="2026-03-05 09:45", deepest_pit="1/16 in", **said) | fields


def backfilled(dig: str, **fields: Any) -> dict[str, Any]:
    """Filled the same day."""
    return _in(dig, "dig_backfilled", happened="2026-03-05 10:15", material="sand") | fields


def owed(dig: str, **fields: Any) -> dict[str, Any]:
    """Asphalt is owed."""
    said = {"what": "asphalt, 4 ft by 6 ft", "by_on": "2026-04-30", "owed_by": "the paving contractor"}
    return _in(dig, "restoration_owed", happened="2026-03-05 10:18", **said) | fields


def restored(dig: str, **fields: Any) -> dict[str, Any]:
    """All that is owed is done."""
    return _in(dig, "restored", happened="2026-03-05 10:19") | fields


def place(book: Book, **fields: Any) -> dict[str, Any]:
    """A service with its premise number."""
    return {
        "kind": "place_added",
        "id": new_id(),
        "area": book.area,
        "happened": "2026-01-02",
        "what": "service",
        "house_number": "14",
        "street": "Quarry Lane",
        "town": "Harrowsedge",
        "outside_numbers": [{"key": "n1", "what": "premise", "number": "40-118-2"}],
    } | fields


def street_id(name: str, town: str) -> UUID:
    """The id of a street, as pages name it."""
    row = street_as_row(name, town)
    assert row is not None
    return UUID(str(row["id"]))


def retired(place: str, **fields: Any) -> dict[str, Any]:
    """The place is gone."""
    return _on(place, "place_retired", reason="cut at the main and sealed") | fields


def number(subject: str, **fields: Any) -> dict[str, Any]:
    """A claim's number."""
    return _on(subject, "outside_number_added", what="claim", number="C-2026-55") | fields


def linked(subject: str, to: str, **fields: Any) -> dict[str, Any]:
    """One leak waits on another."""
    return _on(subject, "linked", how="waits_on", to_subject=to, reason="the same trench") | fields


def made_one(kept: str, other: str, **fields: Any) -> dict[str, Any]:
    """Two records of the same."""
    return _on(kept, "made_one", other=other, reason="received twice") | fields


def streets(area: str, street: tuple[str, str], other: tuple[str, str], **fields: Any) -> dict[str, Any]:
    """Two names of one street: name and town of each."""
    names = {"street": street[0], "town": street[1], "other_street": other[0], "other_town": other[1]}
    return _on(area, "streets_made_one", reason="written short", **names) | fields


def attached(subject: str, content: bytes = b"tag 31\n", **fields: Any) -> dict[str, Any]:
    """A text file with that content."""
    said = {"digest": sha256(content).hexdigest(), "length": len(content), "media_type": "text/plain"}
    return _on(subject, "attached", name="tag.txt", **said) | fields


def _in(dig: str, kind: str, **fields: Any) -> dict[str, Any]:
    return {"kind": kind, "id": new_id(), "dig": dig} | fields


def _on(subject: str, kind: str, **fields: Any) -> dict[str, Any]:
    return {"kind": kind, "id": new_id(), "subject": subject, "happened": "2026-03-05"} | fields
