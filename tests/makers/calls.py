"""Calls of an invented book, the first hour at a leak, and whom one tells."""

from __future__ import annotations

from typing import Any

from tests.makers.book import Book, new_id


def call(book: Book, **fields: Any) -> dict[str, Any]:
    """An odor in Quarry Lane, reported by a customer on 3 March 2026."""
    return {
        "kind": "call_received",
        "id": new_id(),
        "area": book.area,
        "happened": "2026-03-03 07:44",
        "report": "odor",
        "came_from": "customer",
        "inside": "outside",
        "house_number": "14",
        "street": "Quarry Lane",
        "town": "Harrowsedge",
    } | fields


def crew(book: Book, **fields: Any) -> dict[str, Any]:
    """A crew that may be sent."""
    return {
        "kind": "crew_made",
        "id": new_id(),
        "area": book.area,
        "name": "Truck 6",
        "happened": "2026-01-02",
    } | fields


def sent(call: str, **fields: Any) -> dict[str, Any]:
    """Two minutes later somebody is sent."""
    return {"kind": "call_sent", "id": new_id(), "call": call, "happened": "2026-03-03 07:46"} | fields


def on_way(call: str, **fields: Any) -> dict[str, Any]:
    """They say that they are on the way."""
    return {"kind": "call_on_way", "id": new_id(), "call": call, "happened": "2026-03-03 07:49"} | fields


def on_site(call: str, **fields: Any) -> dict[str, Any]:
    """They are there."""
    return {"kind": "call_on_site", "id": new_id(), "call": call, "happened": "2026-03-03 08:07"} | fields


def outcome(call: str, **fields: Any) -> dict[str, Any]:
    """Nothing was found."""
    return {
        "kind": "call_outcome",
        "id": new_id(),
        "call": call,
        "happened": "2026-03-03 08:30",
        "outcome": "nothing_found",
    } | fields


def reviewed(call: str, **fields: Any) -> dict[str, Any]:
    """The supervisor accepts."""
    return {
        "kind": "call_reviewed",
        "id": new_id(),
        "call": call,
        "happened": "2026-03-04 09:10",
        "outcome": "accepted",
    } | fields


def moment(leak: str, **fields: Any) -> dict[str, Any]:
    """People are brought out."""
    return {
        "kind": "moment_noted",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-03 08:12",
        "moment": "people_out",
    } | fields


def watch(leak: str, **fields: Any) -> dict[str, Any]:
    """The day crew takes over."""
    return {
        "kind": "watch_handed",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-03 14:00",
        "from_named": "night crew leader",
        "to_named": "day crew leader",
    } | fields


def emergency_reviewed(leak: str, **fields: Any) -> dict[str, Any]:
    """The supervisor finds that the procedures were followed."""
    return {
        "kind": "emergency_reviewed",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-04 09:30",
        "procedures": "followed",
    } | fields


def told(subject: str, **fields: Any) -> dict[str, Any]:
    """The fire department is told."""
    return {
        "kind": "told",
        "id": new_id(),
        "subject": subject,
        "happened": "2026-03-03 08:15",
        "whom": "fire_department",
    } | fields


def decided(subject: str, **fields: Any) -> dict[str, Any]:
    """It is not to be reported."""
    return {
        "kind": "decided",
        "id": new_id(),
        "subject": subject,
        "happened": "2026-03-03 09:00",
        "decision": "not_reportable",
    } | fields
