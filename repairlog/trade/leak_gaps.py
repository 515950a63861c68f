"""What in a leak's record does not hold up. A gap says so; it never refuses and never drops what was written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import RIGHTING
from repairlog.trade import joins
from repairlog.trade.answers_to import Answers, moved_nowhere
from repairlog.trade.any_gaps import any_gaps
from repairlog.trade.attempts import Attempt
from repairlog.trade.ending import Ending, ending_that_counts
from repairlog.trade.gap import Gap
from repairlog.trade.gaps import graded, naming, not_there, order, own_work, times, vented, watch
from repairlog.trade.grades import GradeSet
from repairlog.trade.on_the_books import cut_over, on_the_books
from repairlog.trade.rests import Rests
from repairlog.trade.typed_after import typed_long_after

BY_REPAIR = ("repaired", "replaced", "adjusted")
"""Endings by work on the pipe."""


def gaps(
    opened: Standing,
    live: Sequence[Standing],
    *,
    answered: Answers,
    done: Sequence[Attempt],
    ends: Sequence[Ending],
    grades: Sequence[GradeSet],
    sources: Sequence[UUID],
    holes: Mapping[str, int],
    rests: Rests,
) -> Iterator[Gap]:
    """Every gap of a leak. `live`: its entries that stand, in the order they happened; `answered`: the areas to which
    it answered; `rests`: what it rests on; `holes`: the numbers of its bar holes by every name they bear."""
    if opened.void is not None:
        yield from _opened_in_error(live)
        return
    yield from _before_the_report(opened, live)
    yield from _endings(ends)
    by_id = {entry.text("id"): entry for entry in live}
    yield from order.tests_in_order(live, by_id)
    yield from times.times_in_order(live, by_id)
    yield from order.after_the_end(live, ends)
    yield from order.two_stories(live, holes)
    yield from watch.handed_on(live)
    yield from typed_long_after(live)
    yield from naming.named_elsewhere(live, by_id=by_id, sources=sources)
    yield from _lower_grades(grades)
    yield from graded.lower_than_called_for(live, grades=grades, answered=answered, rests=rests)
    yield from vented.lowered_after_venting(opened, live, grades=grades, answered=answered, rests=rests)
    yield from own_work.accepted_by_who_did_it(live, by_id=by_id, answered=answered, rests=rests)
    yield from moved_nowhere(answered)
    for entry in live:
        cut_over_on = cut_over(answered.then(entry), rests)
        yield from on_the_books(entry, rests, cut_over_on=cut_over_on)
        yield from not_there.not_there(entry, rests)
        yield from any_gaps(entry, cut_over_on=cut_over_on)
        if entry.kind == "grade_set" and "rank" not in entry.understood:
            yield Gap(code="grade_not_known", entry=entry.id, facts={"grade": entry.text("grade")})
    known = {str(each.id) for each in done}
    for entry in live:
        if entry.kind in ("tested", "repair_reviewed") and entry.text("attempt") not in known:
            yield Gap(code="attempt_not_of_this_leak", entry=entry.id)


def _opened_in_error(live: Iterable[Standing]) -> Iterator[Gap]:
    for entry in live:
        if entry.kind not in RIGHTING:
            yield Gap(code="stands_on_a_leak_opened_in_error", entry=entry.id, facts={"kind": entry.kind})


def _before_the_report(opened: Standing, live: Sequence[Standing]) -> Iterator[Gap]:
    """Said once a leak, of the first such entry. A day that is only known as on or before raises nothing."""
    for entry in live:
        code = _code_before(entry)
        if code and order.is_before(entry, opened):
            yield Gap(code=code, entry=entry.id, facts={"reported_on": opened.on, "done_on": entry.on})
            return


def _code_before(entry: Standing) -> str:
    if entry.kind == "repair_attempted":
        return "repaired_before_reported"
    if entry.kind == "leak_ended":
        return "repaired_before_reported" if entry.text("how") in BY_REPAIR else "ended_before_reported"
    return ""


def _lower_grades(grades: Iterable[GradeSet]) -> Iterator[Gap]:
    """A grade lower than the one before waits for a supervisor; what an old list tells waits for nobody."""
    for each in grades:
        if each.review == "waiting" and each.lower_than and each.entry.by["sure"] != "import":
            facts = {"before": each.lower_than.code, "grade": each.grade.code}
            yield Gap(code="downgrade_not_reviewed", entry=each.entry.id, facts=facts)


def _endings(ends: Sequence[Ending]) -> Iterator[Gap]:
    counts = ending_that_counts(ends)
    for ending in ends:
        if ending.entry.text("how") == "joined":
            yield from _joined(ending)
        elif ending.why_not:
            facts = {"why": ", ".join(ending.why_not)}
            yield Gap(code="ending_does_not_hold", entry=ending.entry.id, facts=facts)
    for first, later in _again(ends):
        yield Gap(code="ended_twice", entry=later.entry.id, facts={"first_on": first.on, "again_on": later.on})
    if counts and counts.entry.by["sure"] != "import":
        for attempt in counts.attempts:
            if attempt.review != "accepted":
                yield Gap(code="repair_not_accepted", entry=attempt.id, facts={"review": attempt.review})


def _joined(ending: Ending) -> Iterator[Gap]:
    entry, why_not = ending.entry, ending.why_not
    if not entry.text("joined_to"):
        yield Gap(code="joined_without_number", entry=entry.id)
    if "joined_to_itself" in why_not:
        yield Gap(code="joined_to_itself", entry=entry.id)
    if joins.IN_A_RING in why_not:
        yield Gap(code="joined_in_a_ring", entry=entry.id)
    if joins.IN_ERROR in why_not:
        yield Gap(code="joined_to_one_opened_in_error", entry=entry.id)


def _again(ends: Sequence[Ending]) -> Iterator[tuple[Ending, Ending]]:
    """Endings of a leak that was ended already and not opened again since, each with the one that ended it."""
    first: dict[int, Ending] = {}
    for ending in (each for each in ends if each.holds):
        before = first.setdefault(ending.reopened, ending)
        if before is not ending:
            yield before, ending
