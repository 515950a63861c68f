"""What the asker may add to a source on a leak's sheet, and where a pipe was seen otherwise than its source is told."""

from __future__ import annotations

from uuid import UUID

from flask import url_for

from repairlog.entries.ids import as_id
from repairlog.records.queries.leaks import LeakRow
from repairlog.records.story import Story
from repairlog.web.frame.asking import asker
from repairlog.words import _
from repairlog.words.story.sources import otherwise


def of_sources(row: LeakRow, told: Story) -> dict[UUID, list[tuple[str, str]]]:
    """By entry, of a source or of a pipe that was seen otherwise, where to say what that source turned out to be."""
    if not asker().may("source_changed", area=row.area):
        return {}
    found = {
        each.id: [(_("Say what it turned out to be"), url_for("otherwise.page", leak=row.id, source=each.id))]
        for each in told.leak.sources
    }
    return found | {entry: [way] for entry, way in seen_otherwise(row, told).items() if way[1]}


def seen_otherwise(row: LeakRow, told: Story) -> dict[UUID, tuple[str, str]]:
    """By entry of an exposed pipe that was seen otherwise than its source is told to be: what, in one line, and the
    address of the page to say so, empty where the asker may not."""
    may = asker().may("source_changed", area=row.area)
    found = {}
    for entry in (each.entry for each in told.told if each.entry.kind == "pipe_exposed" and each.entry.void is None):
        source, line = as_id(entry.text("source")), otherwise(told, entry)
        if source is not None and line:
            says = _("{line}: say what it turned out to be").format(line=line)
            way = url_for("otherwise.page", leak=row.id, source=source, dig=entry.text("dig")) if may else ""
            found[entry.id] = (says, way)
    return found
