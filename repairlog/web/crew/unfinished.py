"""What was typed and is not saved yet: the asker's own, and what others were refused where the asker oversees."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from flask import abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.access import EVERYTHING
from repairlog.entries.ids import as_id
from repairlog.intake import complaints_about
from repairlog.records.beside.unfinished import Unfinished, of_person, throw_away
from repairlog.records.beside.unfinished import send_back as to_them
from repairlog.records.queries.leaks import leaks_with
from repairlog.records.queries.named import named
from repairlog.records.queries.people import names_of
from repairlog.records.queries.settings import operator_zone, subjects
from repairlog.records.store import Tx
from repairlog.web.crew.said_in import Line, ids_in, label_at, lines_of, title_of
from repairlog.web.frame.again import entries_in, overseen, places_in, unfinished_for
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.listing import Column, Listing, Way, all_at_once, by_id, listed
from repairlog.words import _, complaints, times
from repairlog.words.addresses import address_of_leak

routes = room("unfinished", __name__)

ORDER = by_id(lambda left: left.id)

LONGEST_WORD = 1000
"""Characters of what is said to whoever gets something back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """One that was left. `title`: what it would have entered; `where`: on which leak, empty where it names none that
    the asker may see. `own`: whether the asker typed it; `whose`: the name of whoever else did. `when`: when it was
    kept, in the operator's zone; `kept_since`: the same as a file has it. `because`: a code. `sent_back_by`: by name,
    who sent it back; `word`: what they said."""

    id: UUID
    title: str
    where: str
    own: bool
    whose: str
    when: str
    kept_since: str
    because: str
    sent_back_by: str
    word: str


@routes.get("/unfinished")
def page() -> ResponseReturnValue:
    """All of it, the newest first, the asker's own before what others were refused."""
    own, others = of_person(store(), asker().actor.person), overseen(store(), asker())
    with store().reading() as tx:
        return listed(
            tx,
            Listing(
                title=_("Unfinished"),
                name=_("unfinished"),
                columns=_columns(),
                shown=_shown(),
                rows=all_at_once(lambda _tx: _left([*own, *others]), order=ORDER),
                order=ORDER,
                group=lambda left: "" if left.own else _("Refused to others, for want of the right"),
                style="unfinished",
                about=_("What was typed and is not saved yet. It is kept for 90 days."),
                nothing_yet=_("You left nothing unfinished."),
                empty=_("What cannot be saved at once comes here, as you typed it."),
                around=lambda _tx, _rows: {"others": bool(others)},
                template="crew/unfinished.html",
            ),
        )


def _shown() -> Sequence[Column]:
    def what(left: Left) -> Way:
        whose = _("typed by {name}").format(name=left.whose) if left.whose else ""
        return Way(text=left.title, small=whose)

    def why(left: Left) -> tuple[str, str, str]:
        by = _("Sent back by {name}").format(name=left.sent_back_by) if left.sent_back_by else ""
        return left.because, by, left.word

    def does(left: Left) -> Sequence[tuple[str, str]]:
        away = (_("Throw away"), url_for("unfinished.away", id=left.id))
        back = (_("Send it back"), url_for("unfinished.send_back", id=left.id))
        return [(_("Open"), url_for("unfinished.one", id=left.id)), away if left.own else back]

    return (
        Column(head=_("What it would enter"), cell=what, draw="way", kind="where"),
        Column(head=_("Where"), cell=lambda left: left.where),
        Column(head=_("Why it was not saved"), cell=why, draw="why"),
        Column(head=_("Kept since"), cell=lambda left: left.when, kind=("small", "day")),
        Column(head=_("What to do with it"), cell=does, draw="does", aloud=True),
    )


def _columns() -> Mapping[str, Callable[[Left], str | int]]:
    why = {
        "not_understood": _("Something in it could not be read"),
        "refused": _("The roles of whoever sent it do not let them"),
        "waits": _("It names something that is not in the book yet"),
        "conflict": _("An entry of the same id says something else"),
    }
    return {
        _("What it would enter"): lambda left: left.title,
        _("Where"): lambda left: left.where,
        _("Typed by"): lambda left: left.whose or asker().name,
        _("Kept since"): lambda left: left.kept_since,
        _("Why it was not saved"): lambda left: why.get(left.because, ""),
    }


@routes.get("/unfinished/<uuid:id>")
def one(id: UUID) -> ResponseReturnValue:
    """Open its form again, filled as typed; show it as text where no form is to be opened."""
    found = _found(id)
    if found.form.startswith("/") and _in_scope(found):
        return redirect(f"{request.script_root}{found.form}?unfinished={found.id}")
    shown = {"left": _left([found])[0], "entries": _said(found), "wrongs": _wrongs(found), "own": _is_own(found)}
    return render_template("crew/left.html", **shown)


