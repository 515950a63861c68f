"""What a crew was refused, as whoever oversees them sees it."""

from __future__ import annotations

from contextlib import suppress

from repairlog.access import Refused
from tests.makers import book as m


def refused_to_crew(book: m.Book, leak: str) -> str:
    """The id of an ending of that leak that the crew sent and may not enter."""
    said = m.ending(leak, how="no_reading", happened="2026-03-04")
    with suppress(Refused):
        book.say(said, by=book.crew)
    return str(said["id"])
