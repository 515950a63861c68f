"""Records of the same that were made one: which is kept, which stand behind it; and others that one may be made one
with, by a part of their name."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.queries.named import called_themselves
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, INSTRUMENT, PERSON
from repairlog.records.tables.made_one import LONGEST_CHAIN, kept_for, made_one, stood_for
from repairlog.records.tables.search_key import MOST_WORDS, words_in
from repairlog.records.tables.seen import sees_person
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import LOT, PLACE, STANDS_FOR

KINDS = ("person", "crew", "instrument", "lot", "place")
"""Kinds of subjects of which two may be made one by their pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A record under its own name. `beside`: what tells it from others of the name."""

    id: UUID
    called: str
    beside: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sameness:
    """`kept`: the record that is kept for it in the end, if another is. `others`: those that stand behind it. `ring`:
    the way leads back to where it began, so that none is kept."""

    kept: Record | None
    others: tuple[Record, ...]
    ring: bool


def sameness(scope: Scope, tx: Tx, *, id: UUID) -> Sameness | None:
    """How that record hangs together with others of the same; None for a scope that sees nothing."""
    if scope.sees_nothing:
        return None
    above, below = _walked(tx, id, up=True), _walked(tx, id, up=False)
    ring = id in above
    kept = None if ring else kept_for(tx, [id]).get(id)
    names = called_themselves(scope, tx, ids={*above, *below} - {id})
    shown = sorted(((each, names[each]) for each in ({*above, *below} if ring else below) if each in names), key=str)
    return Sameness(
        kept=Record(id=kept, called=names[kept]) if kept in names else None,
        others=tuple(Record(id=each, called=called) for each, called in shown),
        ring=ring,
    )


def one_with(scope: Scope, tx: Tx, *, id: UUID) -> list[Record]:
    """Every other record that was made one with that one, either way and by however many steps, under its own name."""
    ids = made_one(tx, [id]).ids - {id} if not scope.sees_nothing else frozenset()
    names = called_themselves(scope, tx, ids=ids) if ids else {}
    return [Record(id=each, called=called) for each, called in sorted(names.items())]


def _walked(tx: Tx, id: UUID, *, up: bool) -> set[UUID]:
    """Every record that the way leads to from that one, itself only where it leads back to it."""
    here, there = (STANDS_FOR.c.other_id, STANDS_FOR.c.kept_id) if up else (STANDS_FOR.c.kept_id, STANDS_FOR.c.other_id)
    found: set[UUID] = set()
    asked = {id}
    for _turn in range(LONGEST_CHAIN):
        asked = set(tx.connection.execute(select(there).where(here.in_(asked))).scalars()) - found if asked else set()
        found |= asked
    return found


def alike(scope: Scope, tx: Tx, *, kind: str, part: str, most: int) -> list[Record]:
    """The records of that kind in scope in whose name every word of `part` stands, or all of them, by name; at most
    `most`. Those that are shown no more, and those of an opening in error, are left out."""
    words = part.split()[:MOST_WORDS]
    if scope.sees_nothing:
        return []
    if kind == "place":
        return _places(scope, tx, words_in(part), most)
    return _ALIKE[kind](scope, tx, words, most)


def _people(scope: Scope, tx: Tx, words: Sequence[str], most: int) -> list[Record]:
    named = [PERSON.c.name.icontains(word, autoescape=True) for word in words]
    rows = select(PERSON.c.id, PERSON.c.name, PERSON.c.company, PERSON.c.staff_number).where(
        ~PERSON.c.void, PERSON.c.id.not_in(stood_for()), sees_person(scope), *named
    )
    found = tx.connection.execute(rows.order_by(PERSON.c.name, PERSON.c.id).limit(most))
    return [Record(id=each.id, called=each.name, beside=_beside(*each[2:])) for each in found]


def _crews(scope: Scope, tx: Tx, words: Sequence[str], most: int) -> list[Record]:
    named = [CREW.c.name.icontains(word, autoescape=True) for word in words]
    rows = select(CREW.c.id, CREW.c.name).where(
        ~CREW.c.void, CREW.c.id.not_in(stood_for()), within(scope, CREW.c.area_id), *named
    )
    found = tx.connection.execute(rows.order_by(CREW.c.name, CREW.c.id).limit(most))
    return [Record(id=id, called=name) for id, name in found]


def _instruments(scope: Scope, tx: Tx, words: Sequence[str], most: int) -> list[Record]:
    text = INSTRUMENT.c.mark.concat(" ").concat(INSTRUMENT.c.what)
    named = [text.icontains(word, autoescape=True) for word in words]
    rows = select(INSTRUMENT.c.id, INSTRUMENT.c.mark, INSTRUMENT.c.what).where(
        ~INSTRUMENT.c.void, INSTRUMENT.c.id.not_in(stood_for()), within(scope, INSTRUMENT.c.area_id), *named
    )
    found = tx.connection.execute(rows.order_by(INSTRUMENT.c.mark, INSTRUMENT.c.id).limit(most))
    return [Record(id=id, called=mark, beside=what) for id, mark, what in found]


def _lots(scope: Scope, tx: Tx, words: Sequence[str], most: int) -> list[Record]:
    text = LOT.c.lot_number.concat(" ").concat(LOT.c.item)
    named = [text.icontains(word, autoescape=True) for word in words]
    rows = select(LOT.c.id, LOT.c.lot_number, LOT.c.item).where(
        ~LOT.c.void, LOT.c.id.not_in(stood_for()), within(scope, LOT.c.area_id), *named
    )
    found = tx.connection.execute(rows.order_by(LOT.c.lot_number, LOT.c.id).limit(most))
    return [Record(id=id, called=number, beside=item) for id, number, item in found]


_ALIKE: Mapping[str, Callable[[Scope, Tx, Sequence[str], int], list[Record]]] = {
    "person": _people,
    "crew": _crews,
    "instrument": _instruments,
    "lot": _lots,
}


def _places(scope: Scope, tx: Tx, words: Sequence[str], most: int) -> list[Record]:
    named = [PLACE.c.search_key.contains(word, autoescape=True) for word in words]
    rows = select(PLACE.c.id, PLACE.c.called, PLACE.c.house_number, PLACE.c.street, PLACE.c.town).where(
        ~PLACE.c.void, PLACE.c.id.not_in(stood_for()), within(scope, PLACE.c.area_id), *named
    )
    found = tx.connection.execute(rows.order_by(PLACE.c.search_key, PLACE.c.id).limit(most))
    return [_place(id, *(text or "" for text in texts)) for id, *texts in found]


def _place(id: UUID, called: str, house: str, street: str, town: str) -> Record:
    road = " ".join(filter(None, (house, street)))
    return Record(id=id, called=called or road, beside=_beside(road if called else "", town))


def _beside(*texts: str | None) -> str:
    return ", ".join(filter(None, texts))