@routes.route("/unfinished/<uuid:id>/throw-away", methods=["GET", "POST"])
def away(id: UUID) -> ResponseReturnValue:
    """Ask once, then take it away; only ever the asker's own."""
    found = _found(id)
    if not _is_own(found):
        abort(403)
    if request.method == "GET":
        return render_template("crew/throw_away.html", left=_left([found])[0])
    throw_away(store(), id, person=found.person)
    return redirect(url_for("unfinished.page", done="away"), 303)


@routes.route("/unfinished/<uuid:id>/send-back", methods=["GET", "POST"])
def send_back(id: UUID) -> ResponseReturnValue:
    """Give back to whoever typed it what they were refused, with a word; only for who oversees it."""
    found = _found(id)
    if _is_own(found):
        abort(403)
    word = request.form.get("word", "").strip()
    wrong = request.method == "POST" and not 0 < len(word) <= LONGEST_WORD
    if request.method == "GET" or wrong:
        shown = {
            "left": _left([found])[0],
            "entries": _said(found),
            "word": word,
            "wrong": wrong,
            "longest": LONGEST_WORD,
        }
        return render_template("crew/send_back.html", **shown), 422 if wrong else 200
    to_them(store(), id, person=found.person, by=asker().actor.person, word=word)
    return redirect(url_for("unfinished.page", done="back"), 303)


def _found(id: UUID) -> Unfinished:
    found = unfinished_for(store(), asker(), id=id)
    if found is None:
        abort(404)
    return found


def _said(found: Unfinished) -> list[list[Line]]:
    """What each of its entries says, what they name by its name where the asker may see that."""
    every = entries_in(found)
    with store().reading() as tx:
        names = named(asker().scope, tx, ids={id for raw in every for id in ids_in(raw)})
    called = {id: each.called for id, each in names.items()}
    return [lines_of(raw, names=called) for raw in every]


def _wrongs(found: Unfinished) -> list[Line]:
    """What could not be read of it, each with the field it is about."""
    if found.because != "not_understood" or not isinstance(found.raw, list):
        return []
    who = asker()
    told = complaints_about(store(), found.raw, actor=who.actor, moments=who.moments)
    kinds = [raw.get("kind") if isinstance(raw, dict) else None for raw in found.raw]
    return [Line(label_at(kinds[each.entry], each.field), " ".join(complaints.sentence(each))) for each in told]


def _is_own(found: Unfinished) -> bool:
    return found.person == asker().actor.person


def _in_scope(found: Unfinished) -> bool:
    places = places_in(found)
    with store().reading() as tx:
        return len(subjects(asker().scope, tx, ids=places)) == len(places)


def _left(every: list[Unfinished]) -> list[Left]:
    with store().reading() as tx:
        zone = operator_zone(EVERYTHING, tx) or "UTC"
        said = {each.sent_back_by for each in every if each.sent_back_by}
        names = names_of(asker().scope, tx, ids={each.person for each in every})
        about = _about(tx, every)
        senders = names_of(EVERYTHING, tx, ids=said)
    return [
        Left(
            id=each.id,
            title=title_of(entries_in(each)),
            where=about[each.id],
            own=_is_own(each),
            whose="" if _is_own(each) else names.get(each.person, ""),
            when=times.day_and_hour(each.kept_at, zone=zone, named=True),
            kept_since=times.iso(each.kept_at, zone=zone),
            because=each.because,
            sent_back_by=senders.get(each.sent_back_by, "") if each.sent_back_by else "",
            word=each.word,
        )
        for each in every
    ]


def _about(tx: Tx, every: Iterable[Unfinished]) -> dict[UUID, str]:
    """By what was left, number and address of the leak that it names; the address as typed where it would have opened
    one."""
    said = {each.id: _place_of(each) for each in every}
    ids = {place for place in said.values() if isinstance(place, UUID)}
    names = {row.id: f"{row.number}, {address_of_leak(row)}" for row in leaks_with(asker().scope, tx, ids=ids)}
    return {id: names.get(place, "") if isinstance(place, UUID) else place for id, place in said.items()}


def _place_of(left: Unfinished) -> UUID | str:
    """The first leak that it names, or the address of the first that it would have opened; empty: neither."""
    for raw in entries_in(left):
        if raw.get("kind") == "leak_opened":
            typed = (raw.get(name) for name in ("house_number", "street", "town"))
            return " ".join(part for part in typed if isinstance(part, str))
        if leak := as_id(raw.get("leak")) or as_id(raw.get("subject")):
            return leak
    return ""
