"""The facts and worked rows that the journal itself asks for, subject by subject."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from uuid import UUID

import orjson

from repairlog.entries.entry import from_sealed
from repairlog.records import journal
from repairlog.records.effects.arranged import Arranged, arranged
from repairlog.records.rebuild.plan import Plan
from repairlog.records.store import Tx
from repairlog.records.tables import ENGINE_VERSION
from repairlog.records.tables.picture import Picture, add
from repairlog.records.tables.rested import open_rulebooks
from repairlog.records.tables.worked import COUNTERS
from repairlog.trade.joins import join
from repairlog.trade.rests import FOLDS, Rests, put

SUBJECTS_AT_ONCE = 200


def expected(tx: Tx, of: Plan) -> Iterator[Picture]:
    """Every row of every facts and worked table, in pictures of any size; a street may come again.

    Leaks come last, since they rest on others.
    """
    rests = Rests()
    _joins(tx, of, rests)
    ordered = sorted(of.stories, key=lambda id: of.kinds.get(id) == "leak")
    for start in range(0, len(ordered), SUBJECTS_AT_ONCE):
        yield from _pictures(tx, of, ordered[start : start + SUBJECTS_AT_ONCE], rests)
    yield _counters(of)


def _joins(tx: Tx, of: Plan, rests: Rests) -> None:
    """How leaks were joined: each rests on those that it leads to, so this is known before any is folded."""
    joined = sorted(of.joined)
    for start in range(0, len(joined), SUBJECTS_AT_ONCE):
        some = joined[start : start + SUBJECTS_AT_ONCE]
        told = _arranged(tx, of, some)
        for each in filter(None, (join(told.stories.get(id, ())) for id in some)):
            put(rests, each)


def _arranged(tx: Tx, of: Plan, subjects: Sequence[UUID]) -> Arranged:
    indexes = sorted({index for id in subjects for index in of.stories[id]})
    return arranged(from_sealed(orjson.loads(line)) for line in journal.lines_at(tx, indexes))


def _pictures(tx: Tx, of: Plan, subjects: Sequence[UUID], rests: Rests) -> Iterator[Picture]:
    told = _arranged(tx, of, subjects)
    for entry in (entry for id in subjects for entry in told.stories.get(id, ())):
        yield told.facts_of(entry.id)
        yield told.place_of(entry.id)
    for id in subjects:
        if (fold := FOLDS.get(of.kinds.get(id, ""))) and (each := fold(told.stories.get(id, ()))):
            put(rests, each)
    open_rulebooks(tx, rests)
    yield told.worked({id: of.kinds[id] for id in subjects if id in of.kinds}, rests)


def _counters(of: Plan) -> Picture:
    picture: Picture = {}
    for (opens, area, year), last in of.counters.items():
        add(picture, COUNTERS[opens], area_id=area, year=year, last=last, engine=ENGINE_VERSION)
    return picture
