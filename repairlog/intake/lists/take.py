"""Taking a list in: row by row, some hundreds of entries a call, whatever the length of the list; or only looking."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from uuid import UUID

from repairlog.access import EVERYTHING, Actor
from repairlog.entries.entry import Moments
from repairlog.intake.complaint import Complaint, NotUnderstood
from repairlog.intake.lists.declared import Columns
from repairlog.intake.lists.drafts import Drafts, drafts_of
from repairlog.intake.lists.file import List, Row, opened
from repairlog.intake.lists.looking import Looked, numbers_repeated
from repairlog.intake.lists.names import Names, leak_named, number_parts
from repairlog.intake.lists.refusal import Refusal, Refused
from repairlog.intake.lists.settled import Named, entries_of
from repairlog.intake.record import record_listed
from repairlog.records.post import Conflict
from repairlog.records.post.stories import Story, stories_there
from repairlog.records.queries.listed import leaks_listed_otherwise, leaks_numbered, operator_of
from repairlog.records.store import Store, Tx, in_bulk

ENTRIES_A_CALL = 300
"""Entries of one call. More make it no faster, and hold the book longer while others wait to write."""

MOST_TOLD = 1000
"""Refusals that are kept to be told; beyond that they are counted."""


@dataclass(slots=True)
class Tally:
    """What became of a list's rows. `raised`: gaps by code about what was taken in. `complaints`: the first MOST_TOLD
    refusals; `left_out`: refusals beyond. `columns_left`: columns that the columns file gives no meaning."""

    rows: int = 0
    taken: int = 0
    already_here: int = 0
    refused: int = 0
    left_out: int = 0
    raised: Counter[str] = field(default_factory=Counter)
    complaints: list[Refusal] = field(default_factory=list)
    columns_left: tuple[str, ...] = ()

    def refuse(self, refusals: Sequence[Refusal]) -> None:
        """One row that is not taken in, with all that speaks against it."""
        self.refused += 1
        room = max(0, MOST_TOLD - len(self.complaints))
        self.complaints += refusals[:room]
        self.left_out += len(refusals[room:])


@dataclass(frozen=True, slots=True, kw_only=True)
class Importing:
    """Where a list goes and who takes it in. `moments`: asked for each call; `only_look`: nothing is written."""

    store: Store
    area: UUID
    columns: Columns
    actor: Actor
    moments: Callable[[], Moments]
    only_look: bool = False


@dataclass(slots=True)
class _Batch:
    """Rows that go into one call. `parts`: each with the parts of its leak's name, no two of one name."""

    parts: dict[tuple[str, ...], Drafts] = field(default_factory=dict)
    entries: int = 0


@dataclass(frozen=True, slots=True, eq=False)
class _Pending:
    """A row that brings something new."""

    drafts: Drafts
    leak: UUID
    story: Story | None
    entries: Sequence[Named]


@dataclass(slots=True)
class _Run:
    """A list on its way in. `otherwise`: leaks that bear another number than the list gives them. `looked`: in a run
    that only looks, what it would have recorded."""

    of: Importing
    names: Names
    tally: Tally
    otherwise: dict[str, UUID]
    looked: Looked | None


def take(of: Importing, file: Path, *, tell: Callable[[Tally], None]) -> Tally:
    """Take the list in that file in, and say what became of its rows; `tell` hears of it after each call.

    What is in the book already is not taken twice, so that a list may be taken again at any time. Raises FileWrong,
    ColumnsWrong, access.Refused, store.Busy; what was taken in by then stays.
    """
    run = _run(of, file)
    with in_bulk(), opened(file, of.columns) as rows:
        run.tally.columns_left = _left(rows, of.columns)
        for batch in _batches(rows.rows, run):
            _settle(batch, run)
            tell(run.tally)
    return run.tally


def _run(of: Importing, file: Path) -> _Run:
    with of.store.reading() as tx:
        operator = operator_of(EVERYTHING, tx)
        assert operator is not None  # the book has an area
        otherwise = leaks_listed_otherwise(EVERYTHING, tx, area=of.area)
    named = (str(operator), str(of.area))
    otherwise = {n: id for n, id in otherwise.items() if leak_named(number_parts(named, n)) != id}
    looked = Looked(numbers_repeated(file, of.columns)) if of.only_look else None
    return _Run(of, Names(operator, of.area), Tally(), otherwise, looked)


def _left(rows: List, columns: Columns) -> tuple[str, ...]:
    named = {*columns.of.values(), *columns.identity, *(each.column for each in columns.grades)}
    named |= {each.on_column for each in columns.grades}
    return tuple(column for column in rows.header if column and column not in named)


def _batches(rows: Iterator[Row | Refusal], run: _Run) -> Iterator[_Batch]:
    """The rows that can be read, some hundreds of entries together; two rows of one leak never in one batch."""
    batch = _Batch()
    for row in rows:
        run.tally.rows += 1
        try:
            if isinstance(row, Refusal):
                raise Refused([row])
            drafts = drafts_of(row, run.of.columns)
        except Refused as refused:
            run.tally.refuse(refused.refusals)
            continue
        parts = run.names.parts_of(drafts)
        if parts in batch.parts or batch.entries >= ENTRIES_A_CALL:
            yield batch
            batch = _Batch()
        batch.parts[parts] = drafts
        batch.entries += 1 + len(drafts.later)
    yield batch


