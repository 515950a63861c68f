"""What may be chosen in a form of any kind of entry: subjects, entries and bar holes that a leak's story knows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from repairlog.entries.entry import Row
from repairlog.entries.fields import EntryKind, Field
from repairlog.entries.ids import as_id
from repairlog.entries.kinds import DID, KEPT_AS_TEXT, KINDS
from repairlog.intake.form import Choices
from repairlog.records.store import Tx
from repairlog.records.story import Story
from repairlog.web.frame.asking import asker
from repairlog.web.frame.grades_known import grades_known, rulebooks_of
from repairlog.web.frame.there import areas_to_choose, crews_there, lots_there
from repairlog.web.frame.where import Where
from repairlog.words import _
from repairlog.words.story import Telling

ENTRIES = {"attempt": "repair_attempted", "grade_set": "grade_set", "given": "work_given"}
"""By field, the kind of entry that it names; a field that is not here names any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What a form may choose from. `told`: the entries of the story, as the sheet tells them."""

    where: Where
    story: Story
    told: list[Telling]
    crews: Choices
    lots: Choices
    areas: Choices
    grades: Choices


def known_of(tx: Tx, where: Where, *, story: Story, told: list[Telling]) -> Known:
    """Read what stands on the books of the leak's area."""
    return Known(
        where=where,
        story=story,
        told=told,
        crews=crews_there(tx, where.areas),
        lots=lots_there(tx, where.areas),
        areas=areas_to_choose(tx)[1],
        grades=grades_known(rulebooks_of(tx, where.areas, on=asker().on).values()),
    )


def paths(kind: EntryKind, *, of: str) -> Iterator[tuple[str, Field]]:
    """The path of every field of a kind that holds such a thing, in a row `list.field`."""
    yield from ((field.name, field) for field in kind.fields if field.kind == of)
    for rows in (*kind.rows, DID):
        if rows is not KEPT_AS_TEXT:
            yield from ((f"{rows.name}.{field.name}", field) for field in rows.fields if field.kind == of)


def choices_of(kind: EntryKind, known: Known, *, stands: Mapping[str, object]) -> dict[str, Choices]:
    """By path, what may be chosen for each reference of a kind. `stands`: the raw entry: what it names is among it."""
    found = {path: _subjects(field, known) for path, field in paths(kind, of="ref")}
    found |= {path: _entries(field, known) for path, field in paths(kind, of="entry")}
    found |= {path: _holes(known) for path, _field in paths(kind, of="hole")}
    found |= {"readings.place": []} if kind.name == "visit" else {}  # offered once the places are known
    found = {path: _with(offered, path, known=known, stands=stands) for path, offered in found.items()}
    return found | ({"grade": known.grades} if kind.name == "grade_set" else {})


def _subjects(field: Field, known: Known) -> Choices:
    of: Mapping[str, Callable[[], Choices]] = {
        "person": lambda: known.where.people,
        "crew": lambda: known.crews,
        "instrument": lambda: known.where.instruments,
        "lot": lambda: known.lots,
        "area": lambda: known.areas,
        "source": lambda: _sources(known),
        "dig": lambda: _digs(known),
        "leak": lambda: _this_leak(known),
        "": lambda: [*_this_leak(known), *_sources(known), *_digs(known)],
    }
    return of[field.refers_to]() if field.refers_to in of else []


def _this_leak(known: Known) -> Choices:
    return [(str(known.where.leak.id), known.where.leak.number)] if known.where.leak else []


def _sources(known: Known) -> Choices:
    of = known.story.of_leak
    return [(str(each.id), _("Source {number}").format(number=each.number)) for each in (of.sources if of else ())]


def _digs(known: Known) -> Choices:
    digs = enumerate(known.story.digs, start=1)
    return [(str(each.opened.id), _("Dig {number}").format(number=number)) for number, each in digs]


def _entries(field: Field, known: Known) -> Choices:
    wanted = ENTRIES.get(field.name)
    return [
        (str(each.id), _("{what}, {day}").format(what=each.title, day=each.day))
        for each in known.told
        if wanted in (None, each.kind)
    ]


def _holes(known: Known) -> Choices:
    holes = known.story.leak.bar_holes
    return [(f"{hole.entry}/{hole.key}", _("Bar hole {number}").format(number=hole.number)) for hole in holes]


def _with(offered: Choices, path: str, *, known: Known, stands: Mapping[str, object]) -> Choices:
    """What is offered, with what stands there and is not among it."""
    name, _dot, field = path.partition(".")
    rows = stands.get(name, ())
    said = [_text(row, field) for row in rows if isinstance(row, dict)] if field and isinstance(rows, list) else []
    said += [] if field else [str(stands.get(name, ""))]
    others = dict.fromkeys(each for each in said if each and each not in dict(offered))
    return [*offered, *((each, _called(each, known)) for each in others)]


def _text(row: Row, field: str) -> str:
    return str(row.get(field, ""))


def _called(value: str, known: Known) -> str:
    id = as_id(value)
    named = known.story.named.get(id) if id else None
    return named.called if named else _("as it stands")


def names_leaks(kind: str) -> list[str]:
    """The fields of a kind that name a leak: a form asks for them by number. In rows leaks are chosen: those that the
    dig or the like serves already."""
    return [field.name for field in KINDS[kind].fields if field.kind == "ref" and field.refers_to == "leak"]
