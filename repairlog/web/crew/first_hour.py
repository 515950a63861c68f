"""The first hour at a leak on one page: moments of one tap, who was told, the watch; all of it beside what is noted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.entry import Standing
from repairlog.entries.first_hour import CONTROLLED_BY, MOMENTS, WATCH_HANDED
from repairlog.entries.ids import as_id, new_uuid7
from repairlog.entries.told import WHOM
from repairlog.intake.form import Choices
from repairlog.records.story import Story, story_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.plain import plain
from repairlog.web.frame.tapping import can_undo, tapped, undone
from repairlog.web.frame.where import Where, where_of
from repairlog.words import _, story
from repairlog.words.boxes import label
from repairlog.words.codes import word
from repairlog.words.days import day

routes = room("first_hour", __name__)

SHOWN = ("moment_noted", "told", "watch_handed", "decided", "visit", "grade_set")
"""Kinds of entries that the page shows as noted so far."""

_NEXT_READING = next(each for each in WATCH_HANDED.fields if each.name == "next_reading_by")

WITH_PEOPLE = ("people_out", "people_back")
"""Moments that go with how many people, and where they are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tap:
    """A button. `name`, `value`: what it sends; `says`: what stands on it. `id`: of the entry that it makes. `asks`:
    the boxes beside it, which may be left empty. `noted`: when the same was noted so far, in the order in which it
    happened."""

    name: str
    value: str
    says: str
    id: str
    asks: tuple[str, ...] = ()
    noted: list[Any] = field(default_factory=list)


@routes.get("/leaks/<uuid:leak>/first-hour")
def page(leak: UUID) -> ResponseReturnValue:
    """The buttons of the first hour at that leak, with what was noted so far."""
    where, as_is = where_of(leak), _story(leak)
    if not asker().may("moment_noted", area=where.leak.area if where.leak else None):
        abort(403)
    told = [each for each in story.tell(as_is) if each.kind in SHOWN]
    entries = {each.entry.id: each.entry for each in as_is.told}
    saved = as_id(request.args.get("saved", ""))
    live = [each for each in told if each.void is None]
    watch = next((each for each in live if as_is.leak.watch and each.id == as_is.leak.watch.id), None)
    by = label(_NEXT_READING.says)
    return render_template(
        "crew/first_hour.html",
        leak=where.leak,
        moments=_taps("moment", MOMENTS, kind="moment_noted", noted=live, entries=entries),
        whom=_taps("whom", WHOM, kind="told", noted=live, entries=entries),
        controlled_by=[(code, word(code)) for code in CONTROLLED_BY],
        told=told,
        watch=watch,
        next_reading=next((item for item in watch.items if item.label == by), None) if watch else None,
        saved=next((each for each in told if each.id == saved), None),
        undo=can_undo(entries[each.id] for each in live),
        may_decide=asker().may("decided", area=where.leak.area if where.leak else None),
        today=day(where.on),
    )


def _taps(
    name: str, codes: tuple[str, ...], *, kind: str, noted: list[Any], entries: Mapping[UUID, Standing]
) -> list[Tap]:
    asks = {**dict.fromkeys(WITH_PEOPLE, ("people_count", "place")), "gas_under_control": ("controlled_by",)}
    return [
        Tap(
            name=name,
            value=code,
            says=word(code),
            id=str(new_uuid7(asker().at)),
            asks=asks.get(code, ()),
            noted=[each for each in noted if each.kind == kind and entries[each.id].text(name) == code],
        )
        for code in codes
    ]


