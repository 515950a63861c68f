"""The sources of a leak as a story tells them: as known now, as first told, and what they turned out to be."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.fields import Field
from repairlog.entries.kinds import KINDS
from repairlog.records.story import Story, Told
from repairlog.trade.leak import Source
from repairlog.trade.sources import FACTS, Known, before, known_by, seen_otherwise
from repairlog.words import _
from repairlog.words.boxes import head
from repairlog.words.story.fields import Shown, value
from repairlog.words.story.pieces import Item, Piece
from repairlog.words.story.reader import Reader, reader_of, small

_HEADING = tuple[str, str, bool]

_NAMED_BY = ("part", "component", "material")
_FIELDS = {field.name: field for field in KINDS["source_added"].fields if field.name in FACTS}


def added(reader: Reader, entry: Standing) -> _HEADING:
    """`Source 1: service, threaded tee, steel`, and whether it turned out otherwise since."""
    of = _source(reader, str(entry.id))
    since = _("as first told") if of and of.known.otherwise else ""
    return _titled(_name(reader, str(entry.id)), [small(_said(reader, entry, name)) for name in _NAMED_BY]), since, True


def turned_out(reader: Reader, entry: Standing) -> _HEADING:
    """`Source 1 as found: main, joint, cast iron`: all of it as it was known from then on."""
    of = _source(reader, entry.text("source"))
    told = known_by(of.known, entry) if of and entry in of.known.changes else None
    words = [small(_known(reader, told, name)[0] if told else _said(reader, entry, name)) for name in _NAMED_BY]
    name = _("{source} as found").format(source=_name(reader, entry.text("source")))
    return _titled(name, words), "", True


def told_before(reader: Reader, told: Told) -> Iterator[Item]:
    """What had been told of the same facts until then."""
    entry = told.entry
    of = _source(reader, entry.text("source"))
    if of is None or entry not in of.known.changes:
        return
    was = before(of.known, entry)
    pieces = [
        Piece(text=_labelled(name, _known(reader, was, name)[0] or _("nothing")))
        for name in FACTS
        if entry.text(name) and entry.text(name) != was.text(name)
    ]
    if pieces:
        yield Item(label=_("Told until then"), pieces=tuple(pieces))


def facts(reader: Reader) -> Iterator[Piece]:
    """At the head of a sheet each source as it is known now; where that is otherwise, also as it was first told."""
    for each in reader.story.leak.sources:
        known = each.known
        words = [small(_known(reader, known, name)[0]) for name in _NAMED_BY]
        title = _titled(_("Source {number}").format(number=each.number), words)
        pressure, also = _known(reader, known, "pressure")
        normally = _("normally {pressure}").format(pressure=pressure) if pressure else ""
        size, year = _known(reader, known, "size")[0], known.text("installed_year")
        yield Piece(text=", ".join(filter(None, (title, size, year, normally))), also=also)
        first = [small(_said(reader, known.added, name)) for name in known.otherwise if known.added.text(name)]
        if first:
            name = _("Source {number}, as first told").format(number=each.number)
            yield Piece(text=_titled(name, first))


def as_known(story: Story, source: UUID) -> dict[str, str]:
    """By fact, what is known of that source of the leak, as it is said."""
    reader = reader_of(story)
    of = _source(reader, str(source))
    return {name: _known(reader, of.known, name)[0] for name in FACTS if of.known.text(name)} if of else {}


def in_a_line(story: Story, source: UUID) -> str:
    """`Source 1: service, threaded tee, steel, 3/4 in, 1968, coal tar`, as it is known now."""
    known = as_known(story, source)
    words = [small(known.get(name, "")) for name in (*_NAMED_BY, "size", "installed_year", "coating")]
    return _titled(_name(reader_of(story), str(source)), words)


def otherwise(story: Story, exposed: Standing) -> str:
    """What was seen of an exposed pipe that its source is not told to be, in one line; empty where nothing was."""
    reader = reader_of(story)
    of = _source(reader, exposed.text("source"))
    seen = seen_otherwise(of.known, exposed) if of else None
    if of is None or seen is None:
        return ""
    stands, was = _("{source} is told to be {told}, and was seen {seen}"), _seen(reader, exposed, seen)
    return stands.format(source=_name(reader, str(of.id)), told=small(of.known.text("coating")), seen=was)


def _seen(reader: Reader, exposed: Standing, names: Collection[str]) -> str:
    return ", ".join(small(_word(reader, exposed, name)) for name in names)


def _word(reader: Reader, entry: Standing, name: str) -> str:
    return entry.text(name) if name == "coating" else reader.word(entry.text(name))


def _source(reader: Reader, id: str) -> Source | None:
    of = reader.story.of_leak
    return next((each for each in (of.sources if of else ()) if str(each.id) == id), None)


def _name(reader: Reader, id: str) -> str:
    number = reader.sources.get(id)
    return _("Source {number}").format(number=number) if number else _("A source")


def _titled(name: str, words: Collection[str]) -> str:
    told = ", ".join(filter(None, words))
    return _("{name}: {told}").format(name=name, told=told) if told else name


def _labelled(name: str, said: str) -> str:
    return _("{what}: {value}").format(what=small(head(_FIELDS[name].says)), value=small(said))


def _known(reader: Reader, source: Known, name: str) -> Shown:
    return _value(reader, source.told_by[name], name) if name in source.told_by else ("", "")


def _said(reader: Reader, entry: Standing, name: str) -> str:
    return _value(reader, entry, name)[0]


def _value(reader: Reader, entry: Standing, name: str) -> Shown:
    field: Field = _FIELDS[name]
    return value(reader, entry, field=field, path=name)
