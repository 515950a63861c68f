"""What stands at the head of a sheet: what is known of the leak as it is now, in a few short facts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from repairlog.entries.entry import Standing
from repairlog.entries.ids import as_id, read_id
from repairlog.entries.naming import own_subject
from repairlog.records.story import Story
from repairlog.trade.tied import outside_numbers
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.story import sources
from repairlog.words.story.pieces import Piece
from repairlog.words.story.reader import Reader, name_of, reader_of, small


def head(story: Story, *, units: Mapping[str, str] = MappingProxyType({})) -> Sequence[Piece]:
    """Facts about the leak: how it was reported, under which number it goes on, its grade as found where that was
    another, its sources, its other numbers. `units`: those that the reader likes, by quantity."""
    return list(_facts(reader_of(story, units=units)))


def _facts(reader: Reader) -> Iterator[Piece]:
    leak = reader.story.leak
    yield _reported(reader, leak.opened)
    yield from _joined_to(reader)
    found, now = leak.grade_found, leak.grade_now
    if found and now and found.code != now.code:
        yield Piece(text=_("found as grade {grade}").format(grade=found.code))
    yield from sources.facts(reader)
    for of in dict.fromkeys((each.what, each.number) for each in outside_numbers(_own(reader))):
        yield Piece(text=_("{what} {number}").format(what=of[0], number=of[1]))
    yield from _links(reader)


def _own(reader: Reader) -> list[Standing]:
    """The entries of the leak itself, without those of its sources and digs."""
    return [each.entry for each in reader.story.told if own_subject(each.entry.said) == reader.story.leak.opened.id]


def _links(reader: Reader) -> Iterator[Piece]:
    """The links of the leak, its own and those that others have to it, with the way to the other's sheet."""
    for entry in (each for each in _own(reader) if each.kind == "linked" and each.void is None):
        to = read_id(entry.text("to_subject"))
        found = reader.story.named.get(to)
        how = small(reader.word(entry.text("how")))
        there = to if found and found.kind == "leak" else None
        yield Piece(text=_("{how} {what}").format(how=how, what=name_of(reader, str(to))), leak=there)
    for link in reader.story.links:
        how = small(reader.word(link.how))
        yield Piece(text=_("{what}: {how} this one").format(how=how, what=link.number), leak=link.other)


def _joined_to(reader: Reader) -> Iterator[Piece]:
    """The number under which the leak goes on, with the way to its sheet for whoever may see it."""
    ending = reader.story.leak.ending
    to = as_id(ending.entry.text("joined_to")) if ending else None
    if to is not None:
        there = to if to in reader.story.named else None
        yield Piece(text=_("goes on as: {number}").format(number=name_of(reader, str(to))), leak=there)


def _reported(reader: Reader, opened: Standing) -> Piece:
    on = day(opened.on)
    if "happened_known" in opened.understood:
        on = _("on or before {day}").format(day=on)
    how = opened.text("detected_by")
    if not how:
        return Piece(text=_("reported {day}").format(day=on))
    return Piece(text=_("reported {day}, {how}").format(day=on, how=small(reader.word(how))))