@routes.post("/leaks/<uuid:leak>/first-hour/tap")
def tap(leak: UUID) -> ResponseReturnValue:
    """A moment, or somebody told, as of this minute."""
    where, form = where_of(leak), request.form
    if where.leak is None or not where.areas:
        abort(404)
    if (moment := form.get("moment", "")) in MOMENTS:
        asked = {name: form.get(name, "").strip() for name in ("people_count", "place", "controlled_by")}
        said = {"kind": "moment_noted", "leak": str(leak), "moment": moment, **{k: v for k, v in asked.items() if v}}
        at = url_for("first_hour.typed", leak=leak, at="moment")
    elif (whom := form.get("whom", "")) in WHOM:
        said, at = (
            {"kind": "told", "subject": str(leak), "whom": whom},
            url_for("first_hour.typed", leak=leak, at="told"),
        )
    else:
        abort(404)
    return tapped(said, area=where.areas[0], form=at, then=_back(leak, saved=form.get("id", "")))


@routes.post("/leaks/<uuid:leak>/first-hour/undo")
def undo(leak: UUID) -> ResponseReturnValue:
    """Undo a touch of a short while ago: the entry is made void."""
    entry = as_id(request.form.get("entry", ""))
    form = url_for("put_right.void", leak=leak, entry=entry) if entry else ""
    return undone([each.entry for each in _story(leak).told], form=form, then=_back(leak))


@routes.route("/leaks/<uuid:leak>/first-hour/<any(moment, told, watch, decided):at>", methods=["GET", "POST"])
def typed(leak: UUID, at: str) -> ResponseReturnValue:
    """The same with all its boxes and its own time: a moment, who was told, the watch handed over, what was decided."""
    where = where_of(leak)
    asked: Mapping[str, Any] = {"moment": _moment, "told": _told, "watch": _watch, "decided": _decided}[at](where, leak)
    return plain(where, leak, then=lambda receipt: _back(leak, saved=str(receipt.id)), **asked)


def _moment(_where: Where, _leak: UUID) -> dict[str, Any]:
    return {
        "kind": "moment_noted",
        "heading": _("A moment, at its own time"),
        "save": _("Save the moment"),
        "first": ("people_count", "place", "controlled_by", "remarks"),
        "begins": {"moment": request.args.get("moment", "")},
    }


def _told(_where: Where, leak: UUID) -> dict[str, Any]:
    return {
        "kind": "told",
        "heading": _("Who was told"),
        "save": _("Save who was told"),
        "said": {"subject": str(leak)},
        "names_leak": False,
        "first": ("named", "how", "reference", "remarks"),
        "labels": {"happened": _("When they were told")},
    }


def _watch(where: Where, leak: UUID) -> dict[str, Any]:
    """Whoever has the watch, as the record has it, stands in the first box already."""
    watch = _story(leak).leak.watch if where.leak else None
    has_it = {"from_person": watch.text("to_person"), "from_named": watch.text("to_named")} if watch else {}
    people: Choices = where.people
    return {
        "kind": "watch_handed",
        "heading": _("Hand the watch over"),
        "save": _("Save the hand-over"),
        "choices": {"from_person": people, "to_person": people},
        "begins": {name: value for name, value in has_it.items() if value},
        "first": (
            *("from_person", "from_named", "to_person", "to_named", "valves", "vents", "last_readings"),
            *("customers_off", "next_reading_by", "remarks"),
        ),
        "labels": {
            "happened": _("When it was handed over"),
            "from_named": _("Or their name, where not on the books"),
            "to_named": _("Or the name of who takes it, where not on the books"),
        },
    }


def _decided(_where: Where, leak: UUID) -> dict[str, Any]:
    return {
        "kind": "decided",
        "heading": _("To be reported or not"),
        "save": _("Save the decision"),
        "said": {"subject": str(leak)},
        "names_leak": False,
        "first": ("report_to", "facts", "reason"),
        "labels": {"happened": _("When it was decided")},
    }


def _story(leak: UUID) -> Story:
    with store().reading() as tx:
        return story_of(asker().scope, tx, leak=leak) or abort(404)


def _back(leak: UUID, *, saved: str = "") -> str:
    return url_for("first_hour.page", leak=leak, saved=saved or None)
