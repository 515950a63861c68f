"""A moment of one tap: the entry happened this minute, because somebody said so by touching its button. To undo it is
to make it void, with a reason like any other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import timedelta
from typing import Any
from uuid import UUID

from flask import abort, redirect, request
from flask.typing import ResponseReturnValue

from repairlog.access import Refused
from repairlog.entries.entry import Standing, moment_received
from repairlog.entries.ids import new_uuid7, read_id
from repairlog.intake import NotUnderstood, WaitsFor, record
from repairlog.intake.when import as_typed
from repairlog.records.post import Conflict
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, count_unfinished, store
from repairlog.web.frame.entering import kept
from repairlog.words import _

UNDONE_WITHIN = timedelta(hours=12)
"""How long after it came in an entry can be undone by one touch; later it is made void with a reason of its own."""


def tapped(said: Mapping[str, str], *, area: Area, form: str, then: str) -> ResponseReturnValue:
    """Record that entry as of this minute by the area's clock, and go on to `then`. `form`: the address of the page
    that asks for the same with all its boxes, where it is finished if it cannot be recorded now.

    The entry's id was made when the button was drawn, so that a second touch of the same button is no second entry.
    """
    return _recorded({**said, "happened": as_typed(asker().at, area.zone)}, form=form, then=then)


def undone(story: Iterable[Standing], *, form: str, then: str) -> ResponseReturnValue:
    """Make void the entry of that story whose id the form names as `entry`, because it was entered in error; go on to
    `then`. 404 where the story has none of that id. `form`: the address of the page that asks for the reason."""
    named = next((each for each in story if str(each.id) == request.form.get("entry")), None)
    if named is None:
        abort(404)
    reason = _("Entered in error, and undone")
    return _recorded({"kind": "void", "entry": str(named.id), "reason": reason}, form=form, then=then)


def can_undo(story: Iterable[Standing]) -> dict[UUID, str]:
    """By entry of that story which the asker typed a short while ago, an id for the void that undoes it."""
    who = asker()
    return {
        each.id: str(new_uuid7(who.at))
        for each in story
        if each.void is None
        and read_id(each.by["typed"]) == who.actor.person
        and who.at - moment_received(each) < UNDONE_WITHIN
    }


def _recorded(said: Mapping[str, Any], *, form: str, then: str) -> ResponseReturnValue:
    who = asker()
    raw = {**said, "id": request.form.get("id", "")}
    try:
        record(store(), [raw], actor=who.actor, moments=who.moments, form=form)
    except Conflict:
        pass  # touched again a minute later: the first touch stands
    except (NotUnderstood, Refused, WaitsFor) as not_yet:
        count_unfinished()
        return kept(not_yet)
    return redirect(then, 303)
