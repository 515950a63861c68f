"""Histories by chance, over every kind of entry: told in any order they give the same rows; told wrong and put right
they give the rows that they give told right from the start.

In short here and in CI; `REPAIRLOG_HISTORIES=500` tries so many of each, by hand.
"""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import timedelta
from itertools import count
from pathlib import Path
from uuid import UUID

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from repairlog.entries.entry import Moments
from repairlog.entries.kinds import KINDS
from repairlog.entries.moments import moment_text
from repairlog.intake.changes import changes_between
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.tables import of_kind
from tests.makers import any_history
from tests.makers import book as m
from tests.makers.any_history import History, Raw
from tests.makers.copies import Copy, changed, copy_of
from tests.makers.once import anew
from tests.makers.rulebooks import RULEBOOKS

TRIED = int(os.environ.get("REPAIRLOG_HISTORIES", "8"))
LONGEST = 60
EVENING = Moments(received=m.RECEIVED + timedelta(hours=9))
OF_ARRIVAL = {"journal_index", "settings_version", "leak.number", "leak_opened.number_given", "call.number"}
OF_ARRIVAL |= {"call_received.number_given"}
OF_ARRIVAL |= {f"{each.name}_digest" for kind in KINDS.values() for each in kind.fields if each.private}
"""Columns that hang on the order of arrival by decision: places in the journal, numbers given to people; and digests of
private values, each salted by chance."""

NUMBERS_GIVEN = {"area_counter", "call_counter"}
"""A number that was given is not taken back where the opening was put right."""

LATE = {"typed_long_after", "keyed_from_paper_long_after"}
"""How soon an entry was to be typed is sealed with it, as the area said by then; once for all that came together."""

MARKS = OF_ARRIVAL | {"corrected", "void"}

any_seed = st.integers(min_value=0, max_value=2**32)
any_length = st.integers(min_value=5, max_value=LONGEST)
tried = settings(
    max_examples=TRIED,
    phases=[
        Phase.explicit,
        Phase.reuse,
        Phase.generate,
    ],  # what goes wrong is cut short by hand: each try takes seconds
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)


@dataclass(frozen=True)
class Books:
    """Makes a new book wherever one is asked for, always with the same ids in it."""

    template: Path
    folder: Path

    @contextmanager
    def one(self) -> Iterator[m.Book]:
        """An open book on a database of its own."""
        file = shutil.copy(self.template, self.folder / "repairlog.db")
        for rest in self.folder.glob("repairlog.db-*"):
            rest.unlink()
        store = open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS)
        with pytest.MonkeyPatch.context() as patched:
            patched.setattr(m, "_numbers", count(1))
            try:
                yield anew(m.opened)(store)
            finally:
                store.close()


@pytest.fixture
def books(sqlite_template: Path, tmp_path: Path) -> Books:
    return Books(sqlite_template, tmp_path)


def history_of(books: Books, *, seed: int, length: int) -> list[Raw]:
    """A history by chance, each entry with a moment at which it was written."""
    with books.one() as book:
        history = any_history.begun(book, seed=seed)
        for _ in range(length):
            any_history.go_on(history)
    return written(history.told)


def written(told: list[Raw]) -> list[Raw]:
    """The entries, each written a minute after the one before it."""
    at = [EVENING.received - timedelta(minutes=len(told) - place) for place in range(len(told))]
    return [entry | {"written": moment_text(moment)} for entry, moment in zip(told, at, strict=True)]


def rows_of(books: Books, told: list[Raw], *, at_once: Callable[[], int], without: set[str]) -> Copy:
    """What facts and worked tables hold once a book has taken them in that order."""
    with books.one() as book:
        left = list(told)
        while left:
            size = at_once()
            book.say(*left[:size], moments=EVENING)
            left = left[size:]
        assert check(book.store).differences == ()
        return without_late(copy_of(book.store, *of_kind("facts", "worked"), without=without))


def without_late(rows: Copy) -> Copy:
    """The rows but for those gaps that hang on the order of arrival by decision."""
    return {name: [row for row in every if LATE.isdisjoint(map(str, row))] for name, every in rows.items()}


def shuffled(told: list[Raw], *, chance: random.Random) -> list[Raw]:
    """The entries in another order, each after every entry that it names."""
    names = {each["id"]: named_in(each, told) for each in told}
    left, done, there = list(told), [], set()
    while left:
        chosen = chance.choice([each for each in left if names[each["id"]] <= there])
        left.remove(chosen)
        done.append(chosen)
        there.add(chosen["id"])
    return done


