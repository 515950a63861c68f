"""What an entry names that is not among its leak's own: a source, a place, another entry."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.gap import Gap

_NAMES = {"downgrade_reviewed": ("grade_set", "grade_set"), "work_settled": ("given", "work_given")}
"""By kind, the field that names another entry of the leak, and of which kind that is."""


def named_elsewhere(
    live: Sequence[Standing], *, by_id: Mapping[str, Standing], sources: Collection[UUID]
) -> Iterator[Gap]:
    """Every such thing. `by_id`: the leak's entries that stand; `sources`: its own."""
    for entry in live:
        yield from _another_source(entry, sources)
        yield from _no_such_place(entry)
        yield from _another_entry(entry, by_id)
        if entry.kind == "work_given" and not any(entry.text(name) for name in ("crew", "person", "named")):
            yield Gap(code="work_given_to_nobody", entry=entry.id)


def _another_entry(entry: Standing, by_id: Mapping[str, Standing]) -> Iterator[Gap]:
    field, kind = _NAMES.get(entry.kind, ("", ""))
    named = by_id.get(entry.text(field)) if field else None
    if field and (named is None or named.kind != kind):
        yield Gap(code="entry_not_of_this_leak", entry=entry.id)
    if entry.kind == "figure_kept" and entry.text("from_entry") and entry.text("from_entry") not in by_id:
        yield Gap(code="figure_from_no_entry", entry=entry.id)


def _another_source(entry: Standing, sources: Collection[UUID]) -> Iterator[Gap]:
    source = entry.text("source") if entry.kind in ("repair_attempted", "source_changed") else ""
    if source and read_id(source) not in sources:
        yield Gap(code="source_not_of_this_leak", entry=entry.id, row="source")


def _no_such_place(entry: Standing) -> Iterator[Gap]:
    places = {row["key"] for row in entry.rows("places")}
    for row in entry.rows("readings"):
        if row.get("place", "") not in {*places, ""}:
            yield Gap(code="reading_at_no_place", entry=entry.id, row=f"readings.{row['key']}")
