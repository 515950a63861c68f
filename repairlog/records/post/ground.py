"""The ground a call stands on: its subjects locked in one order, their stories read, and what those rest on."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any
from uuid import UUID

from sqlalchemy import Select, case, select

from repairlog.entries.entry import Entry, Standing
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import SUBJECT_KINDS
from repairlog.records import journal
from repairlog.records.columns import IDS
from repairlog.records.effects.chains import STORY, ids_put, puts_ever
from repairlog.records.post.chain import entries_there
from repairlog.records.post.moves import Put, named_anew
from repairlog.records.post.wants import Wants, wants_of
from repairlog.records.store import Tx
from repairlog.records.tables.beside import STALE
from repairlog.records.tables.facts import ABOUT, ENTRY, SUBJECT
from repairlog.records.tables.worked import LOT
from repairlog.trade.lot import Lot

REFOLDED_AT_ONCE = 200
"""Subjects that depend on what changed and are worked out again in the same commit; with more, all are marked stale."""


_told, _used = ABOUT.alias("told"), ABOUT.alias("used")
_STAND_IN = select(ABOUT.c.subject_id).where(ABOUT.c.entry_id.in_(IDS), ABOUT.c.as_what.in_(STORY)).distinct()
_KINDS = select(SUBJECT.c.id, SUBJECT.c.kind).where(SUBJECT.c.id.in_(IDS))
_LOTS = select(LOT).where(LOT.c.id.in_(IDS))
_LOTS_USED = (
    select(_used.c.subject_id)
    .join(_told, _told.c.entry_id == _used.c.entry_id)
    .where(_told.c.subject_id.in_(IDS), _told.c.as_what.in_(STORY), _used.c.as_what == "materials.lot")
    .distinct()
)
_USED_BY = (
    select(ENTRY.c.subject_id)
    .join(ABOUT, ABOUT.c.entry_id == ENTRY.c.id)
    .where(ABOUT.c.subject_id.in_(IDS), ABOUT.c.as_what == "materials.lot")
    .distinct()
)


@cache
def _locking(*, folds: bool) -> Select[Any]:
    rank = case(
        {kind: place for place, kind in enumerate(SUBJECT_KINDS)}, value=SUBJECT.c.kind, else_=len(SUBJECT_KINDS)
    )
    return (
        select(SUBJECT.c.id, SUBJECT.c.kind, SUBJECT.c.area_id, STALE.c.subject_id.label("stale"))
        .outerjoin(STALE, STALE.c.subject_id == SUBJECT.c.id)
        .where(SUBJECT.c.id.in_(IDS))
        .order_by(rank, SUBJECT.c.id)
        .with_for_update(of=SUBJECT, read=not folds)
    )


class NotThere(Exception):
    """The call names subjects or entries that are not in the book (yet). `ids`: which."""

    code = "not_there"

    def __init__(self, ids: Iterable[UUID]) -> None:
        self.ids = frozenset(ids)
        super().__init__("not in the book: " + ", ".join(sorted(map(str, self.ids))))


class Again(Exception):
    """What the call rests on grew between reading and locking; run it again. `lots`: to be locked, too, next time."""

    def __init__(self, lots: Iterable[UUID] = ()) -> None:
        super().__init__()
        self.lots = frozenset(lots)


@dataclass(frozen=True, slots=True)
class Subject:
    """A subject that the call touches; `stale`: its worked rows wait to be worked out again."""

    kind: str
    area: UUID | None
    stale: bool


@dataclass(slots=True)
class Ground:
    """`subjects`: every subject named, those that the call opens too. `folded`: kind of each whose story the call goes
    into or that depends on one of them. `raw`: their sealed entries. `lots`: those that their repairs used, as they
    stand before the call. `marked`: subjects to be marked stale, with the one they rest on; `depending`: those that
    are folded again because of what they rest on. `anew`: by correction, what it names anew."""

    wants: Wants
    subjects: dict[UUID, Subject] = field(default_factory=dict)
    folded: dict[UUID, str] = field(default_factory=dict)
    raw: dict[UUID, Standing] = field(default_factory=dict)
    lots: dict[UUID, Lot] = field(default_factory=dict)
    marked: dict[UUID, UUID] = field(default_factory=dict)
    depending: set[UUID] = field(default_factory=set)
    anew: dict[UUID, set[Put]] = field(default_factory=dict)


def ground(tx: Tx, fresh: Sequence[Entry], *, lots: Collection[UUID] = ()) -> Ground:
    """Lock and read what these entries touch. Raises NotThere, or Again where the call is to be run once more.

    `lots`: to be locked beside those that the entries and the index of entries tell of.
    """
    found = Ground(wants=wants_of(fresh))
    found.wants.named |= set(lots)
    _targets(tx, found, fresh)
    return _stood_on(tx, found, fresh)


def ground_of_leaks(tx: Tx, leaks: Collection[UUID], *, lots: Collection[UUID] = ()) -> Ground:
    """The same for leaks that are only to be folded again. Raises Again where it is to be run once more."""
    return _stood_on(tx, Ground(wants=Wants(stories=dict.fromkeys(leaks, "leak"), named=set(lots))), ())


def _stood_on(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> Ground:
    missing = _locked(tx, found)
    if missing:
        raise NotThere(missing)
    if tx.dialect != "sqlite" and _stand_in(tx, found.wants.targets) - found.wants.stories.keys():
        raise Again  # what it puts right moved to another story while the call waited for its locks
    for told in journal.stories(tx, found.folded.keys() - found.wants.opened.keys(), as_what=STORY).values():
        found.raw |= {entry.id: entry for entry in told}
    _read_lots(tx, found, fresh)
    return found


def _targets(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> None:
    """Entries that the call names must be there; those it puts right tell into whose stories it goes."""
    wants = found.wants
    if wants.entries | wants.targets:
        if missing := (wants.entries | wants.targets) - entries_there(tx, wants.entries | wants.targets):
            raise NotThere(missing)
        for subject in _stand_in(tx, wants.targets):
            wants.stories.setdefault(subject, "")
    _moves(tx, found, fresh)


def _stand_in(tx: Tx, targets: Collection[UUID]) -> set[UUID]:
    """The subjects in whose stories these entries stand."""
    if not targets:
        return set()
    return set(tx.connection.execute(_STAND_IN, {"ids": list(targets)}).scalars())


def _moves(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> None:
    """What the call's corrections name anew: stories that they move entries to, subjects that must be there."""
    wants = found.wants
    found.anew = named_anew(tx, fresh, targets=wants.targets)
    named = [put for puts in found.anew.values() for put in puts]
    for to in (to for path, to in named if path in STORY):
        wants.stories.setdefault(to, "")
    wants.named |= {to for _path, to in named} - wants.stories.keys() - wants.opened.keys()


