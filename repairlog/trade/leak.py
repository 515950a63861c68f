"""A leak as it stands: always a fold over all its entries in the order they happened, never an increment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.answers_to import answers
from repairlog.trade.attempts import Attempt, attempts
from repairlog.trade.bar_holes import BarHole, bar_holes, holes_by_name
from repairlog.trade.due.of_leak import Required, required
from repairlog.trade.ending import Ending, ending_that_counts, endings
from repairlog.trade.gap import Gap
from repairlog.trade.grades import Grade, grades
from repairlog.trade.joins import joined_to, led_on
from repairlog.trade.leak_gaps import gaps
from repairlog.trade.rests import Rests
from repairlog.trade.set_aside import marked
from repairlog.trade.sources import Known, sources
from repairlog.trade.work import Scheduled, in_hand, scheduled, waits


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """`number`: its place among the leak's sources, from 1. `tight_on`: day of the last permanent attempt on it, where
    that is tight; empty otherwise. `known`: what is known of it now."""

    id: UUID
    number: int
    tight_on: str
    known: Known


@dataclass(frozen=True, slots=True, kw_only=True)
class Leak:
    """`opened`: the entry that opened it. `area`: the one it answers to. `status`: open, ended, opened_in_error.
    `ending`: the one that counts. `reopened_on`: day on which it was last opened again; empty where it never was.
    `in_hand`: the entries by which work was given that is still to be done. `waits`: the entry that says what the work
    waits on. `watch`: the entry that handed the watch over last, unless the site was left since. `required`: what is
    owed, by each rulebook that counts. `joined_to`: the number under which it would go on; where it is open all the
    same, that leads nowhere."""

    opened: Standing
    area: UUID
    status: str
    grade_found: Grade | None
    grade_now: Grade | None
    ending: Ending | None
    sources: tuple[Source, ...]
    attempts: tuple[Attempt, ...]
    bar_holes: tuple[BarHole, ...]
    reopened_on: str
    scheduled: Scheduled | None
    in_hand: tuple[Standing, ...]
    waits: Standing | None
    gaps: tuple[Gap, ...]
    watch: Standing | None = None
    required: tuple[Required, ...] = ()
    joined_to: UUID | None = None


def leak(entries: Sequence[Standing], *, rests: Rests) -> Leak | None:
    """The leak that these entries tell of; None if none of them opens it.

    `entries`: all that belong to it as they stand, void ones too, in any order. `rests`: what it
    rests on beside them.
    """
    opened = next((entry for entry in entries if entry.kind == "leak_opened"), None)
    if opened is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    answered = answers(opened, live)
    done = attempts(live)
    known = sources(live)
    found = [each.id for each in known]
    ends = endings(live, done={each.id: each for each in done}, sources=found)
    would = joined_to(ending_that_counts(ends)) if opened.void is None else None
    ends = led_on(ends, leak=opened.id, joins=rests.leaks)
    ending = ending_that_counts(ends) if opened.void is None else None
    is_open = ending is None and opened.void is None
    set_grades = grades(live)
    stand = [each.grade for each in set_grades if each.counts]
    again = [entry.on for entry in live if entry.kind == "leak_reopened"]
    raised = gaps(
        opened,
        live,
        answered=answered,
        done=done,
        ends=ends,
        grades=set_grades,
        sources=found,
        holes=holes_by_name(live),
        rests=rests,
    )
    return Leak(
        opened=opened,
        area=answered.now,
        status=_status(opened, ending),
        grade_found=stand[0] if stand else None,
        grade_now=stand[-1] if stand else None,
        ending=ending,
        sources=tuple(_source(each, done, number=number) for number, each in enumerate(known, start=1)),
        attempts=tuple(done),
        bar_holes=tuple(bar_holes(live)),
        reopened_on=again[-1] if again else "",
        scheduled=scheduled(live) if is_open else None,
        in_hand=tuple(in_hand(live, done=done, is_open=is_open)) if opened.void is None else (),
        waits=waits(live) if is_open else None,
        gaps=tuple(marked(raised, live)),
        watch=_watch(live),
        joined_to=would,
        required=required(
            opened,
            live,
            done=done,
            grades=set_grades,
            ending=ending,
            area=rests.areas.get(answered.then(ending.entry) if ending else answered.now),
            rulebooks=rests.rulebooks,
        ),
    )


def _watch(live: Sequence[Standing]) -> Standing | None:
    """The last handing over of the watch; none where the site was left after it."""
    left = ("moment_noted", "left_site")
    last = [each for each in live if each.kind == "watch_handed" or (each.kind, each.text("moment")) == left]
    return last[-1] if last and last[-1].kind == "watch_handed" else None


def _status(opened: Standing, ending: Ending | None) -> str:
    if opened.void is not None:
        return "opened_in_error"
    return "ended" if ending else "open"


def _source(known: Known, done: Sequence[Attempt], *, number: int) -> Source:
    permanent = [each for each in done if each.source == known.id and each.lasting == "permanent"]
    tight_on = permanent[-1].on if permanent and permanent[-1].holds else ""
    return Source(id=known.id, number=number, tight_on=tight_on, known=known)
