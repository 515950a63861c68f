"""What does not hold up in an entry by itself, whatever its subject is."""

from __future__ import annotations

from collections.abc import Iterator

from repairlog.entries.entry import Standing
from repairlog.trade.gap import Gap


def any_gaps(entry: Standing, *, cut_over_on: str = "") -> Iterator[Gap]:
    """Every gap of one entry by itself. `cut_over_on`: the day before which what is missing raises nothing."""
    if entry.on >= cut_over_on:
        yield from people_not_on_the_books(entry)
    yield from kept_as_text(entry)
    yield from sent_after_leaving(entry)


def people_not_on_the_books(entry: Standing) -> Iterator[Gap]:
    """People who did it, or did a task of it, by their name alone."""
    people = [("did", row) for row in entry.by.get("did", ())]
    people += [("people", row) for row in entry.rows("people")]
    for name, row in people:
        if "person" not in row:
            facts = {"named": row.get("named", "")}
            yield Gap(code="person_not_on_the_books", entry=entry.id, row=f"{name}.{row['key']}", facts=facts)


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
