"""What is said of a company: put on the books, its work ended, and begun again."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.companies import company_seen
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, Step, enters, enters_step
from repairlog.web.frame.there import areas_to_choose, hide, operators_own, people_to_choose
from repairlog.words import _

routes = room("company_said", __name__)


def steps() -> Mapping[str, Step]:
    """What may be said of a company, by the last part of its address."""
    return {
        "left": Step(
            kind="company_left",
            heading=_("End a company's work"),
            save=_("Save that it ends"),
            happened=_("When this was decided"),
            first=("reason",),
            hint=_(
                "The last day counts. What its people did stays as it is, and roles that are bound to it go on until"
                " they are ended."
            ),
        ),
        "back": Step(
            kind="company_back",
            heading=_("It works for us again, or longer"),
            save=_("Save the further term"),
            happened=_("When this was agreed"),
            first=("until_on",),
            hint=_("A further term stands beside those before it."),
        ),
    }


@routes.route("/companies/new", methods=["GET", "POST"])
def new() -> ResponseReturnValue:
    """Put a company on the books; `?name=`: under that name."""
    with store().reading() as tx:
        here, _areas = areas_to_choose(tx)
        choices = {"did.person": people_to_choose(tx)}
        clock = operators_own(tx)
    return enters(
        Says(
            kind="company_added",
            heading=_("Put a company on the books"),
            save=_("Save the company"),
            called="",
            back=url_for("companies.page"),
            then="/companies/{id}",
            opens_to=asker().may("company_added", area=None),
            areas=here,
            otherwise=clock,
            choices=choices,
            labels={"happened": _("When this was agreed, or is entered")},
            begins={"name": request.args["name"]} if "name" in request.args else {},
            first=("from_on", "until_on", "workplace", "also_named"),
            hint=_(
                "People, crews and roles on which one of its names is written stand on its page, capitals and spaces"
                " apart. What is written here cannot be removed: no person's own name, number or address."
            ),
        )
    )


@routes.route("/companies/<uuid:company>/<any(left,back):said>", methods=["GET", "POST"])
def page(company: UUID, said: str) -> ResponseReturnValue:
    """Say that of that company."""
    of = steps()[said]
    with store().reading() as tx:
        name = company_seen(asker().scope, tx, company=company) or ""
        here, _areas = areas_to_choose(tx)
        people, clock = people_to_choose(tx), operators_own(tx)
    hide(name)
    return enters_step(
        of,
        company,
        at=url_for("company.page", company=company),
        called=name,
        opens_to=asker().may(of.kind, area=None),
        areas=here if name else (),
        otherwise=clock,
        choices={"did.person": people},
    )
