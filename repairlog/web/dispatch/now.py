"""What a dispatcher has in view today: the calls that are in, and who is out."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from repairlog.records.queries.calls import NOT_ENDED, WantedCalls, calls, watches
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker
from repairlog.words import calls as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

MOST = 100
"""Calls that are not ended which the page shows at the most; the list of calls has them all."""


def calls_in(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """The calls to which nobody is sent yet, who waits longest first; None for who may take no call."""
    if not (may := _may(tx, who)):
        return None
    waiting = calls(who.scope, tx, wanted=WantedCalls(statuses=("received",)), beyond=None, most=MOST)
    waiting.sort(key=lambda call: (call.received_at or who.at, call.id))
    return {"template": "dispatch/calls_in.html", "waiting": waiting, **_words(who, may)}


def who_is_out(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """Who is sent, on the way or on site at a call, and who watches an open leak; None for who may take no call."""
    if not (may := _may(tx, who)):
        return None
    out = calls(who.scope, tx, wanted=WantedCalls(statuses=NOT_ENDED[1:]), beyond=None, most=MOST)
    out.sort(key=lambda call: (call.since or who.at, call.id))
    return {"template": "dispatch/who_is_out.html", "out": out, "watches": watches(who.scope, tx), **_words(who, may)}


def _may(tx: Tx, who: Asker) -> set[UUID]:
    """The areas in which the asker may take calls."""
    return {area.id for area in areas(who.scope, tx) if who.may("call_received", area=area.id)}


def _words(who: Asker, may: set[UUID]) -> dict[str, Any]:
    return {"at": who.at, "may": may, "words": words, "word": word, "address": address_of_leak}
