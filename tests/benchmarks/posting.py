"""Posting measured: the door, against its own rows and its own statements written through the driver."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, replace
from typing import Any

from repairlog.entries.entry import Entry, Moments
from repairlog.intake import record
from repairlog.intake.call import understand
from repairlog.records.post import post
from repairlog.records.store import Store, open_store
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further, taking_turns
from tests.benchmarks.journals import rebuilt
from tests.benchmarks.rows import all_rows
from tests.benchmarks.statements import Statement, captured, driver, replay
from tests.makers.book import RECEIVED, Book
from tests.makers.rulebooks import RULEBOOKS

MOMENTS = Moments(received=RECEIVED)
Call = list[dict[str, Any]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Posted:
    """Median seconds of one call: `door`, `post` alone, of entries that are understood; `whole`, `record`, with reading
    and understanding; `rows`, the rows the door wrote, through the driver; `floor`, all of its statements, through the
    driver. `same_rows`: all four left the same rows."""

    door: float
    whole: float
    rows: float
    floor: float
    statements: float
    same_rows: bool


MOST = 2000
"""Entries that are posted at the most, however many stand in the book by then."""


def measured(at: Place, filled: Callable[[Book], Sequence[Call]], *, entries: int) -> Posted:
    """Post calls on a book that has at least so many entries, each way on a copy of its own. `filled`: gives the calls
    to measure, and fills the book with what they need."""
    url, book = rebuilt(at, entries=entries)
    store = open_store(url, rulebooks=RULEBOOKS)
    book = replace(book, store=store)
    calls = filled(book)
    understood = [understand(store, call, actor=book.everyone, moments=MOMENTS) for call in calls]
    store.close()
    with ExitStack() as closing:
        stores = {way: _store(at.copied(url), closing) for way in ("seen", "door", "whole", "rows", "floor")}
        seen = _seen(stores.pop("seen"), understood, book=book)
        rows, floor = (closing.enter_context(driver(stores[way])) for way in ("rows", "floor"))
        written = [[each for each in call if each.writes] for call in seen]
        ways: dict[str, Callable[[int], object]] = {
            "door": lambda turn: post(stores["door"], understood[turn], actor=book.everyone, moments=MOMENTS),
            "rows": lambda turn: replay(rows, written[turn]),
            "floor": lambda turn: replay(floor, seen[turn]),
            "whole": lambda turn: record(stores["whole"], calls[turn], actor=book.everyone, moments=MOMENTS),
        }
        medians = taking_turns(ways, turns=len(calls))
        first, *others = (all_rows(each) for each in stores.values())
    statements = sum(len(call) for call in seen) / len(seen)
    return Posted(**medians, statements=statements, same_rows=all(other == first for other in others))


def figure_of(
    posted: Posted, *, name: str, database: str, rows: int, aim: float, what: str, floor_aim: str = ""
) -> Figure:
    """What was measured, as a figure: the door against its rows, with the floor and the whole way in beside it."""
    return Figure(
        name=name,
        database=database,
        rows=rows,
        unit="s a call",
        ours=posted.door,
        baseline=posted.rows,
        ratio=posted.door / posted.rows,
        aim=aim,
        what=what,
        same_rows=posted.same_rows,
        further=(
            Further(
                name="floor",
                value=posted.floor,
                ratio=posted.door / posted.floor,
                what=f"the door's own {posted.statements:.0f} statements through the driver; ours to it{floor_aim}",
            ),
            Further(
                name="record",
                value=posted.whole,
                ratio=posted.whole / posted.rows,
                what="with reading and understanding, which ours leaves out; to the baseline",
            ),
        ),
    )


def _store(url: str, closing: ExitStack) -> Store:
    store = open_store(url, rulebooks=RULEBOOKS)
    closing.callback(store.close)
    return store


def _seen(store: Store, entries: Sequence[Sequence[Entry]], *, book: Book) -> list[list[Statement]]:
    seen = []
    for call in entries:
        with captured(store) as statements:
            post(store, call, actor=book.everyone, moments=MOMENTS)
        seen.append(statements)
    return seen
