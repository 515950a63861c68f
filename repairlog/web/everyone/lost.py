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
from repairlog.figures.loss import FACTOR, FREE, MEASURED, rate_scfh
from repairlog.figures.lost import Rated, Releases, releases, segments_of
from repairlog.records.queries.leaks import leak_with_id
from repairlog.records.story import Story, story_of
from repairlog.trade.release import Release
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The whole leak, with the number 0, or one of its sources: when gas came out of it, and what was typed for it."""

    number: int
    lines: list[Line]
    hours: str
    goes_on: bool
    rated: Rated
    holes: list[str]


@routes.get("/leaks/<uuid:leak>/lost")
def page(leak: UUID) -> ResponseReturnValue:
    """The hours in which that leak lost gas, and what has to be known beside them; with that, the figure of loss."""
    with store().reading() as tx:
        row = leak_with_id(asker().scope, tx, leak=leak)
        story = story_of(asker().scope, tx, leak=leak)
    if row is None or story is None:
        abort(404)
    zone, rated = ZoneInfo(str(story.leak.opened.understood["zone"])), _rated(len(story.leak.sources))
    found, wrong = _worked(story)
    if found and "basis" in request.args:
        try:
            given = segments_of(found, _read(rated), zone=zone)
            address: dict[str, Any] = {"segment": given, "basis": rated[0].basis, "leak": leak} | _atmosphere(story)
            return redirect(url_for("figures.one", figure="loss", **address), 303)
        except Unworkable as complaint:
            wrong = told.refusals([complaint])[0]
    return render_template(
        "everyone/lost.html",
        leak=row,
        parts=_parts(story, found, zone=zone, rated=rated) if found else [],
        release=found.whole if found else None,
        several=len(found.of_source) if found else 0,
        wrong=wrong,
        rated=rated[0],
        bases=_bases(),
        caution=told.caution(),
    )


def _parts(story: Story, of: Releases, *, zone: ZoneInfo, rated: dict[int, Rated]) -> list[Part]:
    """The whole leak, and behind it each of its sources where there are several."""
    return [
        Part(
            number=number,
            lines=_lines(each, zone),
            hours=told.honest(each.hours, digits=4),
            goes_on=each.goes_on,
            rated=rated[number],
            holes=_holes(story, number),
        )
        for number, each in {0: of.whole, **of.of_source}.items()
    ]


def _worked(story: Story) -> tuple[Releases | None, dict[str, str]]:
    live = [each.entry for each in story.told if each.entry.void is None]
    try:
        return releases(story.leak, live, until=asker().at), {}
    except Unworkable as complaint:
        return None, told.refusals([complaint])[0]


def _rated(sources: int) -> dict[int, Rated]:
    """What was typed, by the number of the source; 0 for the whole leak."""
    basis = _said("basis")
    return {
        number: Rated(basis=basis, **{name: _said(name + _behind(number)) for name in ("rate", "rate_at", "hole")})
        for number in range(sources + 1 if sources > 1 else 1)
    }


def _said(name: str) -> str:
    return request.args.get(name, "").strip()[:MOST_TYPED]


def _behind(number: int) -> str:
    return f"_{number}" if number else ""


def _read(rated: dict[int, Rated]) -> dict[int, Rated]:
    """The same, if it can be read; raises what the figure would raise, at the box that is to blame."""
    if rated[0].basis not in (MEASURED, FREE, FACTOR):
        raise Unworkable("missing", field="basis")
    for number, each in rated.items():
        if each.hole:
            read_as(each.hole, "hole", field=f"hole{_behind(number)}")
        if each.rate_at:
            read_as(each.rate_at, "pressure", field=f"rate_at{_behind(number)}")
        if each.rate:
            rate_scfh(each.rate, field=f"rate{_behind(number)}")
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
    at = f"{local:%Y-%m-%d %H:%M %Z}"
    return _("{day}, {hour}").format(day=day(at[:10]), hour=at[11:])


def _holes(story: Story, number: int) -> list[str]:
    """The sizes of holes that repairs tell of, of that source or, for 0, of any; the last first."""
    source = next((str(each.id) for each in story.leak.sources if each.number == number), "")
    told_of = [each.entry for each in story.told if each.entry.void is None]
    return [
        entry.text("hole_size")
        for entry in reversed(told_of)
        if "hole_size" in entry.understood and (not number or entry.text("source") == source)
    ]


def _atmosphere(story: Story) -> dict[str, Any]:
    at = {str(each.entry.understood.get("atmosphere", "")) for each in story.told} - {"", "101.325 kPa absolute"}
    return {"atmosphere": at.pop()} if len(at) == 1 else {}


def _bases() -> list[tuple[str, str]]:
    return [
        (MEASURED, _("A rate that was measured")),
        (FREE, _("The gas blows free")),
        (FACTOR, _("A factor for leaks of its kind")),
    ]
