"""A story to be read, of a leak, a call or what the books keep: every entry as it stands, with what it said before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from uuid import UUID

from repairlog.access import Scope
from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.naming import ids_brought, named_subjects, target_of
from repairlog.entries.standing import with_changes
from repairlog.records import journal
from repairlog.records.effects.arranged import Arranged, arranged
from repairlog.records.effects.chains import STORY
from repairlog.records.effects.rested import named_by
from repairlog.records.queries.companies import company_seen
from repairlog.records.queries.digs import LinkRow, digs_for, links_to
from repairlog.records.queries.leaks import Edge, Wanted, leaks
from repairlog.records.queries.lots import lots_with
from repairlog.records.queries.named import Named, named
from repairlog.records.queries.people_listed import person_seen
from repairlog.records.queries.private import Private, private_values
from repairlog.records.queries.settings import subjects
from repairlog.records.queries.stores import shelf_with
from repairlog.records.store import Tx
from repairlog.records.tables.rested import open_rulebooks, read
from repairlog.trade.adopted import Adoption, with_one_more
from repairlog.trade.area import Area
from repairlog.trade.call import call as fold_call
from repairlog.trade.dig import Dig, dig
from repairlog.trade.due.of_leak import Required
from repairlog.trade.gap import Gap
from repairlog.trade.leak import Leak
from repairlog.trade.leak import leak as fold
from repairlog.trade.rests import Rests, rests_of
from repairlog.trade.rulebook import Rulebook

BOOKS = ("operator", "call", "area", "crew", "instrument", "lot", "shelf", "place")
"""What has a story of its own beside people, companies and leaks; each belongs to an area, or is one, but for the
operator."""

_FOLDS_IN = {kind.folds_in for kind in KINDS.values() if kind.folds_in}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One entry. `entry`: as it stands; `was`: how it stood before each correction that counts, as sealed first;
    `corrections`: those, in the journal's order. `voided_by`: what made it void. `undone`: corrections and voids of it
    that were made void themselves. `rightings`: of all of these, what puts them right in turn."""

    entry: Standing
    was: tuple[Standing, ...]
    corrections: tuple[Standing, ...]
    voided_by: Standing | None
    undone: tuple[Standing, ...]
    rightings: tuple[Standing, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Story:
    """`of_leak`: the leak as it stands; None in any other story. `gaps`: of it and of its digs. `digs`: those
    that serve it, in the order in which they were opened. `told`: its entries and those of its digs in the order in
    which they happened, void ones too. `moved_away`: the corrections by which an entry left this story for another.
    `links`: those that others have to it. `named`: what any of them names, by id; `private`: the values beside the
    journal, by digest."""

    of_leak: Leak | None
    gaps: tuple[Gap, ...]
    digs: tuple[Dig, ...]
    links: Sequence[LinkRow]
    told: tuple[Told, ...]
    moved_away: tuple[Standing, ...]
    named: Mapping[UUID, Named]
    private: Mapping[str, Private]

    @property
    def leak(self) -> Leak:
        """The leak that it is the story of; a call's story has none."""
        assert self.of_leak is not None
        return self.of_leak


def story_of(scope: Scope, tx: Tx, *, leak: UUID) -> Story | None:
    """The story of that leak; None where it is not in scope, or there is none."""
    return stories_of(scope, tx, leaks=[leak]).get(leak)


def stories_of(scope: Scope, tx: Tx, *, leaks: Collection[UUID]) -> dict[UUID, Story]:
    """By id, the stories of those of these leaks that are in scope."""
    there = [row.id for row in subjects(scope, tx, ids=leaks) if row.kind == "leak"]
    if not there:
        return {}
    own = journal.stories(tx, there, as_what=STORY)
    serving = digs_for(scope, tx, leaks=there)
    sources = {leak: [entry.id for entry in told if entry.kind == "source_added"] for leak, told in own.items()}
    others = [id for more in (sources, serving) for ids in more.values() for id in ids]
    beside = journal.stories(tx, others, as_what=STORY)  # of a source, what is noted on it
    raw = {
        leak: {
            entry.id: entry
            for told in (own[leak], *(beside[id] for id in (*sources[leak], *serving.get(leak, ()))))
            for entry in told
        }
        for leak in there
    }
    every = {id: entry for entries in raw.values() for id, entry in entries.items()}
    sealed = [(each.said, each.by["did"]) for each in sorted(every.values(), key=lambda entry: entry.index)]
    around = _Around(
        digs=serving,
        sources=sources,
        links=links_to(scope, tx, leaks=there),
        rests=open_rulebooks(tx, rests_of(read(tx, named_by(sealed)).values())),
        named=named(scope, tx, ids=frozenset(_ids_in(every.values()))),
        private=private_values(scope, tx, ids=[id for id, entry in every.items() if entry.private]),
    )
    return {leak: story for leak in there if (story := _of_leak(leak, raw[leak], around)) is not None}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Around:
    """What the stories of some leaks are told with. `digs`, `sources` and `links`: by leak."""

    digs: Mapping[UUID, Sequence[UUID]]
    sources: Mapping[UUID, Sequence[UUID]]
    links: Mapping[UUID, Sequence[LinkRow]]
    rests: Rests
    named: Mapping[UUID, Named]
    private: Mapping[str, Private]


def _of_leak(leak: UUID, raw: Mapping[UUID, Standing], around: _Around) -> Story | None:
    stand = arranged(raw.values())
    as_is = fold(stand.stories.get(leak, ()), rests=around.rests)
    if as_is is None:
        return None
    serving = around.digs.get(leak, ())
    entries = [entry for id in (leak, *around.sources[leak], *serving) for entry in stand.stories.get(id, ())]
    digs = _in_order(stand.stories.get(id, ()) for id in serving)
    gaps = (*as_is.gaps, *(gap for each in digs for gap in each.gaps))
    told = _story(raw, stand, entries=entries, names=around.named, private=around.private)
    return replace(told, of_leak=as_is, gaps=gaps, digs=digs, links=around.links.get(leak, ()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Foreseen:
    """What would be owed of an open leak if a rulebook were adopted, beside what is."""

    leak: Leak
    now: tuple[Required, ...]
    then: tuple[Required, ...]


def foreseen(
    scope: Scope, tx: Tx, *, area: Area, adoption: Adoption, rulebook: Rulebook, most: int
) -> Sequence[Foreseen]:
    """The open leaks of an area, those reported first first, with what they owe and what they would if it adopted that
    rulebook; at most `most` of them. Nothing is written."""
    where = Wanted(area=area.id, status="open")
    ids = [row.id for row in leaks(scope, tx, where=where, beyond=Edge(date.min, UUID(int=0), "newer"), most=most)][
        ::-1
    ]
    raw = {entry.id: entry for told in journal.stories(tx, ids, as_what=STORY).values() for entry in told}
    stand = arranged(raw.values())
    sealed = [(each.said, each.by["did"]) for each in sorted(raw.values(), key=lambda entry: entry.index)]
    rests = open_rulebooks(tx, rests_of(read(tx, named_by(sealed)).values()))
    also = replace(
        rests,
        areas={**rests.areas, area.id: replace(area, adoptions=with_one_more(area.adoptions, adoption))},
        rulebooks={**rests.rulebooks, rulebook.digest: rulebook},
    )
    found = []
    for id in ids:
        story = stand.stories.get(id, ())
        now, then = fold(story, rests=rests), fold(story, rests=also)
        if now is not None and then is not None:
            found.append(Foreseen(leak=now, now=now.required, then=then.required))
    return found


def story_of_call(scope: Scope, tx: Tx, *, call: UUID) -> Story | None:
    """The story of that call; None where it is not in scope, or there is none."""
    if not [row for row in subjects(scope, tx, ids=[call]) if row.kind == "call"]:
        return None
    raw = {entry.id: entry for entry in journal.stories(tx, [call], as_what=STORY)[call]}
    stand = arranged(raw.values())
    entries = list(stand.stories.get(call, ()))
    as_is = fold_call(entries)
    if as_is is None:
        return None
    return replace(_read(scope, tx, raw, stand, entries=entries), gaps=as_is.gaps)


def story_of_book(scope: Scope, tx: Tx, *, of: UUID) -> Story | None:
    """The story of what the books keep: an area, a company, a person, a crew, an instrument, a lot, a place, a shelf.
    None where it is not in scope, or there is none. A lot or shelf is in that of whoever works in its area, too."""
    of_no_area = person_seen(scope, tx, person=of) or company_seen(scope, tx, company=of)
    there = of_no_area or [r for r in subjects(scope, tx, ids=[of]) if r.kind in BOOKS]
    if not (there or lots_with(scope, tx, ids=[of]) or shelf_with(scope, tx, shelf=of)):
        return None
    raw = {entry.id: entry for entry in journal.stories(tx, [of], as_what=STORY)[of]}
    stand = arranged(raw.values())
    return _read(scope, tx, raw, stand, entries=list(stand.stories.get(of, ())))


def _read(scope: Scope, tx: Tx, raw: Mapping[UUID, Standing], stand: Arranged, *, entries: Sequence[Standing]) -> Story:
    names = named(scope, tx, ids=frozenset(_ids_in(raw.values())))
    private = private_values(scope, tx, ids=[id for id, entry in raw.items() if entry.private])
    return _story(raw, stand, entries=entries, names=names, private=private)


def _story(
    raw: Mapping[UUID, Standing],
    stand: Arranged,
    *,
    entries: Sequence[Standing],
    names: Mapping[UUID, Named],
    private: Mapping[str, Private],
) -> Story:
    """The entries of a story told, with what they name; what the subject itself is like is put in by whoever asks."""
    own = sorted((entry for entry in entries if entry.kind not in RIGHTING), key=order_of_happening)
    chains: defaultdict[UUID, list[Standing]] = defaultdict(list)
    for id, root in stand.roots.items():
        chains[root] += [stand.entries[id]] if id != root else []
    return Story(
        of_leak=None,
        gaps=(),
        digs=(),
        links=(),
        told=tuple(_told(entry, raw[entry.id], chain=chains[entry.id]) for entry in own),
        moved_away=tuple(_moved_away(raw, stand)),
        named=names,
        private=private,
    )


def _in_order(stories: Iterable[Sequence[Standing]]) -> tuple[Dig, ...]:
    return tuple(sorted(filter(None, map(dig, stories)), key=lambda each: order_of_happening(each.opened)))


def _told(entry: Standing, now: Standing, *, chain: Sequence[Standing]) -> Told:
    """`now`: the entry as sealed. `chain`: every correction and void that speaks about it in the end."""
    of = {each.index: each for each in chain}
    corrections = tuple(of[index] for index in entry.corrected)
    first = [each for each in chain if target_of(each.said) == entry.id]
    was = []
    for correction in corrections:
        was.append(now)
        now = with_changes(now, correction)
    return Told(
        entry=entry,
        was=tuple(was),
        corrections=corrections,
        voided_by=of.get(entry.void) if entry.void is not None else None,
        undone=tuple(each for each in first if each.void is not None),
        rightings=tuple(each for each in chain if target_of(each.said) != entry.id),
    )


def _moved_away(raw: Mapping[UUID, Standing], stand: Arranged) -> Iterator[Standing]:
    """Corrections of entries that are not here any more, those that name another story."""
    for id, entry in raw.items():
        fields = {change["field"] for change in entry.rows("changes")}
        if entry.kind == "corrected" and id not in stand.roots and fields & _FOLDS_IN:
            yield stand.entries[id]


def _ids_in(entries: Iterable[Standing]) -> Iterator[UUID]:
    """Every subject that they name or ever named, who typed and who sent them."""
    for entry in entries:
        yield from (id for id, _as_what in named_subjects(entry.said, entry.by["did"]))
        yield from ids_brought(entry.said)
        yield from (read_id(entry.by[name]) for name in ("typed", "sent"))
