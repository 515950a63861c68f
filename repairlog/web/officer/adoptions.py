"""What an area answers to: the rulebook it adopted, its rules to confirm with the text in hand, its working days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.ids import read_id
from repairlog.intake.form import Choices
from repairlog.records.post import Receipt
from repairlog.records.post.chain import chain_of
from repairlog.records.queries.adopted import ConfirmationRow, confirmations, how_many_stale, rulebook_with
from repairlog.trade.adopted import Adoption, adopted_on, confirmed_in
from repairlog.trade.area import Area
from repairlog.trade.rulebook import Rulebook, to_be_confirmed
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.there import area_there, hide, people_there
from repairlog.web.frame.told import Told
from repairlog.web.officer.foreseen import what_would_change
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.rulebooks import printed, status_word

routes = room("adoptions", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answering:
    """An area with what it answers to. `area`: None where the asker may not see it. `adoption`, `rulebook`: what holds
    today, else what is adopted for a day to come; None where nothing is. `confirmed`: the day of each confirmed rule of
    it. `read`: what was confirmed, of any rulebook. `on`: today there."""

    area: Area | None
    on: str
    people: Choices = ()
    adoption: Adoption | None = None
    rulebook: Rulebook | None = None
    confirmed: frozenset[str] = frozenset()
    read: Sequence[ConfirmationRow] = ()


def answering(area: UUID) -> Answering:
    """404 for who asks to see an area that they may not, or that is not there."""
    with store().reading() as tx:
        found = next(iter(area_there(tx, area)), None)
        if found is None:
            hide(found)
            return Answering(area=None, on=asker().on)
        on = f"{asker().at.astimezone(ZoneInfo(found.zone)):%Y-%m-%d}"
        holds = adopted_on(found.adoptions, on=on) or next(iter(found.adoptions), None)
        books = {
            digest: rulebook_with(asker().scope, tx, digest=digest)
            for digest in {each.digest for named in (found.adoptions, found.confirmed) for each in named}
        }
        rulebook = books[holds.digest] if holds else None
        opened = {digest: each for digest, each in books.items() if each is not None}
        days = confirmed_in(rulebook, found.confirmed, opened=opened.__getitem__) if rulebook else {}
        return Answering(
            area=found,
            on=on,
            people=people_there(tx, [found]),
            adoption=holds,
            rulebook=rulebook,
            confirmed=frozenset(days),
            read=confirmations(asker().scope, tx, area=area),
        )


@routes.get("/rulebooks/areas/<uuid:area>")
def page(area: UUID) -> ResponseReturnValue:
    """What that area adopted from which day on, what of it is still to be confirmed, and what was, by whom."""
    of = answering(area)
    assert of.area is not None
    parts = printed(of.rulebook, confirmed=of.confirmed) if of.rulebook else []
    offered = store().rulebooks.offered()
    with store().reading() as tx:
        stale = how_many_stale(asker().scope, tx, area=area)
    return render_template(
        "officer/adopted.html",
        of=of,
        area=of.area,
        adoptions=of.area.adoptions[::-1],
        titles={each.digest: each.title for each in offered.values()},
        unconfirmed=[(part, [each for each in part.rules if each.asks_confirmation]) for part in parts],
        open=len(to_be_confirmed(of.rulebook, confirmed=of.confirmed)) if of.rulebook else 0,
        offered=sorted(offered.values(), key=lambda each: (each.status == "proposed", each.id)),
        may={kind: asker().may(kind, area=area) for kind in ("rulebook_adopted", "rule_confirmed", "working_days_set")},
        stale=stale,
        status=status_word,
        day=day,
    )


@routes.route("/rulebooks/areas/<uuid:area>/adopt/<rulebook>", methods=["GET", "POST"])
def adopt(area: UUID, rulebook: str) -> ResponseReturnValue:
    """Adopt that rulebook in that area; what it would change of what open leaks owe is shown before."""
    of = answering(area)
    found = store().rulebooks.offered().get(rulebook) or abort(404)
    typed = request.form.get("adopt-from_on", "")
    from_on = typed if _is_day(typed) else of.on
    proposed = found.status == "proposed"
    part = Part(
        name="adopt",
        kind="rulebook_adopted",
        said={"subject": str(area), "rulebook": found.id, "digest": found.digest},
        without=() if proposed else ("although_proposed",),
        choices={"did.person": of.people},
        labels={"happened": _("When it was decided"), "from_on": _("First day on which it holds in the area")},
    )
    changes = what_would_change(of.area, found, from_on=from_on) if of.area else None
    return entering(
        Page(
            template="officer/adopt.html",
            parts=[part],
            areas=[of.area] if of.area else [],
            then=lambda receipts: _area(area, saved=receipts[0]),
            around={"of": of, "area": of.area, "rulebook": found, "status": status_word, "changes": changes, "day": day}
            | {"from_on": from_on, "open": len(to_be_confirmed(found))},
        )
    )


@routes.route("/rulebooks/areas/<uuid:area>/confirm/<rule>", methods=["GET", "POST"])
def confirm(area: UUID, rule: str) -> ResponseReturnValue:
    """Confirm that rule of what the area adopted, with the text in hand; the next one follows by itself, with the
    document and the day that were just given."""
    of = answering(area)
    parts = printed(of.rulebook, confirmed=of.confirmed) if of.rulebook else []
    every = [each for part in parts for each in part.rules]
    told = next((each for each in every if each.id == rule), None)
    if told is None and of.area is not None:
        abort(404)
    waiting = [each for each in every if each.asks_confirmation and each.id != rule]
    following = next((each.id for each in waiting if every.index(each) > _place(every, rule)), "")
    following = following or (waiting[0].id if waiting else "")
    part = Part(
        name="confirm",
        kind="rule_confirmed",
        said={"subject": str(area), "rule": rule}
        | ({"rulebook": of.rulebook.id, "digest": of.rulebook.digest} if of.rulebook else {}),
        choices={"did.person": of.people},
        labels={"happened": _("When it was read"), "document": _("Document in hand"), "page": _("Page or section")},
        begins={name: value for name in ("happened", "document") if (value := request.args.get(name))},
    )
    return entering(
        Page(
            template="officer/confirm.html",
            parts=[part],
            areas=[of.area] if of.area else [],
            then=lambda receipts: _next(area, following, saved=receipts[0]),
            ready=_on_the_page,
            around={"of": of, "area": of.area, "rule": told, "left": len(waiting), "day": day}
            | {"before": [each for each in of.read if each.rule == rule]},
        )
    )


@routes.route("/rulebooks/areas/<uuid:area>/working-days", methods=["GET", "POST"])
def working_days(area: UUID) -> ResponseReturnValue:
    """Set the calendar by which the area's working days are counted."""
    of = answering(area)
    part = Part(
        name="days",
        kind="working_days_set",
        said={"subject": str(area)},
        choices={"did.person": of.people},
        labels={"happened": _("When it was decided"), "calendar": _("Country, or country and part of it")},
    )
    return entering(
        Page(
            template="officer/working_days.html",
            parts=[part],
            areas=[of.area] if of.area else [],
            then=lambda receipts: _area(area, saved=receipts[0]),
            around={"of": of, "area": of.area},
        )
    )


