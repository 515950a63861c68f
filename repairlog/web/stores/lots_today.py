"""A storekeeper's part of Today: lots in stock past their last day or soon to be, and what is quarantined."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from flask import url_for

from repairlog.records.queries.stores import LotRow, LotsWanted, lots_in_stores
from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker
from repairlog.web.frame.lines import Line, Way, lines_of
from repairlog.words import _
from repairlog.words import stores as words

AHEAD = 30
"""Days before its last one on which a lot is shown."""

AT_MOST = 12
"""Lots of either sort that Today shows; the list has them all."""


def lots_today(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What wants a look in the stores, what expires first on top; None for who keeps none."""
    if not who.holds("storekeeper"):
        return None
    soon = LotsWanted(status="in_stock", expires_until=date.fromisoformat(who.on) + timedelta(days=AHEAD))
    lots = lots_in_stores(who.scope, tx, where=soon, most=AT_MOST)
    lots += lots_in_stores(who.scope, tx, where=LotsWanted(status="quarantined"), most=AT_MOST)
    return lines_of(
        _("In the stores"),
        [_line(lot, on=who.on) for lot in lots],
        none=_("No lot in stock expires within {days} days, and none is quarantined.").format(days=AHEAD),
        ways=[
            Way(name=_("Receive a lot"), address=url_for("stores.receive"), first=True),
            Way(
                name=_("All that expires within {days} days").format(days=AHEAD),
                address=url_for("lots.page", status="in_stock", days=AHEAD),
            ),
        ],
    )


def _line(lot: LotRow, *, on: str) -> Line:
    past = bool(lot.expires_on) and lot.expires_on < on
    stands = words.status(lot.status) if lot.status != "in_stock" else ""
    until = words.until(lot.expires_on, on=on) if lot.expires_on else ""
    return Line(
        lead=_("expired") if past else _("look at") if stands else _("soon"),
        title=f"{lot.lot_number}, {lot.item}",
        address=url_for("lots.one", lot=lot.id),
        beside=" · ".join(filter(None, (stands, until, lot.lies_at))),
        wants=past,
    )