def _settle(batch: _Batch, run: _Run) -> None:
    """Record what is new in a batch; a row that cannot be recorded goes alone, and takes no other with it."""
    pending = list(_pending(batch, run))
    while pending:
        at = [(row, place) for row in pending for place in range(len(row.entries))]
        try:
            came = _recorded(pending, run)
        except NotUnderstood as problem:
            gone = _set_aside(at, problem.complaints, run.tally)
        except Conflict as conflict:
            gone = [row for row, place in at if row.entries[place][1]["id"] == str(conflict.id)][:1]
            run.tally.refuse([_of_conflict(row) for row in gone])
        else:
            _count(at, came, run.tally)
            return
        pending = [row for row in pending if row not in gone]


def _pending(batch: _Batch, run: _Run) -> Iterator[_Pending]:
    with run.of.store.reading() as tx:
        found = list(_found(tx, batch, run))
    for drafts, leak, story in found:
        try:
            entries = entries_of(drafts, leak, area=run.of.area, columns=run.of.columns, story=story)
        except Refused as refused:
            run.tally.refuse(refused.refusals)
            continue
        if entries:
            yield _Pending(drafts, leak, story, entries)
        else:
            run.tally.already_here += 1


def _found(tx: Tx, batch: _Batch, run: _Run) -> Iterator[tuple[Drafts, UUID, Story | None]]:
    """Each row with its leak and that leak's story: the one that bears the number, else the one that a list opened
    under that name, else a new one."""
    numbers = [drafts.number for drafts in batch.parts.values() if drafts.number]
    borne = leaks_numbered(EVERYTHING, tx, area=run.of.area, numbers=numbers) if numbers else {}
    borne = {number: run.otherwise[number] for number in numbers if number in run.otherwise} | dict(borne)
    ids = {leak_named(parts) for parts in batch.parts}
    stories = _stories(tx, ids | set(borne.values()), run)

    def story_of(id: UUID) -> Story | None:
        if id not in stories and id not in ids:
            stories.update(_stories(tx, {id}, run))
        return stories.get(id)

    def opened_in_error(id: UUID) -> bool:
        story = story_of(id)
        return story is not None and story.opened.void is not None

    for parts, drafts in batch.parts.items():
        leak = borne.get(drafts.number) or leak_named(parts, opened_in_error=opened_in_error)
        yield drafts, leak, story_of(leak)


def _stories(tx: Tx, ids: set[UUID], run: _Run) -> dict[UUID, Story]:
    stories = stories_there(tx, ids)
    return run.looked.counted_in(stories, ids) if run.looked else stories


def _recorded(pending: Sequence[_Pending], run: _Run) -> list[tuple[bool, Sequence[str]]]:
    """Of each entry whether it came in now, and the codes of the gaps about it."""
    call = [raw for row in pending for _draft, raw in row.entries]
    if run.looked:
        stories = {row.leak: row.story for row in pending}
        return run.looked.looked_at(run.of.store, call, actor=run.of.actor, moments=run.of.moments(), stories=stories)
    receipts = record_listed(run.of.store, call, actor=run.of.actor, moments=run.of.moments())
    return [(receipt.new, receipt.raised) for receipt in receipts]


def _count(at: Sequence[tuple[_Pending, int]], came: Sequence[tuple[bool, Sequence[str]]], tally: Tally) -> None:
    fresh = {id(row): False for row, _place in at}
    for (row, _place), (new, raised) in zip(at, came, strict=True):
        fresh[id(row)] |= new
        tally.raised.update(raised if new else ())
    tally.taken += sum(fresh.values())
    tally.already_here += len(fresh) - sum(fresh.values())  # another took in the same meanwhile


def _set_aside(at: Sequence[tuple[_Pending, int]], complaints: Sequence[Complaint], tally: Tally) -> list[_Pending]:
    gone: dict[int, tuple[_Pending, list[Refusal]]] = {}
    for complaint in complaints:
        row, place = at[complaint.entry]
        gone.setdefault(id(row), (row, []))[1].append(_of_complaint(row, place, complaint))
    for _row, refusals in gone.values():
        tally.refuse(refusals)
    return [row for row, _refusals in gone.values()]


def _of_complaint(row: _Pending, place: int, complaint: Complaint) -> Refusal:
    draft, _raw = row.entries[place]
    column = draft.columns.get(complaint.field, "") or complaint.field
    cell = row.drafts.row.cells.get(column, "")
    return Refusal(line=row.drafts.row.line, column=column, cell=cell, code=complaint.code, facts=complaint.facts)


def _of_conflict(row: _Pending) -> Refusal:
    """Another wrote about the same leak between looking and recording."""
    return Refusal(line=row.drafts.row.line, code="changed_meanwhile")
