"""Somebody comes to help who is not on the books: they are put there on the spot, with the evidence that they show."""

from __future__ import annotations

from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.people import names_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.there import areas_to_choose, operators_own, people_to_choose
from repairlog.words import _

routes = room("visitors", __name__)

SHOWN = ("task", "happened", "until_on", "method", "evaluator_named", "company", "document")
"""What the page asks of the evidence."""


@routes.route("/people/visiting", methods=["GET", "POST"])
def page() -> ResponseReturnValue:
    """Put somebody on the books who comes to help, without any role."""
    saved = as_id(request.args.get("saved", ""))
    with store().reading() as tx:
        here, _offered = areas_to_choose(tx)
        people, clock = people_to_choose(tx), operators_own(tx)
        name = names_of(asker().scope, tx, ids=[saved]).get(saved, "") if saved else ""
    person = Part(
        name="entry",
        kind="person_added",
        without=("roles",),
        choices={"did.person": people},
        labels={"happened": _("When they came"), "company": _("Company or operator that they come from")},
    )
    evidence = Part(
        name="evidence",
        kind="qualified",
        without=("evaluator", "typed_from", "did"),
        names={"subject": "entry"},
        labels={
            "happened": _("Day of the evaluation, as their card says"),
            "evaluator_named": _("Who evaluated them, as the card says"),
            "document": _("Card or document that they showed"),
        },
        optional=True,
    )
    return entering(
        Page(
            template="crew/visitor.html",
            parts=[person, evidence],
            areas=here[:1] if here else (),
            otherwise=clock,
            then=lambda receipts: _here_again(receipts[0].id),
            open_to_asker=asker().may_on_the_spot("person_added"),
            around={"saved": name, "shown": SHOWN},
        )
    )


def _here_again(person: UUID) -> str:
    return url_for("visitors.page", saved=person)
