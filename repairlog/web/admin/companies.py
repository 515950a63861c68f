"""The companies on the books, and the names of companies that are written somewhere and are not."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from uuid import UUID

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.companies import WHAT
from repairlog.records.queries.companies import (
    ListedCompany,
    WantedCompanies,
    companies_listed,
    companies_not_on_the_books,
)
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, demand_role, room, store
from repairlog.web.frame.filters import Asked, Box, asked, chosen
from repairlog.web.frame.listing import Listing, Order, all_at_once, by_name, listed
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import companies as words
from repairlog.words.codes import word

routes = room("companies", __name__)


@routes.get("/companies")
def page() -> ResponseReturnValue:
    """The companies that fit the filter in the address, by name; with `as=csv` all as a file."""
    demand_role(*KEEP_THE_BOOKS)
    with store().reading() as tx:
        of = asked(_boxes(), within=areas(asker().scope, tx))
        unknown = companies_not_on_the_books(asker().scope, tx)
        wanted = WantedCompanies(on=date.fromisoformat(asker().on), **of.readable)

        def rows(tx: Tx, edge: tuple[str, UUID] | None, *, most: int) -> Sequence[ListedCompany]:
            return companies_listed(asker().scope, tx, asked=wanted, after=edge, most=most)

        may = asker().may("company_added", area=None)
        not_here = (words.not_on_the_books(len(unknown)), url_for("companies.unknown"))
        return listed(
            tx,
            Listing(
                title=_("Companies"),
                name=_("companies"),
                of=of,
                columns=_columns(asker().on),
                days=(_("From"), _("Until")),
                leads=lambda company: url_for("company.page", company=company.id),
                rows=rows,
                order=by_name(lambda company: (company.name, company.id)),
                does=[(_("Put a company on the books"), url_for("company_said.new"))] if may else [],
                ways=[not_here] if unknown else [],
                about=_("Who works for the operator beside its own people, and from when to when."),
                empty=_("A contractor, a laboratory or another operator that helps will stand here with its terms."),
            ),
        )


@routes.get("/companies/not-on-the-books")
def unknown() -> ResponseReturnValue:
    """The names of companies that people, crews and roles bear and that are none of a company on the books."""
    demand_role(*KEEP_THE_BOOKS)
    may = asker().may("company_added", area=None)
    order = Order(edge=lambda each: each.name, text=lambda each: each.name, read=lambda text: text or None)
    with store().reading() as tx:
        return listed(
            tx,
            Listing(
                title=_("Companies not on the books"),
                name=_("companies not on the books"),
                of=Asked(within=areas(asker().scope, tx)),
                columns={
                    _("Name as written"): lambda each: each.name,
                    _("People"): lambda each: each.people or "",
                    _("Crews"): lambda each: each.crews or "",
                    _("Roles"): lambda each: each.roles or "",
                },
                leads=lambda each: url_for("company_said.new", name=each.name) if may else "",
                rows=all_at_once(lambda tx: companies_not_on_the_books(asker().scope, tx), order=order),
                order=order,
                about=_(
                    "Written on people, crews and roles. A touch on a name puts a company on the books under it. Where"
                    " it is another way of writing one that is there, put that one right: it takes further names."
                ),
                empty=_("Every company that is written on people, crews and roles is on the books."),
                ways=[(_("Companies"), url_for("companies.page"))],
            ),
        )


def _boxes() -> list[Box]:
    return [
        Box(name="text", label=_("Name or outside number"), hint=_("part of a name")),
        chosen("what", _("What it does"), choices={code: word(code) for code in WHAT}),
        chosen("works", _("Which"), choices={"now": _("works for us today"), "not": _("does not work for us today")}),
    ]


def _columns(on: str) -> Mapping[str, Callable[[ListedCompany], str | int]]:
    return {
        _("Company"): lambda company: company.name,
        _("What it does"): lambda company: word(company.what),
        _("How it stands"): lambda company: words.standing(company.terms, on=on),
        _("From"): lambda company: words.told_term(company.terms, on=on).from_on,
        _("Until"): lambda company: words.told_term(company.terms, on=on).until_on,
        _("People"): lambda company: company.people or "",
        _("Crews"): lambda company: company.crews or "",
        _("Also written as"): lambda company: "; ".join(company.also_named),
    }
