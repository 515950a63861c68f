"""What a leak lost over its own history: its hours and pressures, and the rate that somebody gives for them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.figures import told
from repairlog.figures.asked import read_as
from repairlog.figures.loss import FACTOR, FREE, MEASURED
from repairlog.figures.lost import Rated, segments
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.story import Story, story_of
from repairlog.trade.release import Release, release
from repairlog.trade.unworkable import Unworkable
from repairlog.web.frame.asking import asker, room, store
from repairlog.words import _, of_number
from repairlog.words.days import day

MOST_TYPED = 60

routes = room("lost", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A stretch as the page tells it."""

    begins: str
    ends: str
    hours: str
    pressure: str


@routes.get("/leaks/<uuid:leak>/lost")
def page(leak: UUID) -> ResponseReturnValue:
    """The hours in which that leak lost gas, and what has to be known beside them; with that, the figure of loss."""
    with store().reading() as tx:
        row = leak_with_id(asker().scope, tx, leak=leak)
        story = story_of(asker().scope, tx, leak=leak)
    if row is None or story is None:
        abort(404)
    zone, rated = ZoneInfo(str(story.leak.opened.understood["zone"])), _rated()
    found, wrong = _worked(story)
    if found and "basis" in request.args:
        try:
            given = segments(found, _read(rated), zone=zone)
            address: dict[str, Any] = {"segment": given, "basis": rated.basis, "leak": leak} | _atmosphere(story)
            return redirect(url_for("figures.one", figure="loss", **address), 303)
        except Unworkable as complaint:
            wrong = told.refusals([complaint])[0]
    return render_template(
        "everyone/lost.html",
        leak=row,
        release=found,
        lines=_lines(found, zone) if found else [],
        hours=told.honest(found.hours, digits=4) if found else "",
        wrong=wrong,
        rated=rated,
        holes=_holes(story),
        bases=_bases(),
        caution=told.caution(),
    )


def _worked(story: Story) -> tuple[Release | None, dict[str, str]]:
    live = [each.entry for each in story.told if each.entry.void is None]
    try:
        return release(story.leak, live, until=asker().at), {}
    except Unworkable as complaint:
        return None, told.refusals([complaint])[0]


def _rated() -> Rated:
    texts = {name: request.args.get(name, "").strip()[:MOST_TYPED] for name in ("basis", "rate", "rate_at", "hole")}
    return Rated(**texts)


def _read(rated: Rated) -> Rated:
    """The same, if it can be read; raises what the figure would raise, at the box that is to blame."""
    if rated.basis not in (MEASURED, FREE, FACTOR):
        raise Unworkable("missing", field="basis")
    if rated.hole:
        read_as(rated.hole, "hole", field="hole")
    if rated.rate_at:
        read_as(rated.rate_at, "pressure", field="rate_at")
    return rated


def _lines(found: Release, zone: ZoneInfo) -> list[Line]:
    return [
        Line(
            begins=_moment(each.begins.astimezone(zone)),
            ends=_moment(each.ends.astimezone(zone)),
            hours=of_number("{number} hour", "{number} hours", number=round(each.hours)).format(
                number=told.honest(each.hours, digits=3)
            ),
            pressure=each.pressure,
        )
        for each in found.stretches
    ]


def _moment(local: object) -> str:
    at = f"{local:%Y-%m-%d %H:%M}"
    return _("{day}, {hour}").format(day=day(at[:10]), hour=at[11:])


def _holes(story: Story) -> list[str]:
    """The sizes of holes that its repairs tell of, the last first."""
    told_of = [each.entry for each in story.told if each.entry.void is None]
    return [entry.text("hole_size") for entry in reversed(told_of) if "hole_size" in entry.understood]


def _atmosphere(story: Story) -> dict[str, Any]:
    at = {str(each.entry.understood.get("atmosphere", "")) for each in story.told} - {"", "101.325 kPa absolute"}
    return {"atmosphere": at.pop()} if len(at) == 1 else {}


def _bases() -> list[tuple[str, str]]:
    return [
        (MEASURED, _("A rate that was measured")),
        (FREE, _("The gas blows free")),
        (FACTOR, _("A factor for leaks of its kind")),
    ]
