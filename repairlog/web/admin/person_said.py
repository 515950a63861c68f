"""What is said of a person: added, given a role, qualified, and each of these ended."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask import abort, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.intake.form import Choices
from repairlog.records.queries.people_listed import person_seen, qualifications_of
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, Step, enters, enters_step
from repairlog.web.frame.there import areas_to_choose, hide, operators_own, people_to_choose
from repairlog.words import _

routes = room("person_said", __name__)


def steps() -> Mapping[str, Step]:
    """What may be said of a person, by the last part of its address."""
    return {
        "role": Step(
            kind="role_given",
            heading=_("Give a role"),
            save=_("Give the role"),
            happened=_("When it was given"),
            first=("area", "until_on"),
            hint=_("An inspector only reads, of a period, and never without a last day."),
            labels={"area": _("Operating area; every area where left out")},
        ),
        "role-ended": Step(
            kind="role_ended",
            heading=_("End a role"),
            save=_("End the role"),
            happened=_("When this was decided"),
            first=("area",),
            labels={"area": _("Operating area for which it was given; wherever, where left out")},
        ),
        "qualified": Step(
            kind="qualified",
            heading=_("Qualified for a task"),
            save=_("Save the qualification"),
            happened=_("When the person was evaluated; it holds from that day"),
            first=("until_on", "method", "evaluator"),
            hint=_("Write the task as repairs name it: what rests on it is found by that."),
        ),
        "not-qualified": Step(
            kind="qualification_ended",
            heading=_("End a qualification"),
            save=_("End the qualification"),
            happened=_("From when; on that day it holds no more"),
            hint=_("Repairs after that day for which nothing else holds are raised as gaps; earlier ones stand."),
        ),
        "left": Step(
            kind="person_left",
            heading=_("A person leaves"),
            save=_("Save that they left"),
            happened=_("When this was known"),
            first=("reason",),
            hint=_("Every role ends with the last day. What they did stays as it is."),
        ),
    }


@routes.route("/people/new", methods=["GET", "POST"])
def new() -> ResponseReturnValue:
    """Add a person, with the roles that they begin with."""
    with store().reading() as tx:
        here, areas = areas_to_choose(tx)
        choices = {"roles.area": areas, "did.person": people_to_choose(tx)}
        clock = operators_own(tx)
    return enters(
        Says(
            kind="person_added",
            heading=_("Add a person"),
            save=_("Add the person"),
            called="",
            back=url_for("people.page"),
            then="/people/{id}",
            opens_to=asker().may("person_added", area=None),
            areas=here,
            otherwise=clock,
            choices=choices,
            labels={"happened": _("When they joined, or were put on the books"), "roles": _("Roles to begin with")},
            first=("company", "staff_number", "roles"),
            hint=_(
                "A person who never signs in needs no role: others say what they did, and are held to it. A role sees"
                " all of its area, unless it is bound to a company, whose work alone it then sees: a contractor's"
                " people are bound to theirs, under the same name."
            ),
        )
    )


@routes.route("/people/<uuid:person>/<said>", methods=["GET", "POST"])
def page(person: UUID, said: str) -> ResponseReturnValue:
    """Say that of that person."""
    if said not in steps():
        abort(404)
    of = steps()[said]
    with store().reading() as tx:
        name = person_seen(asker().scope, tx, person=person) or ""
        here, areas = areas_to_choose(tx)
        choices = {"did.person": people_to_choose(tx), **_choices(tx, of.kind, areas, person)}
        clock = operators_own(tx)
    hide(name)
    begins = {"task": request.args.get("task", "")} if "task" in request.args else {}
    return enters_step(
        of,
        person,
        at=url_for("person.page", person=person),
        called=name,
        opens_to=asker().may(of.kind, area=None),
        areas=here if name else (),
        otherwise=clock,
        choices=choices,
        begins=begins,
    )


def _choices(tx: Tx, kind: str, areas: Choices, person: UUID) -> Mapping[str, Choices]:
    """What the boxes of that kind offer beside codes."""
    if kind in ("role_given", "role_ended"):
        return {"area": areas}
    if kind == "qualified":
        return {"evaluator": people_to_choose(tx)}
    if kind == "qualification_ended":
        tasks = dict.fromkeys(each.task for each in qualifications_of(asker().scope, tx, ids=[person])[person])
        return {"task": [(task, task) for task in tasks]}
    return {}
