"""The steps of a call: who is sent, on the way, on site, how it came out; each with all its boxes, two by one tap."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from uuid import UUID

from flask import abort, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.told import WHOM
from repairlog.intake.form import Choices
from repairlog.records.queries.calls import WantedCalls, calls
from repairlog.records.queries.leaks import Wanted, leaks
from repairlog.records.story import story_of_call
from repairlog.web.dispatch.where import OfCall, of_call
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.tapping import tapped, undone
from repairlog.words import _
from repairlog.words.addresses import address_of_leak

routes = room("call_steps", __name__)

OFFERED = 30
"""Leaks, and calls, that an outcome may name from a list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """`kind`: of the entry. `names`: the field that names the call. `title`, `save`, `when`: what the page says.
    `first`: what it asks before its fold, besides what is needed."""

    kind: str
    title: Callable[[], str]
    save: Callable[[], str]
    when: Callable[[], str]
    names: str = "call"
    first: tuple[str, ...] = ()


STEPS: Mapping[str, Step] = {
    "send": Step(
        kind="call_sent",
        title=lambda: _("Send somebody"),
        save=lambda: _("Save"),
        when=lambda: _("When they were sent"),
        first=("crew", "person"),
    ),
    "on-way": Step(
        kind="call_on_way",
        title=lambda: _("On the way"),
        save=lambda: _("Save"),
        when=lambda: _("When they set out"),
    ),
    "on-site": Step(
        kind="call_on_site", title=lambda: _("On site"), save=lambda: _("Save"), when=lambda: _("When they were there")
    ),
    "outcome": Step(
        kind="call_outcome",
        title=lambda: _("How it came out"),
        save=lambda: _("Save the outcome"),
        when=lambda: _("When that was known"),
        first=("found_leak", "same_as", "remarks"),
    ),
    "review": Step(
        kind="call_reviewed",
        title=lambda: _("Review the call"),
        save=lambda: _("Save the review"),
        when=lambda: _("When it was reviewed"),
        first=("reason",),
    ),
    "told": Step(
        kind="told",
        title=lambda: _("Whom you told"),
        save=lambda: _("Save"),
        when=lambda: _("When they were told"),
        first=("named", "reference"),
        names="subject",
    ),
    "decided": Step(
        kind="decided",
        title=lambda: _("To be reported or not"),
        save=lambda: _("Save the decision"),
        when=lambda: _("When it was decided"),
        first=("report_to", "facts", "reason"),
        names="subject",
    ),
}
"""Every step by its word in the address."""

TAPPED = {"on-way": "call_on_way", "on-site": "call_on_site"}
"""Steps of one tap."""


@routes.route(
    "/calls/<uuid:call>/<any(send, 'on-way', 'on-site', outcome, review, told, decided):at>", methods=["GET", "POST"]
)
def page(call: UUID, at: str) -> ResponseReturnValue:
    """Enter that step of the call."""
    where, as_is = of_call(call), STEPS[at]
    part = Part(
        name="step",
        kind=as_is.kind,
        said={as_is.names: str(call)},
        choices={"crew": where.crews, "person": where.people, "did.person": where.people, **_outcome(where, at)},
        labels={"happened": as_is.when()},
    )
    return entering(
        Page(
            template="dispatch/step.html",
            parts=[part],
            areas=where.areas,
            then=lambda receipts: url_for("call.page", call=call, saved=receipts[0].id),
            around={"call": where.call, "title": as_is.title(), "save": as_is.save(), "first": as_is.first}
            | {"address": address_of_leak},
        )
    )


@routes.post("/calls/<uuid:call>/tap")
def tap(call: UUID) -> ResponseReturnValue:
    """One of the steps of one tap, or somebody told, as of this minute."""
    where, step, whom = of_call(call), request.form.get("step", ""), request.form.get("whom", "")
    if where.call is None or not where.areas or not (step in TAPPED or whom in WHOM):
        abort(404)
    said = {"kind": TAPPED[step], "call": str(call)} if step in TAPPED else _told(call, whom)
    step = step if step in TAPPED else "told"
    then = url_for("call.page", call=call, saved=request.form.get("id", ""))
    return tapped(said, area=where.areas[0], form=url_for("call_steps.page", call=call, at=step), then=then)


def _told(call: UUID, whom: str) -> dict[str, str]:
    return {"kind": "told", "subject": str(call), "whom": whom}


@routes.post("/calls/<uuid:call>/undo")
def undo(call: UUID) -> ResponseReturnValue:
    """Undo a touch of a short while ago: the entry is made void."""
    with store().reading() as tx:
        story = story_of_call(asker().scope, tx, call=call) or abort(404)
    told = [each.entry for each in story.told if each.entry.id != call]
    return undone(told, form="", then=url_for("call.page", call=call))


def _outcome(where: OfCall, step: str) -> dict[str, Choices]:
    """What an outcome may name: open leaks and other calls, those of its street before the newest of its area."""
    if step != "outcome" or where.call is None:
        return {}
    scope, area = asker().scope, where.call.area
    with store().reading() as tx:
        open_ones = leaks(scope, tx, where=Wanted(area=area, status="open"), beyond=None, most=OFFERED)
        others = calls(scope, tx, wanted=WantedCalls(area=area), beyond=None, most=OFFERED + 1)
    here = where.call.street.casefold()
    open_ones.sort(key=lambda leak: leak.street.casefold() != here)
    others.sort(key=lambda other: other.street.casefold() != here)
    named = [(str(leak.id), f"{leak.number}, {address_of_leak(leak)}") for leak in open_ones]
    same = [
        (str(other.id), f"{other.number}, {address_of_leak(other)}") for other in others if other.id != where.call.id
    ]
    return {"found_leak": named, "same_as": same}
