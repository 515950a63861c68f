"""The companies on the books, and the names of companies that are written somewhere and are not."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.companies import WHAT
from repairlog.entries.ids import as_id
from repairlog.records.queries.companies import (
    ListedCompany,
    WantedCompanies,
    WrittenName,
    companies_listed,
    companies_not_on_the_books,
)
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.company import plain_name
from repairlog.web.frame.asking import asker, demand_role, room, store
from repairlog.web.frame.filters import typed_in, wrong_of
from repairlog.web.frame.listing import Filter, Listing, listed
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import companies as words
from repairlog.words.codes import word

WORKS = ("now", "not")

routes = room("companies", __name__)


@routes.get("/companies")
def page() -> ResponseReturnValue:
    """The companies that fit the filter in the address, by name; with `as=csv` all as a file."""
    demand_role(*KEEP_THE_BOOKS)
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        unknown = companies_not_on_the_books(asker().scope, tx)
    typed = typed_in(request.args, ("text", "what", "works"))
    wrong = wrong_of(typed, area=None, choices={"what": WHAT, "works": WORKS})
    good = {name: text for name, text in typed.items() if name not in wrong}
    wanted = WantedCompanies(on=date.fromisoformat(asker().on), **good)

    def rows(tx: Tx, last: object, *, most: int) -> Sequence[ListedCompany]:
        edge = (last.name, last.id) if isinstance(last, ListedCompany) else _edge(last)
        return companies_listed(asker().scope, tx, asked=wanted, after=edge, most=most)

    return listed(
        Listing(
            title=_("Companies"),
            name=_("companies"),
            areas=within,
            columns=_columns(asker().on),
            days=(_("From"), _("Until")),
            leads=lambda company: url_for("company.page", company=company.id),
            rows=rows,
            edge=lambda company: f"{company.id}.{company.name}",
            after=request.args.get("older") or None,
            of=_filter(typed, wrong),
            about=_("Who works for the operator beside its own people, and from when to when."),
            empty=_("A contractor, a laboratory or another operator that helps will stand here with its terms."),
            ways=list(_ways(unknown)),
        )
    )


@routes.get("/companies/not-on-the-books")
def unknown() -> ResponseReturnValue:
    """The names of companies that people, crews and roles bear and that are none of a company on the books."""
    demand_role(*KEEP_THE_BOOKS)
    with store().reading() as tx:
        within = areas(asker().scope, tx)

    def rows(tx: Tx, last: object, *, most: int) -> Sequence[WrittenName]:
        after = last.name if isinstance(last, WrittenName) else str(last or "")
        found = companies_not_on_the_books(asker().scope, tx)
        return [each for each in found if plain_name(each.name) > plain_name(after)][:most]

    may = asker().may("company_added", area=None)
    return listed(
        Listing(
            title=_("Companies not on the books"),
            name=_("companies not on the books"),
            areas=within,
            columns={
                _("Name as written"): lambda each: each.name,
                _("People"): lambda each: each.people or "",
                _("Crews"): lambda each: each.crews or "",
                _("Roles"): lambda each: each.roles or "",
            },
            leads=lambda each: url_for("company_said.new", name=each.name) if may else "",
            rows=rows,
            edge=lambda each: each.name,
            after=request.args.get("older") or None,
            about=_(
                "Written on people, crews and roles. A touch on a name puts a company on the books under it. Where it"
                " is another way of writing one that is there, put that one right: it takes further names."
            ),
            empty=_("Every company that is written on people, crews and roles is on the books."),
            ways=[(_("Companies"), url_for("companies.page"))],
        )
    )


def _ways(unknown: Sequence[WrittenName]) -> Iterator[tuple[str, str]]:
    if asker().may("company_added", area=None):
        yield _("Put a company on the books"), url_for("company_said.new")
    if unknown:
        yield words.not_on_the_books(len(unknown)), url_for("companies.unknown")


def _filter(typed: Mapping[str, str], wrong: Mapping[str, str]) -> Filter:
    return Filter(
        typed=typed,
        wrong=wrong,
        texts={"text": (_("Name or outside number"), _("part of a name"))},
        choices={
            "what": (_("What it does"), {code: word(code) for code in WHAT}),
            "works": (_("Which"), {"now": _("works for us today"), "not": _("does not work for us today")}),
        },
    )


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


def _edge(text: object) -> tuple[str, UUID] | None:
    """Where the page before ended, `ID.NAME`; None for any other text."""
    id_text, dot, name = str(text or "").partition(".")
    id = as_id(id_text)
    return (name, id) if dot and id else None
