"""A story told entry by entry, in the order in which it happened."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from types import MappingProxyType

from repairlog.entries.entry import Standing
from repairlog.entries.moments import read_moment
from repairlog.records.story import Story, Told
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.story.fields import own_fields, own_lists
from repairlog.words.story.kinds import kind_of
from repairlog.words.story.margin import kept, margin, voided
from repairlog.words.story.pieces import Telling
from repairlog.words.story.reader import Reader, names_of, reader_of
from repairlog.words.times import of_entries


def tell(
    story: Story, *, units: Mapping[str, str] = MappingProxyType({}), at: datetime | None = None
) -> Sequence[Telling]:
    """Every entry of the story, told. `units`: those that the reader likes, by quantity. `at`: the moment of reading,
    where what is owed is told, too."""
    reader = reader_of(story, units=units, at=at)
    return [_telling(reader, told) for told in story.told]


def times(story: Story) -> str:
    """Of which zone the times of the story are: that of the area in which each entry was made."""
    return of_entries(str(zone) for told in story.told if (zone := told.entry.understood.get("zone")))


def _telling(reader: Reader, told: Told) -> Telling:
    entry, as_kind = told.entry, kind_of(told.entry.kind)
    title, verdict, good = as_kind.heading(reader, entry)
    fields = list(own_fields(reader, told, told_already=as_kind.told))
    lists = list(as_kind.lists(reader, told)) if as_kind.lists else []
    lists += own_lists(reader, told, told_already=as_kind.told)
    on, hour = happened(entry)
    return Telling(
        id=entry.id,
        kind=entry.kind,
        at=entry.understood.get("happened_at", entry.on),
        day=on,
        hour=hour,
        title=title,
        by=names_of(reader, entry),
        verdict=verdict,
        good=good,
        prose=tuple(item for long, item in fields if long),
        items=tuple([item for long, item in fields if not long] + lists),
        margin=tuple(margin(reader, told)),
        kept=kept(reader, entry),
        void=voided(reader, told),
    )


def happened(entry: Standing) -> tuple[str, str]:
    """Day and hour in the zone of the entry, the hour empty where only the day is known."""
    on = day(entry.on)
    if "happened_known" in entry.understood:
        on = _("on or before {day}").format(day=on)
    at = entry.understood.get("happened_at")
    if not at:
        return on, ""
    return on, f"{read_moment(at) + _offset(entry.understood['utc_offset']):%H:%M}"


def _offset(text: str) -> timedelta:
    """`-05:00` as a span of time: the offset that was in force, as it was sealed."""
    hours, minutes = text[1:].split(":")
    span = timedelta(hours=int(hours), minutes=int(minutes))
    return -span if text[0] == "-" else span
