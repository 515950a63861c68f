"""What does not hold up of companies: work outside their terms, and names that are not on the books. Whoever keeps no
company on the books is told of neither."""

from __future__ import annotations

from dataclasses import dataclass

from flask import url_for

from repairlog.records.queries.companies import companies_not_on_the_books, company_names
from repairlog.records.queries.out_of_term import entries_out_of_term
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import companies as words


@dataclass(frozen=True, slots=True, kw_only=True)
class OfCompanies:
    """One thing that does not hold up. `says`: what; `address`, `name`: where it is looked through."""

    says: str
    address: str
    name: str


def of_the_companies(tx: Tx) -> list[OfCompanies]:
    """What does not hold up of the companies, for whoever keeps the books; nothing while there are none."""
    scope, found = asker().scope, []
    if not asker().holds(*KEEP_THE_BOOKS) or not company_names(scope, tx):
        return []
    if outside := entries_out_of_term(scope, tx, company=None):
        at = url_for("out_of_term.page")
        found.append(OfCompanies(says=words.out_of_term(outside), address=at, name=_("Show them")))
    if unknown := len(companies_not_on_the_books(scope, tx)):
        at = url_for("companies.unknown")
        found.append(OfCompanies(says=words.not_on_the_books(unknown), address=at, name=_("Show the names")))
    return found
