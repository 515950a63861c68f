"""A grade against what the readings before it call for, by the rulebook that the leak's area had adopted by then."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from repairlog.entries.entry import Standing
from repairlog.trade.adopted import adopted_on
from repairlog.trade.answers_to import Answers
from repairlog.trade.gap import Gap
from repairlog.trade.grades import GradeSet
from repairlog.trade.grading import CalledFor, called_for, found_at, grader
from repairlog.trade.rests import Rests


def lower_than_called_for(
    live: Sequence[Standing], *, grades: Sequence[GradeSet], answered: Answers, rests: Rests
) -> Iterator[Gap]:
    """Grades that are less hazardous than the last readings before them call for, and that no supervisor approved.

    What was only taken to be so, since nobody answered, accuses nobody: it is shown on the form, and raises nothing.
    What an old list tells is left alone, as is a grade whose rank nobody knows. `live`: the leak's entries that stand,
    in the order they happened.
    """
    for each in grades:
        rank = each.grade.rank
        if rank is None or each.review == "approved" or each.entry.by["sure"] == "import":
            continue
        called, ranks = _called_for(live, graded=each, answered=answered, rests=rests)
        surely = [met.criterion for met in called.met if not met.assumed and not met.criterion.of_grade]
        if surely and rank > ranks[surely[0].calls_for]:
            criterion = surely[0]
            facts = {"grade": each.grade.code, "called": criterion.calls_for}
            facts |= {"says": criterion.says, "clause": criterion.cited.clause}
            yield Gap(code="graded_lower_than_called_for", entry=each.entry.id, facts=facts)


def _called_for(
    live: Sequence[Standing], *, graded: GradeSet, answered: Answers, rests: Rests
) -> tuple[CalledFor, dict[str, int]]:
    """What is called for, and the rank of each grade; nothing where nobody had looked by then, or the area had adopted
    no rulebook for that day."""
    area = rests.areas.get(answered.then(graded.entry))
    holds = adopted_on(area.adoptions, on=graded.entry.on) if area else None
    looked = [each for each in live[: live.index(graded.entry)] if each.kind == "visit" and each.rows("readings")]
    if area is None or holds is None or not looked:
        return CalledFor(), {}
    found = found_at(looked[-1], lel_basis=Decimal(area.lel_basis), grade=graded.grade.code)
    rulebook = rests.rulebooks[holds.digest]
    return called_for(grader(rulebook), found), {each.code: each.rank for each in rulebook.grades}
