"""Posting entries: the one path by which anything is written about what happened."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import and_, func, select
from sqlalchemy.exc import DBAPIError

from repairlog.access import Actor, Ask, require
from repairlog.entries.entry import Entry, Moments
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import RIGHTING
from repairlog.records import journal
from repairlog.records.columns import IDS
from repairlog.records.effects.arranged import Arranged, arranged
from repairlog.records.journal import Appended
from repairlog.records.post.asks import asks_of
from repairlog.records.post.chain import demand_whole
from repairlog.records.post.content import Conflict, as_shown, fresh_of
from repairlog.records.post.finished import drop_finished
from repairlog.records.post.folding import write_what_changed
from repairlog.records.post.ground import Again, Ground, ground
from repairlog.records.post.numbers import numbered
from repairlog.records.post.required import rulebooks_required
from repairlog.records.post.sealing import Draft, draft, provisional
from repairlog.records.post.sent import Sent, sent_by_id
from repairlog.records.post.settings import demand_unchanged
from repairlog.records.store import Busy, Store, Tx, is_worth_another_turn
from repairlog.records.tables import beside, facts, worked
from repairlog.records.tables.picture import Change, Picture, difference, merged
from repairlog.records.tables.rulebook_texts import keep_texts
from repairlog.records.tables.write import write

TURNS = 3

_OPERATOR = select(facts.SUBJECT.c.id).where(facts.SUBJECT.c.kind == "operator")
_NUMBERS_AND_GAPS = (  # a gap about an entry stands in the record of the subject that the entry belongs to
    select(facts.ENTRY.c.id, func.coalesce(worked.LEAK.c.number, worked.CALL.c.number), worked.GAP.c.code)
    .outerjoin(worked.LEAK, worked.LEAK.c.id == facts.ENTRY.c.subject_id)
    .outerjoin(worked.CALL, worked.CALL.c.id == facts.ENTRY.c.subject_id)
    .outerjoin(
        worked.GAP, and_(worked.GAP.c.subject_id == facts.ENTRY.c.subject_id, worked.GAP.c.entry_id == facts.ENTRY.c.id)
    )
    .where(facts.ENTRY.c.id.in_(IDS))
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Receipt:
    """What the poster holds: the entry's id, its index, its leaf (hex); `number` of the leak or call it belongs to,
    empty for other subjects; `raised`: codes of the gaps that stand about it now. `new`: it came in with this call."""

    id: UUID
    index: int
    leaf: str
    number: str
    raised: tuple[str, ...]
    new: bool


def post(store: Store, entries: Sequence[Entry], *, actor: Actor, moments: Moments) -> list[Receipt]:
    """Record these entries in this order, all or none; a receipt each. Posting twice is posting once.

    Raises Conflict (an entry of the same id says something else), NotThere (a subject or entry that it names is not
    in the book), access.Refused, SettingsChanged (understand and post again), store.Busy. Whatever is raised, nothing
    was written.
    """
    return post_sent(store, entries, sent=[Sent(actor=actor, moments=moments)] * len(entries))


def post_sent(store: Store, entries: Sequence[Entry], *, sent: Sequence[Sent]) -> list[Receipt]:
    """The same for entries that came from several senders at several moments. `sent`: one an entry, in their order."""
    also: frozenset[UUID] = frozenset()
    for _turn in range(TURNS):
        try:
            with store.writing() as tx:
                return _posted(tx, entries, sent=sent_by_id(entries, sent), also=also)
        except Again as again:
            also |= again.also
        except DBAPIError as error:
            if not is_worth_another_turn(error):
                raise
    raise Busy


def _posted(tx: Tx, entries: Sequence[Entry], *, sent: Mapping[UUID, Sent], also: frozenset[UUID]) -> list[Receipt]:
    known = journal.known(tx, {entry.id for entry in entries})
    try:
        fresh = fresh_of(tx, entries, standing=known)
    except Conflict as conflict:
        raise as_shown(tx, conflict, sent=sent[conflict.id]) from None
    places = {id: Appended(id, each.index, each.leaf) for id, each in known.items()}
    if fresh:
        on = ground(tx, fresh, also=also)
        if tx.dialect != "sqlite" and journal.known(tx, {entry.id for entry in fresh}):
            raise Again  # a twin came in while this call waited for its locks
        demand_unchanged(on.rested, fresh)
        demand_whole(fresh, on.raw)
        asks = asks_of(fresh, on, tx=tx, sent=sent)
        for ask in asks:
            require(sent[fresh[ask.position].id].actor, [ask])
        places |= _recorded(tx, numbered(tx, fresh), on, asks=asks, sent=sent)
    drop_finished(tx, {id: sent[id].actor.person for id in places})
    return _receipts(tx, entries, places, new={entry.id for entry in fresh})


def _recorded(
    tx: Tx, fresh: Sequence[Entry], on: Ground, *, asks: Sequence[Ask], sent: Mapping[UUID, Sent]
) -> dict[UUID, Appended]:
    operator = _operator(tx, fresh)
    areas = [_answered_to(entry, ask) for entry, ask in zip(fresh, asks, strict=True)]
    required = rulebooks_required(fresh, areas=areas, rested=on.rested)
    drafts = [
        draft(entry, operator=operator, sent=sent[entry.id], ask=ask, rulebook=digest)
        for entry, ask, digest in zip(fresh, asks, required, strict=True)
    ]
    new = provisional(drafts)
    keep_texts(tx, fresh)
    before, after = arranged(on.raw.values()), arranged([*on.raw.values(), *new])
    write_what_changed(tx, before=before, after=after, on=on)
    _write_beside(tx, drafts, on, at=sent[fresh[0].id].moments.received)
    done = {each.id: each for each in journal.append(tx, [each.line for each in drafts])}
    _write_places(tx, before, after, done=done)
    return done


def _answered_to(entry: Entry, ask: Ask) -> UUID | None:
    """The area to which its subject answered on the day of the entry: of one that moved, the area it was read by."""
    return next(iter(entry.rests_on), ask.area) if ask.areas_since else ask.area


def _write_beside(tx: Tx, drafts: Sequence[Draft], on: Ground, *, at: datetime) -> None:
    change = Change()
    private = [
        {"entry_id": read_id(each.id), "path": path, "digest": each.line["private"][path], "salt": salt, "value": value}
        for each in drafts
        for path, value, salt in each.private
    ]
    if private:
        change.puts[beside.PRIVATE_VALUE] = [{**row, "removed_on": None, "removed_because": None} for row in private]
    if on.marked:
        because = read_id(drafts[0].id)
        change.puts[beside.STALE] = [{"subject_id": id, "stale_since": at, "because_id": because} for id in on.marked]
    write(tx, change)


def _write_places(tx: Tx, before: Arranged, after: Arranged, *, done: Mapping[UUID, Appended]) -> None:
    """The rows of `entry` and `about`: of the new entries, and of those in whose chain a new one stands.

    `after`: with the new entries behind all others, in their order: only their index was not known yet.
    """
    roots = {after.roots[id] for id in done if after.entries[id].kind in RIGHTING}
    chain = [id for id, root in after.roots.items() if root in roots]
    old: Picture = merged(before.place_of(id) for id in chain)
    new = merged(after.place_of(id) for id in dict.fromkeys([*done, *chain]))
    for id, each in done.items():
        new[facts.ENTRY][(id,)] = {**new[facts.ENTRY][(id,)], "journal_index": each.index}
    write(tx, difference(old, new))


def _operator(tx: Tx, fresh: Sequence[Entry]) -> UUID:
    opened = next((entry.id for entry in fresh if entry.kind == "operator_opened"), None)
    return opened or tx.connection.execute(_OPERATOR).scalar_one()


def _receipts(tx: Tx, entries: Sequence[Entry], places: Mapping[UUID, Appended], *, new: set[UUID]) -> list[Receipt]:
    numbers: dict[UUID, str] = {}
    raised: dict[UUID, set[str]] = defaultdict(set)
    for id, number, code in tx.connection.execute(_NUMBERS_AND_GAPS, {"ids": list(places)}):
        numbers[id] = number or ""
        raised[id] |= {code} if code else set()
    return [
        Receipt(
            id=entry.id,
            index=places[entry.id].index,
            leaf=places[entry.id].leaf.hex(),
            number=numbers.get(entry.id, ""),
            raised=tuple(sorted(raised[entry.id])),
            new=entry.id in new,
        )
        for entry in entries
    ]
