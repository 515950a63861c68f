"""A moment of one tap: the entry happened this minute, because somebody said so by touching its button."""

from __future__ import annotations

from collections.abc import Mapping

from flask import redirect, request
from flask.typing import ResponseReturnValue

from repairlog.access import Refused
from repairlog.intake import NotUnderstood, WaitsFor, record
from repairlog.intake.when import as_typed
from repairlog.records.post import Conflict
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, count_unfinished, store
from repairlog.web.frame.entering import kept


def tapped(said: Mapping[str, str], *, area: Area, form: str, then: str) -> ResponseReturnValue:
    """Record that entry as of this minute by the area's clock, and go on to `then`. `form`: the address of the page
    that asks for the same with all its boxes, where it is finished if it cannot be recorded now.

    The entry's id was made when the button was drawn, so that a second touch of the same button is no second entry.
    """
    who = asker()
    raw = {**said, "id": request.form.get("id", ""), "happened": as_typed(who.at, area.zone)}
    try:
        record(store(), [raw], actor=who.actor, moments=who.moments, form=form)
    except Conflict:
        pass  # touched again a minute later: the first touch stands
    except (NotUnderstood, Refused, WaitsFor) as not_yet:
        count_unfinished()
        return kept(not_yet)
    return redirect(then, 303)
