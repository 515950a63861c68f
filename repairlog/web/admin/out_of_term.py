"""Work on leaks by people of a company on days on which it did not work for the operator, as a list."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS
from repairlog.records.queries.companies import company_seen
from repairlog.records.queries.out_of_term import OutOfTerm, TermEdge, out_of_term
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, demand_role, room, store
from repairlog.web.frame.filters import Asked, day_in
from repairlog.web.frame.listing import Listing, Order, listed
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words.boxes import label

routes = room("out_of_term", __name__)


@routes.get("/companies/outside-their-terms")
def page() -> ResponseReturnValue:
    """Such work, the newest first, of the company in the address or of all; with `as=csv` all as a file."""
    demand_role(*KEEP_THE_BOOKS)
    company = as_id(request.args.get("company", ""))
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        called = company_seen(asker().scope, tx, company=company) if company else None
        names = {area.id: area.name for area in within}

        def rows(tx: Tx, edge: TermEdge | None, *, most: int) -> Sequence[OutOfTerm]:
            return out_of_term(asker().scope, tx, company=company, after=edge, most=most)

        return listed(
            tx,
            Listing(
                title=_("Work outside a company's terms"),
                name=_("work outside terms"),
                of=Asked(typed={"company": str(company)} if called else {}, within=within),
                columns={
                    _("Leak"): lambda row: row.number,
                    _("Day"): lambda row: row.on,
                    _("Company"): lambda row: row.called,
                    _("Who"): lambda row: row.name,
                    _("What"): lambda row: label(KINDS[row.kind].says),
                    _("Area"): lambda row: names.get(row.area, ""),
                },
                days=(_("Day"),),
                leads=lambda row: f"{url_for('sheet.page', leak=row.leak)}#e-{row.entry}",
                rows=rows,
                order=Order(edge=_edge_of, text=lambda row: f"{row.on}.{row.entry}.{row.person}", read=_edge),
                about=_(
                    "What people of a company did on a leak on a day on which it did not work for the operator. A"
                    " further term settles it, or a correction of the day or of who did it."
                ),
                nothing_fits=_("All that its people did lies in one of its terms."),
                empty=_("All that people of a company did lies in one of its terms."),
                ways=[(called, url_for("company.page", company=company))] if called else [],
            ),
        )


def _edge_of(row: OutOfTerm) -> TermEdge:
    return TermEdge(on=date.fromisoformat(row.on), entry=row.entry, person=row.person)


def _edge(text: str) -> TermEdge | None:
    """Where the page before ended, `DAY.ENTRY.PERSON`; None for any other text."""
    parts = text.split(".")
    if len(parts) != 3:
        return None
    on, entry, person = day_in(parts[0]), as_id(parts[1]), as_id(parts[2])
    return TermEdge(on=on, entry=entry, person=person) if on and entry and person else None
