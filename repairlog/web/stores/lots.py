"""Stores: the lots, expiring first; one lot with what happened to it and where it was used."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, timedelta
from uuid import UUID

from flask import render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.made_one import sameness
from repairlog.records.queries.settings import areas
from repairlog.records.queries.stores import LotRow, LotsWanted, lots_in_stores, uses_of
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.filters import Asked, Box, asked, chosen, of_area
from repairlog.web.frame.listing import Column, Listing, Way, by_id, listed
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.stores.forms import FORMS
from repairlog.words import _
from repairlog.words import stores as words
from repairlog.words.days import day

routes = room("lots", __name__)


@routes.get("/stores")
def page() -> ResponseReturnValue:
    """The lots that fit, a page of them, expiring first; with `as=csv` all of them as a file."""
    scope, on = asker().scope, asker().on
    with store().reading() as tx:
        within = areas(scope, tx)
        of = _asked(within)
        where = _where(of, on=on)

        def rows(tx: Tx, edge: UUID | None, *, most: int) -> Sequence[LotRow]:
            last = lots_in_stores(scope, tx, where=LotsWanted(lot=edge)) if edge else []
            return lots_in_stores(scope, tx, where=where, beyond=last[0] if last else None, most=most)

        return listed(
            tx,
            Listing(
                title=_("Stores"),
                name=_("lots"),
                of=of,
                columns=words.columns(within, on=on),
                shown=_shown(on),
                rows=rows,
                order=by_id(lambda lot: lot.id),
                does=[(_titles()[kind], address) for kind, address in _first_forms() if _may_anywhere(kind, within)],
                ways=[(_("Shelves and trucks"), url_for("shelves.page"))],
                counted=words.number_of,
                nothing_fits=_("No lot fits this."),
                nothing_yet=_("No lot is in stores yet."),
                empty=_(
                    "Each lot of material that is received will stand here, what expires first on top: how it stands,"
                    " where it lies, and where it was used."
                ),
            ),
        )


@routes.get("/stores/lots/<uuid:lot>")
def one(lot: UUID) -> ResponseReturnValue:
    """What is known of that lot; 404 where it is not in scope, or there is none."""
    scope = asker().scope
    with store().reading() as tx:
        found = lots_in_stores(scope, tx, where=LotsWanted(lot=lot))
        if not found:
            not_here(tx, lot)
        told, same = told_of(tx, lot), sameness(scope, tx, id=lot)
        uses = uses_of(scope, tx, ids=[lot, *(each.id for each in same.others if not same.ring)] if same else [lot])
    row = found[0]
    live = [each.entry for each in told.story.told if each.entry.void is None]
    otherwise = [entry.text("amount") for entry in live if entry.kind in words.TAKEN]
    counts = [entry for entry in live if entry.kind == "lot_counted"]
    return render_template(
        "stores/lot.html",
        lot=row,
        on=asker().on,
        words=words,
        day=day,
        of=told,
        uses=uses,
        same=same,
        used=words.amounts((use.used for use in uses), like=row.received),
        otherwise=words.amounts(otherwise, like=row.received),
        counted=counts[-1] if counts else None,
        should=_should_be_there(row, [*(use.used or "?" for use in uses), *otherwise]),
        forms=[
            (_titles()[kind], url_for("stores.page", lot=lot, what=form.what))
            for kind, form in FORMS.items()
            if asker().may(kind, area=row.area) and kind not in _of_no_use(row)
        ]
        + ([(_("The same as another"), url_for("made_one.choose", subject=lot))] if _may_make_one(row) else [])
        + way_to_move("lot", lot, area=row.area),
    )


def _may_make_one(lot: LotRow) -> bool:
    return asker().may("made_one", area=lot.area)


def _should_be_there(lot: LotRow, taken: Sequence[str]) -> str:
    return _("nothing: it was scrapped") if lot.status == "scrapped" else words.should_be_there(lot.received, taken)


def _of_no_use(lot: LotRow) -> Collection[str]:
    """The forms that are not offered: what is quarantined is not quarantined again, nor released what is not; what was
    scrapped is neither, and can only be counted again."""
    if lot.status == "scrapped":
        return ("lot_quarantined", "lot_released", "lot_scrapped", "lot_moved", "lot_used")
    return ("lot_quarantined",) if lot.status == "quarantined" else ("lot_released",)


def _asked(within: Sequence[Area]) -> Asked:
    boxes = [
        Box(name="item", label=_("Item"), hint=_("part of a name"), size=12),
        Box(name="maker", label=_("Maker"), hint=_("part of a name"), size=12),
        Box(name="number", label=_("Lot number"), hint=_("or part of it"), size=12),
        Box(name="shelf", label=_("Shelf or truck"), hint=_("part of a name"), size=12),
        chosen("status", _("Status"), choices={code: words.status(code) for code in words.STATUSES}),
        Box(name="days", label=_("Expires within, days"), hint=_("any"), size=5, reads="days"),
        *of_area(within),
    ]
    return asked(boxes, within=within)


def _where(of: Asked, *, on: str) -> LotsWanted:
    days = of.text("days")
    return LotsWanted(
        area=of.area,
        item=of.text("item"),
        maker=of.text("maker"),
        number=of.text("number"),
        shelf=of.text("shelf"),
        status=of.text("status"),
        expires_until=date.fromisoformat(on) + timedelta(days=int(days)) if days else None,
    )


def _shown(on: str) -> Sequence[Column]:
    def until(lot: LotRow) -> tuple[str, str]:
        over = lot.status == "in_stock" and lot.expires_on and lot.expires_on < on
        return words.until(lot.expires_on, on=on), "wants" if over else ""

    return (
        Column(
            head=_("Lot"),
            cell=lambda lot: Way(text=lot.lot_number, address=url_for("lots.one", lot=lot.id)),
            draw="way",
            kind="where",
        ),
        Column(head=_("Item"), cell=lambda lot: (lot.item, lot.maker), draw="beside"),
        Column(
            head=_("Status"),
            cell=lambda lot: (words.status(lot.status), "" if lot.status == "in_stock" else "no"),
            draw="standing",
        ),
        Column(head=_("May be used until"), cell=until, draw="standing", kind="clause", phone=_("until")),
        Column(head=_("Lies at"), cell=lambda lot: lot.lies_at, kind="small", phone=_("at")),
        Column(head=_("Received"), cell=lambda lot: lot.received, kind="small"),
    )


def _titles() -> dict[str, str]:
    return {
        "lot_received": _("Receive a lot"),
        "shelf_made": _("Name a shelf or truck"),
        "lot_moved": _("Move"),
        "lot_counted": _("Count"),
        "lot_used": _("Use otherwise than in a repair"),
        "lot_quarantined": _("Quarantine"),
        "lot_released": _("Release"),
        "lot_scrapped": _("Scrap"),
    }


def _first_forms() -> list[tuple[str, str]]:
    return [("lot_received", url_for("stores.receive")), ("shelf_made", url_for("stores.shelf"))]


def _may_anywhere(kind: str, within: Sequence[Area]) -> bool:
    return any(asker().may(kind, area=area.id) for area in within)
