"""What a rulebook would ask of one leak: what is owed by when, and the grade that the last readings call for."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from uuid import UUID

from flask import abort, render_template, request
from flask.typing import ResponseReturnValue

from repairlog.entries.entry import Standing
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.queries.settings import areas
from repairlog.records.story import Story, story_of
from repairlog.trade.area import USUAL_LEL_BASIS
from repairlog.trade.due import Owed, life_of, owed
from repairlog.trade.grades import grades
from repairlog.trade.grading import called_for, found_at, grader, nearly_met
from repairlog.trade.rulebook import Rulebook
from repairlog.web.frame.asking import asker, room, store
from repairlog.words import due_items, grading
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day
from repairlog.words.rulebooks.cited import mark_word, status_word

routes = room("owed", __name__)


@routes.get("/leaks/<uuid:leak>/owed")
def page(leak: UUID) -> ResponseReturnValue:
    """What the rulebook that `?rulebook=` names would ask of that leak. It is looked at and not recorded: what an area
    has not adopted binds nobody, and none of its days is late."""
    with store().reading() as tx:
        row = leak_with_id(asker().scope, tx, leak=leak)
        told = story_of(asker().scope, tx, leak=leak)
        bases = {area.id: area.lel_basis for area in areas(asker().scope, tx)}
    if row is None or told is None:
        abort(404)
    asked = request.args.get("rulebook", "")
    rulebooks = store().rulebooks.offered()
    rulebook = rulebooks.get(asked)
    basis = Decimal(bases.get(row.area, USUAL_LEL_BASIS))
    return render_template(
        "everyone/owed.html",
        leak=row,
        address=address_of_leak(row),
        asked=asked,
        rulebooks=rulebooks,
        rulebook=rulebook,
        found=_owed(told, rulebook) if rulebook else Owed(),
        readings=_readings(told, rulebook, lel_basis=basis) if rulebook else [],
        words=due_items,
        status_word=status_word,
        mark_word=mark_word,
        day=day,
    )


def _live(told: Story) -> list[Standing]:
    return [each.entry for each in told.told if each.entry.void is None]


def _owed(told: Story, rulebook: Rulebook) -> Owed:
    """Nothing of a leak opened in error."""
    leak, live = told.leak, _live(told)
    if leak.opened.void is not None:
        return Owed()
    life = life_of(leak.opened, live, done=leak.attempts, grades=grades(live), ending=leak.ending)
    return owed(life, rulebook)


def _readings(told: Story, rulebook: Rulebook, *, lel_basis: Decimal) -> Sequence[str]:
    """What the last look's readings call for, line by line; none where nobody looked."""
    looks = [each for each in _live(told) if each.kind == "visit" and each.text("outcome") == "looked"]
    if not looks:
        return []
    by = grader(rulebook)
    grade = told.leak.grade_now
    found = found_at(looks[-1], lel_basis=lel_basis, grade=grade.code if grade else "")
    return grading.lines(called_for(by, found), nearly_met(by, found))
