"""A dig for a leak: opened, what it found, the pipe that it laid bare, filled, what is owed after it, restored."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from flask import abort, url_for
from flask.typing import ResponseReturnValue

from repairlog.intake.form import Choices
from repairlog.records.queries.sources import sources_of
from repairlog.records.story import story_of
from repairlog.trade.dig import Dig
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import Where, where_of
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.sources import source
from repairlog.words.story.sources import in_a_line

routes = room("digs", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing that is said of a dig. `first`: fields that stand before the fold, beside those that are needed.
    `names`: the field that names the dig."""

    kind: str
    heading: str
    save: str
    happened: str
    first: tuple[str, ...] = ()
    names: str = "dig"


def steps() -> Mapping[str, Step]:
    """The steps of a dig, by the last part of their address."""
    return {
        "found": Step(
            kind="dig_found",
            heading=_("What the dig found"),
            save=_("Save what was found"),
            happened=_("When it was found"),
            first=("source", "depth", "cover"),
        ),
        "pipe": Step(
            kind="pipe_exposed",
            heading=_("Exposed pipe"),
            save=_("Save what was seen of the pipe"),
            happened=_("When it was looked at"),
            first=("source", "outside", "coating", "coating_state", "corrosion_outside", "searched", "cut_out"),
        ),
        "backfill": Step(
            kind="dig_backfilled",
            heading=_("Backfill"),
            save=_("Save the backfill"),
            happened=_("When it was filled"),
            first=("material", "compaction"),
        ),
        "owed": Step(
            kind="restoration_owed",
            heading=_("Restoration that is owed"),
            save=_("Save what is owed"),
            happened=_("When this was known"),
            first=("by_on", "owed_by"),
        ),
        "restored": Step(
            kind="restored",
            heading=_("Restored"),
            save=_("Save the restoration"),
            happened=_("When it was done"),
            first=("owed", "what"),
        ),
        "note": Step(
            kind="note",
            heading=_("Add a note to the dig"),
            save=_("Save the note"),
            happened=_("When"),
            names="subject",
        ),
        "number": Step(
            kind="outside_number_added",
            heading=_("Add an outside number to the dig"),
            save=_("Save the number"),
            happened=_("Since when it bears it"),
            names="subject",
        ),
    }


@routes.route("/leaks/<uuid:leak>/dig", methods=["GET", "POST"])
def opening(leak: UUID) -> ResponseReturnValue:
    """Open a dig for that leak."""
    where = where_of(leak)
    here = {"area": str(where.leak.area)} if where.leak else {}
    dig = Part(
        name="dig",
        kind="dig_opened",
        said=here,
        without=("leaks",),
        choices={"did.person": where.people, "area": []},
        labels={"happened": _("When digging began"), "ties.from_what": _("From what"), "ties.distance": _("How far")},
    )
    return on_leak(
        where,
        leak,
        template="crew/dig_opened.html",
        parts=[dig],
        means=lambda call: (
            {name: {**raw, "leaks": [{"key": "l1", "leak": str(leak)}]} for name, raw in call.items()},
            (),
        ),
    )


@routes.route(
    "/leaks/<uuid:leak>/digs/<uuid:dig>/<any(found,pipe,backfill,owed,restored,note,number):step>",
    methods=["GET", "POST"],
)
def page(leak: UUID, dig: UUID, *, step: str) -> ResponseReturnValue:
    """Say the next thing about a dig that serves that leak."""
    where, of = where_of(leak), steps()[step]
    number, as_is = _dig_in(where, dig)
    part = Part(
        name="step",
        kind=of.kind,
        said={of.names: str(dig)},
        choices={"did.person": where.people, "source": _sources(where), "owed": _owed(as_is)},
        labels={"happened": of.happened},
    )
    return on_leak(
        where,
        leak,
        template="crew/dig.html",
        parts=[part],
        around={
            "step": of,
            "number": number,
            "ticket": as_is.ticket if as_is else "",
            "stands": _told_of_sources(where, dig) if step == "pipe" else (),
        },
    )


def _dig_in(where: Where, dig: UUID) -> tuple[int, Dig | None]:
    """The number and the dig among those that serve the leak; 404 where it is none of them, none where the asker may
    not see the leak."""
    if where.leak is None:
        return 0, None
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=where.leak.id)
    digs: Any = story.digs if story else ()
    found = next(((number, each) for number, each in enumerate(digs, start=1) if each.opened.id == dig), None)
    return found or abort(404)


def _sources(where: Where) -> Choices:
    if where.leak is None:
        return ()
    with store().reading() as tx:
        found = sources_of(asker().scope, tx, leak=where.leak.id)
    return [(str(each.id), source(each.number, **each.said)) for each in found]


def _told_of_sources(where: Where, dig: UUID) -> list[tuple[str, str]]:
    """Each source as the record tells it, and where to say what it turned out to be; no address for who may not."""
    if where.leak is None:
        return []
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=where.leak.id)
    if story is None:
        return []
    may = asker().may("source_changed", area=where.leak.area)
    return [
        (
            in_a_line(story, each.id),
            url_for("otherwise.page", leak=where.leak.id, source=each.id, dig=dig) if may else "",
        )
        for each in story.leak.sources
    ]


def _owed(dig: Dig | None) -> Choices:
    owed = dig.still_owed if dig else ()
    by = _("{what}, by {day}")
    return [
        (str(each.entry), by.format(what=each.what, day=day(each.by_on)) if each.by_on else each.what) for each in owed
    ]
