"""What does not hold up in an entry by itself, whatever its subject is."""

from __future__ import annotations

from collections.abc import Iterator

from repairlog.entries.entry import Standing
from repairlog.trade.gap import Gap


def kept_as_text(entry: Standing) -> Iterator[Gap]:
    """Measures that nobody could read and that were kept as written."""
    for row in entry.rows("kept_as_text"):
        if row["field"] not in entry.understood and entry.said_at(row["field"]):
            yield Gap(code="measure_kept_as_text", entry=entry.id, row=row["field"], facts={"field": row["field"]})


def sent_after_leaving(entry: Standing) -> Iterator[Gap]:
    """It came in when its sender had left already."""
    left_on = entry.by.get("left_on")
    if left_on:
        yield Gap(code="sent_after_leaving", entry=entry.id, facts={"left_on": left_on})
