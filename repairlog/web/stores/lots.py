"""Stores: the lots, expiring first; one lot with what happened to it and where it was used."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from uuid import UUID

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.made_one import sameness
from repairlog.records.queries.settings import areas
from repairlog.records.queries.stores import LotRow, LotsWanted, lots_in_stores, uses_of
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.leak_filter import filtered
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.stores.forms import FORMS
from repairlog.words import _
from repairlog.words import stores as words
from repairlog.words.days import day

A_PAGE = 50
"""Lots on a page."""

MOST_DAYS = 36_500
"""Days ahead that the filter looks at the most."""

NAMES = ("area", "item", "maker", "number", "shelf", "status", "days")

routes = room("lots", __name__)


@routes.get("/stores")
def page() -> ResponseReturnValue:
    """The lots that fit, a page of them, expiring first; with `as=csv` all of them as a file."""
    scope, on = asker().scope, asker().on
    with store().reading() as tx:
        within = areas(scope, tx)
        asked = _asked(within, on=on)
        to_file = csv_wanted() and not asked.wrong
        after = as_id(request.args.get("after", ""))
        edge = lots_in_stores(scope, tx, where=LotsWanted(lot=after)) if after else []
        beyond = edge[0] if edge else None
        rows = [] if to_file else lots_in_stores(scope, tx, where=asked.where, beyond=beyond, most=A_PAGE + 1)

    def following(tx: Tx, last: LotRow | None) -> Sequence[LotRow]:
        return lots_in_stores(scope, tx, where=asked.where, beyond=last, most=AT_ONCE)

    if to_file:
        of = [area for area in within if asked.where.area in (None, area.id)]
        return as_csv(name=_("lots"), areas=of, columns=words.columns(within, on=on), after=following)
    at, more = url_for("lots.page"), len(rows) > A_PAGE
    return render_template(
        "stores/lots.html",
        lots=rows[:A_PAGE],
        count=words.shown(len(rows[:A_PAGE]), more=more),
        following=filtered(at, asked.readable, after=str(rows[A_PAGE - 1].id)) if more else "",
        first=filtered(at, asked.readable) if after else "",
        file=csv_address(without=("after", *asked.wrong)),
        typed=asked.typed,
        wrong=asked.wrong,
        areas=within,
        on=on,
        words=words,
        may=[(name, address) for name, address in _first_forms() if _may_anywhere(name, within)],
        titles=_titles(),
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field, empty ones left out. `wrong`: what is said of those that cannot be read.
    `where`: the rest as a question to the book."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    where: LotsWanted

    @property
    def readable(self) -> dict[str, str]:
        """What was typed and asks for something."""
        return {name: text for name, text in self.typed.items() if name not in self.wrong}


def _asked(within: Sequence[Area], *, on: str) -> Asked:
    typed = {name: text for name in NAMES if (text := " ".join(request.args.get(name, "").split()))}
    area = next((area.id for area in within if area.code.casefold() == typed.get("area", "").casefold()), None)
    said = typed.get("days", "")
    days = int(said) if said.isascii() and said.isdigit() and len(said) <= len(str(MOST_DAYS)) else None
    days = days if days is not None and days <= MOST_DAYS else None
    found = {"area": area, "status": typed.get("status") in words.STATUSES or None, "days": days}
    wrong = {name for name, read in found.items() if name in typed and read is None}
    return Asked(
        typed=typed,
        wrong={name: words.filter_wrong(name, got=typed[name]) for name in wrong},
        where=LotsWanted(
            area=area,
            item=typed.get("item", ""),
            maker=typed.get("maker", ""),
            number=typed.get("number", ""),
            shelf=typed.get("shelf", ""),
            status="" if "status" in wrong else typed.get("status", ""),
            expires_until=date.fromisoformat(on) + timedelta(days=days) if days is not None else None,
        ),
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