def _locked(tx: Tx, found: Ground) -> set[UUID]:
    """Lock the subjects that stand, in one order; give those that are not there."""
    wants = found.wants
    opened = wants.opened
    found.subjects |= {id: Subject(kind, area, stale=False) for id, (kind, area) in opened.items()}
    found.folded |= {id: kind for id, (kind, _area) in opened.items() if id in wants.stories}
    stories, named = wants.stories.keys() - opened.keys(), wants.named - opened.keys()
    if all(wants.stories[id] == "leak" for id in stories):
        _lock(tx, found, ids=named | _lots_used(tx, stories))
        _lock(tx, found, folds=stories)
    else:
        for kind, shared, folds in _by_kind(tx, stories, named):
            _lock(tx, found, ids=shared, folds=folds | found.depending if kind == "leak" else folds)
            if kind == "lot":
                _dependents(tx, found, folds)
    found.marked = {leak: lot for leak, lot in found.marked.items() if leak not in found.folded}
    return (stories | named) - found.subjects.keys()


def _by_kind(tx: Tx, stories: Collection[UUID], named: Collection[UUID]) -> Iterator[tuple[str, set[UUID], set[UUID]]]:
    """The same in the general case, where subjects of several kinds are folded: by kind in its turn, those only named
    and those folded."""
    rows = tx.connection.execute(_KINDS, {"ids": [*stories, *named]})
    kinds = {row.id: row.kind for row in rows}
    leaks = {id for id in stories if kinds.get(id) == "leak"}
    for lot in (id for id in stories if kinds.get(id) == "lot"):
        using = _used_by(tx, lot)
        leaks |= using if len(using) <= REFOLDED_AT_ONCE else set()
    named = {*named, *_lots_used(tx, leaks)} - {*stories}
    for kind in SUBJECT_KINDS:
        shared = {id for id in named if kinds.get(id, "lot") == kind}
        yield kind, shared, {id for id in stories if kinds.get(id) == kind}


