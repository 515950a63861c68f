"""What a supervisor says of a leak's further life: given to whom, scheduled, opened again, a lower grade reviewed."""

from __future__ import annotations

from uuid import UUID

from flask import abort, request
from flask.typing import ResponseReturnValue

from repairlog.entries.work import WORK
from repairlog.records.story import story_of
from repairlog.trade.gaps import vented
from repairlog.trade.grades import GradeSet, grades
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.plain import plain
from repairlog.web.frame.there import crews_there
from repairlog.web.frame.where import where_of
from repairlog.words import _
from repairlog.words import gaps as gap_words
from repairlog.words.days import day

routes = room("orders", __name__)


@routes.route("/leaks/<uuid:leak>/give", methods=["GET", "POST"])
def give(leak: UUID) -> ResponseReturnValue:
    """Give work on that leak to a crew, to a person, or to somebody who is not on the books. `?work=` says which."""
    where, work = where_of(leak), request.args.get("work", "")
    with store().reading() as tx:
        crews = crews_there(tx, where.areas)
    return plain(
        where,
        leak,
        kind="work_given",
        heading=_("Give work to somebody"),
        save=_("Give it"),
        choices={"crew": crews, "person": where.people},
        begins={"work": work} if work in WORK else {},
        first=("crew", "person", "named", "by_on", "remarks"),
        labels={"happened": _("When it is given")},
        hint=_("To give the same sort of work again is to give it to somebody else."),
    )


@routes.route("/leaks/<uuid:leak>/schedule", methods=["GET", "POST"])
def schedule(leak: UUID) -> ResponseReturnValue:
    """Say that the repair of that leak is scheduled, or is not any more."""
    return plain(
        where_of(leak),
        leak,
        kind="scheduled_for_repair",
        heading=_("Schedule the repair"),
        save=_("Save it"),
        first=("for_on", "reason"),
        labels={"happened": _("When that was decided")},
        hint=_("A yes counts from its day until a no, another yes or the end of the leak."),
    )


@routes.route("/leaks/<uuid:leak>/reopen", methods=["GET", "POST"])
def reopen(leak: UUID) -> ResponseReturnValue:
    """Open that leak again."""
    return plain(
        where_of(leak),
        leak,
        kind="leak_reopened",
        heading=_("Open the leak again"),
        save=_("Open it again"),
        labels={"happened": _("When it was found to be open")},
        hint=_("The ending stays on the sheet, and counts no longer. A later ending ends the leak again."),
    )


@routes.route("/leaks/<uuid:leak>/grades/<uuid:grade_set>/review", methods=["GET", "POST"])
def review(leak: UUID, grade_set: UUID) -> ResponseReturnValue:
    """Approve a lower grade, or not."""
    where = where_of(leak)
    told = _lower(leak, grade_set)
    if where.leak is not None and not told:
        abort(404)
    return plain(
        where,
        leak,
        kind="downgrade_reviewed",
        heading=_("Review a lower grade"),
        save=_("Save the review"),
        said={"grade_set": str(grade_set)},
        first=("reason",),
        labels={"happened": _("When you decided")},
        hint=_("A lower grade that is not approved leaves the one before it standing, where there is one."),
        told=told,
    )


def _lower(leak: UUID, grade_set: UUID) -> list[str]:
    """What is said of that grade of the leak, where it is lower than the one before it or than the readings call for;
    nothing of any other."""
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=leak)
    if story is None:
        return []
    live = [told.entry for told in story.told if told.entry.void is None]
    lower = [_told(each) for each in grades(live) if each.entry.id == grade_set and each.lower_than]
    of_grade = ("graded_lower_than_called_for", *vented.CODES.values())
    below = [each for each in story.leak.gaps if each.entry == grade_set and each.code in of_grade]
    reasons = [each.text("reason") for each in live if each.id == grade_set and each.text("reason")]
    called = [gap_words.told(each.code, each.facts, kind="grade_set") for each in below]
    return [*(lower or (reasons if called else [])), *called]


def _told(lower: GradeSet) -> str:
    assert lower.lower_than is not None
    said = _("From grade {before} to grade {grade}, {day}.").format(
        before=lower.lower_than.code, grade=lower.grade.code, day=day(lower.entry.on)
    )
    reasons = (lower.entry.text("criterion"), lower.entry.text("reason"))
    return " ".join((said, *filter(None, reasons)))
