"""A company on the books: its terms, who and what is written as its own, and every entry about it."""

from __future__ import annotations

from collections.abc import Iterator
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.companies import company_seen
from repairlog.records.queries.of_company import OfCompany, of_company
from repairlog.records.queries.out_of_term import entries_out_of_term
from repairlog.records.queries.settings import areas
from repairlog.trade.company import Company
from repairlog.trade.company import company as fold
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import companies as words
from repairlog.words.codes import word
from repairlog.words.days import day

OF_EACH = 200
"""People, crews, roles and instruments that are shown of each; all of them stand in the lists."""

routes = room("company", __name__)


@routes.get("/companies/<uuid:company>")
def page(company: UUID) -> ResponseReturnValue:
    """Everything about that company; its own page is open to whoever sees its work alone, too."""
    who = asker()
    with store().reading() as tx:
        name = company_seen(who.scope, tx, company=company)
        if not who.holds(*KEEP_THE_BOOKS) and not (name and who.scope.companies):
            abort(403)
        told = told_of(tx, company)
        as_is = fold([each.entry for each in told.story.told])
        if as_is is None:
            abort(404)
        there = of_company(who.scope, tx, names=as_is.names, most=OF_EACH) or OfCompany()
        outside = entries_out_of_term(who.scope, tx, company=company) if who.holds(*KEEP_THE_BOOKS) else 0
        names = {area.id: area.name for area in areas(who.scope, tx)}
    added = next(each.entry for each in told.story.told if each.entry.id == as_is.id)
    return render_template(
        "admin/company.html",
        company=as_is,
        of=told,
        added=added,
        standing=words.standing_told(as_is.terms, on=who.on),
        works=as_is.works(on=who.on),
        there=there,
        outside=words.out_of_term(outside) if outside else "",
        where=lambda role: names.get(role.area, _("another area")) if role.area else _("every area"),
        ways=list(_ways(as_is)),
        may_look=who.holds(*KEEP_THE_BOOKS),
        on=who.on,
        day=day,
        word=word,
    )


def _ways(of: Company) -> Iterator[tuple[str, str]]:
    """What the asker may say of it; of one that was put on the books in error nothing."""
    if of.void:
        return
    open_ended = any(not each.until_on or asker().on <= each.until_on for each in of.terms)
    offered = [("company_back", "back", _("Say that it works for us again, or longer"))]
    if open_ended:
        offered.insert(0, ("company_left", "left", _("End its work")))
    for kind, said, name in offered:
        if asker().may(kind, area=None):
            yield name, url_for("company_said.page", company=of.id, said=said)
