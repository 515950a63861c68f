"""What stands in a filter, read; lists share it."""

from __future__ import annotations

from datetime import date


def day_in(text: str) -> date | None:
    """The day that somebody typed, `YYYY-MM-DD`; None for any other text."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
