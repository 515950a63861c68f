"""The ground a call stands on: its subjects locked in one order, their stories read, and what those rest on."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any
from uuid import UUID

from sqlalchemy import Select, case, select

from repairlog.entries.entry import Entry, Standing
from repairlog.entries.kinds import SUBJECT_KINDS
from repairlog.records import journal
from repairlog.records.columns import IDS
from repairlog.records.effects.chains import STORY
from repairlog.records.effects.rested import named_by
from repairlog.records.post.chain import entries_there
from repairlog.records.post.joined import HangsTogether, hang_together, may_end
from repairlog.records.post.moves import Put, named_anew
from repairlog.records.post.rested import rested_on, resting_on
from repairlog.records.post.same import said_same
from repairlog.records.post.wants import Wants, wants_of
from repairlog.records.store import Tx
from repairlog.records.tables.beside import STALE
from repairlog.records.tables.facts import ABOUT, SUBJECT
from repairlog.records.tables.rested import read
from repairlog.trade.rests import FOLDS, Rested

REFOLDED_AT_ONCE = 200
"""Subjects that depend on what changed and are worked out again in the same commit; with more, all are marked stale."""


_STAND_IN = select(ABOUT.c.subject_id).where(ABOUT.c.entry_id.in_(IDS), ABOUT.c.as_what.in_(STORY)).distinct()
_KINDS = select(SUBJECT.c.id, SUBJECT.c.kind).where(SUBJECT.c.id.in_(IDS))


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
    """What the call rests on grew between reading and locking; run it again. `also`: to be locked, too, next time."""

    def __init__(self, also: Iterable[UUID] = ()) -> None:
        super().__init__()
        self.also = frozenset(also)


@dataclass(frozen=True, slots=True)
class Subject:
    """A subject that the call touches; `stale`: its worked rows wait to be worked out again."""

    kind: str
    area: UUID | None
    stale: bool


@dataclass(slots=True)
class Ground:
    """`subjects`: every subject named, those that the call opens too. `folded`: kind of each whose story the call goes
    into or that depends on one of them. `raw`: their sealed entries. `rested`: what leaks among them rest on, as it
    stands before the call. `marked`: subjects to be marked stale, with the one they rest on; `depending`: those that
    are folded again because of what they rest on. `anew`: by correction, what it names anew. `joined`: leaks that hang
    together with those of the call. `same`: records that it makes one with others, or may part from them."""

    wants: Wants
    subjects: dict[UUID, Subject] = field(default_factory=dict)
    folded: dict[UUID, str] = field(default_factory=dict)
    raw: dict[UUID, Standing] = field(default_factory=dict)
    rested: dict[UUID, Rested] = field(default_factory=dict)
    marked: dict[UUID, UUID] = field(default_factory=dict)
    depending: set[UUID] = field(default_factory=set)
    anew: dict[UUID, set[Put]] = field(default_factory=dict)
    joined: HangsTogether = field(default_factory=HangsTogether)
    same: frozenset[UUID] = frozenset()


def ground(tx: Tx, fresh: Sequence[Entry], *, also: Collection[UUID] = ()) -> Ground:
    """Lock and read what these entries touch. Raises NotThere, or Again where the call is to be run once more.

    `also`: to be locked beside those that the entries and the index of entries tell of.
    """
    found = Ground(wants=wants_of(fresh))
    found.wants.named |= set(also)
    _targets(tx, found, fresh)
    found.joined = hang_together(tx, _stories(found), fresh=fresh)
    found.same = said_same(tx, _stories(found), fresh=fresh)
    return _stood_on(tx, found, fresh)


def ground_of_leaks(tx: Tx, leaks: Collection[UUID], *, also: Collection[UUID] = ()) -> Ground:
    """The same for leaks that are only to be folded again. Raises Again where it is to be run once more."""
    return _stood_on(tx, Ground(wants=Wants(stories=dict.fromkeys(leaks, "leak"), named=set(also))), ())


def _stood_on(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> Ground:
    missing = _locked(tx, found)
    if missing:
        raise NotThere(missing)
    if tx.dialect != "sqlite" and _stand_in(tx, found.wants.targets) - found.wants.stories.keys():
        raise Again  # what it puts right moved to another story while the call waited for its locks
    if may_end(fresh) and tx.dialect != "sqlite" and hang_together(tx, _stories(found), fresh=fresh) != found.joined:
        raise Again  # one of its leaks was joined to another, or another to it, meanwhile
    for told in journal.stories(tx, found.folded.keys() - found.wants.opened.keys(), as_what=STORY).values():
        found.raw |= {entry.id: entry for entry in told}
    _read_rested(tx, found, fresh)
    return found


def _targets(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> None:
    """Entries that the call names must be there; those it puts right tell into whose stories it goes."""
    wants = found.wants
    if wants.entries | wants.targets:
        if missing := (wants.entries | wants.targets) - entries_there(tx, wants.entries | wants.targets):
            raise NotThere(missing)
        for subject in (standing := _stand_in(tx, wants.targets)):
            wants.stories.setdefault(subject, "")
        wants.changes |= dict.fromkeys(standing, "")
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
        wants.changes[to] = ""
    wants.named |= {to for _path, to in named} - wants.stories.keys() - wants.opened.keys()


def _locked(tx: Tx, found: Ground) -> set[UUID]:
    """Lock the subjects that stand, in one order; give those that are not there."""
    wants = found.wants
    opened = wants.opened
    found.subjects |= {id: Subject(kind, area, stale=False) for id, (kind, area) in opened.items()}
    found.folded |= {id: kind for id, (kind, _area) in opened.items() if id in wants.stories}
    stories, named = wants.stories.keys() - opened.keys(), wants.named - opened.keys()
    _joined(found)
    if all(wants.stories[id] == "leak" for id in stories):
        rested = rested_on(tx, {*stories, *found.depending})
        joined = found.joined.onward | {id for id, kind in rested.items() if kind == "leak"}
        _lock(tx, found, ids={*named, *rested} - joined - found.depending)
        _lock(tx, found, ids=joined, folds={*stories, *found.depending})
    else:
        _lock_by_kind(tx, found, stories, named)
    found.marked = {leak: on for leak, on in found.marked.items() if leak not in found.folded}
    return (stories | named) - found.subjects.keys()


def _stories(found: Ground) -> set[UUID]:
    return found.wants.stories.keys() - found.wants.opened.keys()


def _joined(found: Ground) -> None:
    """Leaks that lead to each other in a ring are folded together. Those joined to one of the call's are, too, since it
    may be opened in error now; where they are many they are marked stale."""
    here = found.joined.here - found.joined.ring - found.wants.stories.keys()
    if len(here) > REFOLDED_AT_ONCE:
        found.marked |= dict.fromkeys(here, next(iter(_stories(found))))
        here = frozenset()
    found.depending |= (here | found.joined.ring) - found.wants.stories.keys()


def _lock_by_kind(tx: Tx, found: Ground, stories: Collection[UUID], named: Collection[UUID]) -> None:
    """The same in the general case, where subjects of several kinds are folded: by kind in its turn, those only named
    and those folded, with all that rest on them."""
    kinds = {row.id: row.kind for row in tx.connection.execute(_KINDS, {"ids": [*stories, *named, *found.same]})}
    leaks = {id for id in stories if kinds.get(id) == "leak"} | found.depending
    kinds |= dict.fromkeys(found.joined.onward, "leak")
    for id in (id for id in stories if kinds.get(id) in FOLDS and id in found.wants.changes):
        resting = _resting_on(tx, found, id, kind=kinds[id])
        leaks |= resting if len(resting) <= REFOLDED_AT_ONCE else set()
    kinds |= rested_on(tx, leaks)
    for kind in SUBJECT_KINDS:
        folds = {id for id in stories if kinds.get(id) == kind}
        shared = {id for id, each in kinds.items() if each == kind and id not in stories}
        shared -= found.depending
        _lock(tx, found, ids=shared, folds=folds | found.depending if kind == "leak" else folds)
        if (
            kind in FOLDS
        ):  # what they rest on by a leak that came to rest here since it was looked up: in its turn, or now
            kinds |= (late := _dependents(tx, found, folds))
            turn = SUBJECT_KINDS.index(kind)
            _lock(
                tx, found, ids={id for id, of in late.items() if SUBJECT_KINDS.index(of) <= turn and id not in stories}
            )


def _resting_on(tx: Tx, found: Ground, id: UUID, *, kind: str) -> set[UUID]:
    return resting_on(tx, id, kind=kind, since=found.wants.changes[id], same=found.same)


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


def _dependents(tx: Tx, found: Ground, ids: Collection[UUID]) -> dict[UUID, str]:
    """Leaks that rest on a subject whose story goes on: folded again in this commit, or marked stale where they are
    many. Gives what those that are folded rest on, by id its kind."""
    rested: dict[UUID, str] = {}
    for id in (id for id in ids if id in found.wants.changes and id in found.folded):
        leaks = _resting_on(tx, found, id, kind=found.folded[id])
        if len(leaks) > REFOLDED_AT_ONCE:
            found.marked |= dict.fromkeys(leaks, id)
            continue
        rested |= rested_on(tx, leaks)
        found.depending |= leaks
    return rested


def _read_rested(tx: Tx, found: Ground, fresh: Sequence[Entry]) -> None:
    """What the loaded leaks rest on, as it stands, and the areas whose settings the entries were read with. Raises
    Again if any of it is not locked."""
    told = [(entry.said, entry.by["did"]) for entry in sorted(found.raw.values(), key=lambda entry: entry.index)]
    named = named_by([*told, *((entry.said, entry.did) for entry in fresh)])
    named["area"] |= {area for entry in fresh for area in entry.rests_on}
    wanted = {kind: ids - found.wants.opened.keys() for kind, ids in named.items()}
    found.rested = read(tx, wanted, same=found.same)
    asked = set().union(*wanted.values(), found.rested.keys())
    if tx.dialect != "sqlite" and (unlocked := asked - found.subjects.keys()):
        raise Again(unlocked)  # named since, or before a correction took it away: only the sealed lines tell