def named_in(entry: Raw, told: list[Raw]) -> set[str]:
    text = repr({name: value for name, value in entry.items() if name != "id"})
    return {each["id"] for each in told if each["id"] in text}


@given(seed=any_seed, length=any_length)
@tried
def test_a_history_in_any_order_of_arrival_gives_the_same_rows(books: Books, seed: int, length: int) -> None:
    told, chance = history_of(books, seed=seed, length=length), random.Random(seed)
    as_told = rows_of(books, told, at_once=lambda: 1, without=OF_ARRIVAL)
    other = rows_of(
        books, shuffled(told, chance=chance), at_once=lambda: chance.choice((1, 1, 2, 6)), without=OF_ARRIVAL
    )
    assert {name: (as_told[name], other[name]) for name in changed(as_told, other)} == {}


@dataclass
class Twice:
    """A history told right, and the same with mistakes that were put right. `marks`: what put it right, and what was
    entered in error."""

    right: list[Raw]
    righted: list[Raw]
    marks: set[str]


def twice_of(books: Books, *, seed: int, length: int) -> Twice:
    """One in three entries was typed otherwise first and corrected later; one in six that follow was made in error."""
    with books.one() as book:
        history = any_history.begun(book, seed=seed)
        opened = len(history.told)
        for _ in range(length):
            any_history.tell(history, any_history.new_kind(history))
        right, chance = written(history.told), history.chance
        righted: list[Raw] = []
        later: list[Raw] = []
        for place, entry in enumerate(right):
            wrong = _otherwise(history, entry, before=righted) if chance.random() < 0.35 else entry
            changes = changes_between(KINDS[entry["kind"]], was=wrong, now=entry)
            righted.append(wrong)
            later += [m.corrected(entry["id"], reason="misread", changes=changes)] if changes else []
            if place >= opened and chance.random() < 0.15 and (error := _in_error(history, before=righted)):
                righted.append(error)
                later.append(m.void(error["id"]))
            while later and chance.random() < 0.4:
                righted.append(later.pop(chance.randrange(len(later))))
        righted += later
    marks = {each["id"] for each in righted} - {each["id"] for each in right}
    return Twice(right, righted, marks)


def _in_error(history: History, *, before: list[Raw]) -> Raw | None:
    """An entry that should not have been made, which names what was there by then."""
    entry = any_history.new_kind(history, opens=False)
    readable = any_history.tell(history, entry)
    return entry if readable and named_in(entry, history.told) <= {each["id"] for each in before} else None


def _otherwise(history: History, entry: Raw, *, before: list[Raw]) -> Raw:
    """The entry as it might have been typed wrongly, naming what was there before it."""
    kind, chance = KINDS[entry["kind"]], history.chance
    if kind.name in any_history.LEFT_OUT:
        return entry
    there = {each["id"] for each in before}
    made = dict(entry)
    for each in kind.fields:
        if each.name in any_history.NO_SUCH or chance.random() < 0.7:
            continue
        if not each.required and chance.random() < 0.3:
            made.pop(each.name, None)
            continue
        value = any_history.value_of(history, each, kind)
        if value is not None and (each.kind not in ("ref", "entry", "hole") or value.partition("/")[0] in there):
            made[each.name] = value
    for rows in kind.rows:
        if len(made.get(rows.name, ())) > 1 and chance.random() < 0.3:
            made[rows.name] = made[rows.name][1:]
    return made


@given(seed=any_seed, length=any_length)
@tried
def test_a_history_put_right_gives_the_rows_of_one_told_right(books: Books, seed: int, length: int) -> None:
    told = twice_of(books, seed=seed, length=length)
    right = rows_of(books, told.right, at_once=lambda: 1, without=MARKS)
    righted = without_marks(rows_of(books, told.righted, at_once=lambda: 1, without=MARKS), marks=told.marks)
    assert {name: (right[name], righted[name]) for name in changed(right, righted) - NUMBERS_GIVEN} == {}


def without_marks(rows: Copy, *, marks: set[str]) -> Copy:
    """The rows but for those facts that say what put something right, or what was entered in error."""
    ids = set(map(UUID, marks))
    facts = {table.name for table in of_kind("facts")}
    return {
        name: every if name not in facts else [row for row in every if not ids & {c for c in row if type(c) is UUID}]
        for name, every in rows.items()
    }