@routes.route("/rulebooks/areas/<uuid:area>/adopted/<uuid:adopted>/void", methods=["GET", "POST"])
def void(area: UUID, adopted: UUID) -> ResponseReturnValue:
    """Make an adoption or a confirmation void: its rules are proposed again, or what was adopted before holds."""
    of = answering(area)
    with store().reading() as tx:
        chain = chain_of(tx, adopted)
    found = next((each for each in chain if each.id == adopted), None)
    kinds = ("rulebook_adopted", "rule_confirmed")
    if found is None or found.kind not in kinds or read_id(found.text("subject")) != area:
        abort(404)
    return entering(
        Page(
            template="officer/void.html",
            parts=[Part(name="void", kind="void", said={"entry": str(adopted)}, without=("did",))],
            areas=[of.area] if of.area else [],
            then=lambda receipts: _area(area, saved=receipts[0]),
            around={"of": of, "area": of.area, "entry": found, "day": day},
            open_to_asker=asker().may(found.kind, area=area),
        )
    )


def _place(every: Sequence[object], rule: str) -> int:
    return next((place for place, each in enumerate(every) if getattr(each, "id", "") == rule), -1)


def _area(area: UUID, *, saved: Receipt) -> str:
    return url_for("adoptions.page", area=area, saved=saved.id)


def _on_the_page(forms: Mapping[str, Form], told: Told) -> None:
    """Where the document was carried on, its page is all that is left to type."""
    if request.method == "GET" and forms["confirm"]["document"].data:
        told.focus = forms["confirm"]["page"].id


def _next(area: UUID, rule: str, *, saved: Receipt) -> str:
    """The next rule to confirm; the area's page where none is left."""
    if not rule:
        return _area(area, saved=saved)
    happened, document = (request.form.get(f"confirm-{name}") or None for name in ("happened", "document"))
    return url_for("adoptions.confirm", area=area, rule=rule, happened=happened, document=document)


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
