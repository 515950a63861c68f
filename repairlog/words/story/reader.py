"""What a teller looks things up in: names, numbers of attempts, sources and bar holes, private values."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from types import MappingProxyType
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.entries.moments import read_moment
from repairlog.records.story import Story
from repairlog.trade.attempts import Attempt
from repairlog.trade.bar_holes import holes_by_name
from repairlog.words import _, codes, links
from repairlog.words.days import day


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """`word`: for a code. `attempts`, `sources`, `digs`, `entries`: by id as text; sources and digs by their number, a
    dig's being its place among those that serve this leak. `holes`: numbers of bar holes by every name they bear,
    `entry id/row key`. `closings`: the endings and acceptances that stand, `figures` the kept figures that do: what
    every entry is held against, found once. `units`: those in which measures are said beside what was typed, by
    quantity. `at`: the moment of reading, if it matters."""

    story: Story
    word: Callable[[str], str]
    attempts: Mapping[str, Attempt]
    sources: Mapping[str, int]
    digs: Mapping[str, int]
    entries: Mapping[str, Standing]
    holes: Mapping[str, int]
    closings: Sequence[Standing]
    figures: Sequence[Standing]
    units: Mapping[str, str]
    at: datetime | None = None


def reader_of(story: Story, *, units: Mapping[str, str] = MappingProxyType({}), at: datetime | None = None) -> Reader:
    """A reader of that story at that moment, who likes these units; without one nothing is said of what is owed."""
    live = [told.entry for told in story.told if told.entry.void is None]
    return Reader(
        story=story,
        word=cache(_word),
        attempts={str(each.id): each for each in (story.of_leak.attempts if story.of_leak else ())},
        sources={str(each.id): each.number for each in (story.of_leak.sources if story.of_leak else ())},
        digs={str(each.opened.id): number for number, each in enumerate(story.digs, start=1)},
        entries={str(told.entry.id): told.entry for told in story.told},
        holes=holes_by_name(live),
        closings=[each for each in live if _closes(each)],
        figures=[each for each in live if each.kind == "figure_kept"],
        units=units,
        at=at,
    )


def _closes(entry: Standing) -> bool:
    return entry.kind == "leak_ended" or (entry.kind == "repair_reviewed" and entry.text("outcome") == "accepted")


def _word(code: str) -> str:
    """The word for a code; for one that has none yet, the code itself, so that every kind can be read."""
    try:
        return codes.word(code)
    except KeyError:
        return code.replace("_", " ")


def small(word: str) -> str:
    """A word as it stands within a sentence."""
    return word[:1].lower() + word[1:]


def name_of(reader: Reader, id_text: str) -> str:
    """What a subject is called: a person, an area, a lot, a leak, a place, a source or a dig of this leak."""
    if id_text in reader.sources:
        return _("Source {number}").format(number=reader.sources[id_text])
    if id_text in reader.digs:
        return _("Dig {number}").format(number=reader.digs[id_text])
    found = reader.story.named.get(read_id(id_text))
    if found is not None and found.kind == "dig":
        return links.called(found)
    return found.called if found else _("outside your areas")


def names_of(reader: Reader, entry: Standing) -> str:
    """Who did it: people on the books and others, by name."""
    return ", ".join(
        name_of(reader, row["person"]) if "person" in row else row.get("named", "") for row in entry.by.get("did", ())
    )


def person(reader: Reader, id: str) -> str:
    """The name of a person."""
    found = reader.story.named.get(UUID(id))
    return found.called if found else _("a person not on the books")


def received(entry: Standing) -> str:
    """When the server received it: day and hour in the area's zone."""
    return moment(entry.moments["received"], zone=entry.understood["zone"])


def moment(text: str, *, zone: str) -> str:
    """A moment as it is sealed, as day and hour in that zone."""
    return day_and_hour(read_moment(text).astimezone(ZoneInfo(zone)))


def day_and_hour(local: datetime) -> str:
    """`3 Mar 2026, 07:52`."""
    return _("{day}, {hour}").format(day=day(local.date().isoformat()), hour=f"{local:%H:%M}")