def _lots_used(tx: Tx, leaks: Collection[UUID]) -> set[UUID]:
    """Lots that the repairs of these leaks used: they are locked before the leaks. SQLite needs no such lock."""
    if tx.dialect == "sqlite" or not leaks:
        return set()
    return set(tx.connection.execute(_LOTS_USED, {"ids": list(leaks)}).scalars())


def _lock(tx: Tx, found: Ground, *, ids: Collection[UUID] = (), folds: Collection[UUID] = ()) -> None:
    """Lock `ids` for sharing and `folds` for writing. Both at once are all locked for writing, by one statement: shared
    ones first and then the others would be no order, and two such calls would wait for each other."""
    wanted = [id for id in {*ids, *folds} if id not in found.subjects]
    if not wanted:
        return
    for row in tx.connection.execute(_locking(folds=bool(folds)), {"ids": wanted}):
        found.subjects[row.id] = Subject(row.kind, row.area_id, stale=row.stale is not None)
        if row.id in folds:
            found.folded[row.id] = row.kind


def _dependents(tx: Tx, found: Ground, ids: Collection[UUID]) -> None:
    """Leaks that used a lot whose story goes on: folded again in this commit, or marked stale where they are many."""
    lots = [id for id in ids if found.folded.get(id) == "lot"]
    for lot in lots:
        leaks = _used_by(tx, lot)
        if len(leaks) > REFOLDED_AT_ONCE:
            found.marked |= dict.fromkeys(leaks, lot)
            continue
        _lock(tx, found, ids=_lots_used(tx, leaks))  # used by a leak that took the lot since its lots were looked up
        found.depending |= leaks


def _used_by(tx: Tx, lot: UUID) -> set[UUID]:
    return set(tx.connection.execute(_USED_BY, {"ids": [lot]}).scalars())


def _read_lots(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> None:
    """The lots that the loaded repairs used, as they stand. Raises Again if one of them is not locked."""
    told = [entry.said for entry in sorted(found.raw.values(), key=lambda entry: entry.index)]
    wanted = lots_named([*told, *(entry.said for entry in fresh)]) - found.wants.opened.keys()
    if not wanted:
        return
    if tx.dialect != "sqlite" and (unlocked := wanted - found.subjects.keys()):
        raise Again(unlocked)  # used since, or named before a correction took it away: only the sealed lines tell
    for row in tx.connection.execute(_LOTS, {"ids": list(wanted)}):
        found.lots[row.id] = Lot(
            id=row.id,
            area=str(row.area_id),
            item=row.item,
            lot_number=row.lot_number,
            expires_on=row.expires_on.isoformat() if row.expires_on else "",
            void=row.void,
        )


def lots_named(told: Sequence[Mapping[str, Any]]) -> set[UUID]:
    """Lots that materials name, or that a correction names or named in their place. `told`: in the journal's order."""
    named = {read_id(row["lot"]) for said in told for row in said.get("materials", ()) if "lot" in row}
    for puts in puts_ever(told).values():
        named |= set(ids_put(puts, lambda path: path.startswith("materials.") and path.endswith(".lot")))
    return named
