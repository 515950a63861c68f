"""Two records that are the same, of people, lots, places or streets, are made one: the other is chosen by its name,
both are seen side by side, and one of them is kept. Voiding the entry takes it back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.made_one import KINDS, Record, alike, sameness
from repairlog.records.queries.named import called_themselves
from repairlog.records.queries.places_listed import (
    A_STREET,
    ListedPlace,
    WantedPlaces,
    places_listed,
    street_listed,
)
from repairlog.records.store import Tx
from repairlog.records.story import Story, story_of_book
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Book, book_of, may_say, page_of
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.there import area_choices, areas_for, hide, people_to_choose
from repairlog.words import _
from repairlog.words import made_one as words
from repairlog.words import places as place_words
from repairlog.words.story import tell

OFFERED = 30
"""Records that are offered to choose from at the most; others are found by their name."""

routes = room("made_one", __name__)


@routes.get("/books/<uuid:subject>/same")
def choose(subject: UUID) -> ResponseReturnValue:
    """Choose which other record that one is the same as."""
    book = _book(subject)
    _demand("made_one", book)
    part = " ".join(request.args.get("text", "").split())
    with store().reading() as tx:
        found = alike(asker().scope, tx, kind=book.kind, part=part, most=OFFERED + 1)
    others = [(url_for("made_one.page", subject=subject, other=each.id), each) for each in found if each.id != subject]
    return _chosen_from(book.called, page_of(book.kind, subject), others, part=part, more=len(found) > OFFERED)


@routes.route("/books/<uuid:subject>/same/<uuid:other>", methods=["GET", "POST"])
def page(subject: UUID, other: UUID) -> ResponseReturnValue:
    """Make that other record one with the first, which is kept."""
    book = _book(subject)
    with store().reading() as tx:
        kept, gone = _side(tx, subject, kind=book.kind), _side(tx, other, kind=book.kind)
        why_not = _why_not(tx, subject, other) if kept and gone else ""
    hide(kept and gone)
    part = Part(
        name="entry",
        kind="made_one",
        said={"subject": str(subject), "other": str(other)},
        choices={"did.person": book.people},
        labels={"happened": _("When this was found"), "reason": _("How you know that they are the same")},
    )
    return entering(
        Page(
            template="supervisor/made_one.html",
            parts=[part],
            areas=book.areas,
            then=lambda receipts: page_of(book.kind, subject, saved=str(receipts[0].id)),
            open_to_asker=may_say("made_one", book),
            around={
                "called": kept.called if kept else "",
                "other": gone.called if gone else "",
                "lines": words.side_by_side(kept.lines, gone.lines) if kept and gone else [],
                "back": page_of(book.kind, subject),
                "other_way": url_for("made_one.page", subject=other, other=subject),
                "why_not": why_not,
                "means": words.means(book.kind) if book.kind else "",
            },
        )
    )


@routes.get("/places/streets/<uuid:street>/same")
def choose_street(street: UUID) -> ResponseReturnValue:
    """Choose which other street that one is the same as."""
    part = " ".join(request.args.get("text", "").split())
    with store().reading() as tx:
        one = street_listed(asker().scope, tx, id=street)
        asked = WantedPlaces(text=part, what=A_STREET)
        found = places_listed(asker().scope, tx, asked=asked, after=None, most=OFFERED + 1)
        here = areas_for(tx, "streets_made_one")
    if one is None:
        abort(404)
    if not here:
        abort(403)
    others = [
        (url_for("made_one.street", street=one.id, other=each.id), Record(id=each.id, called=place_words.name(each)))
        for each in found
        if each.id != one.id
    ]
    back = url_for("places.street", street=one.id)
    return _chosen_from(place_words.name(one), back, others, part=part, more=len(found) > OFFERED)


@routes.route("/places/streets/<uuid:street>/same/<uuid:other>", methods=["GET", "POST"])
def street(street: UUID, other: UUID) -> ResponseReturnValue:
    """Make that other street one with the first, whose name is kept."""
    with store().reading() as tx:
        kept, gone = (street_listed(asker().scope, tx, id=each) for each in (street, other))
        here = areas_for(tx, "streets_made_one")
        people = people_to_choose(tx)
    if kept is None or gone is None:
        abort(404)
    part = Part(
        name="entry",
        kind="streets_made_one",
        said=_names(kept, gone) | ({"subject": str(here[0].id)} if len(here) == 1 else {}),
        choices={"subject": area_choices(here), "did.person": people},
        without=[name for name in ("town", "other_town") if name not in _names(kept, gone)],
        labels={
            "happened": _("When this was found"),
            "reason": _("How you know that they are the same"),
            "subject": _("In whose books it is written"),
        },
    )
    return entering(
        Page(
            template="supervisor/made_one.html",
            parts=[part],
            areas=here,
            otherwise=here[0] if here else None,
            then=lambda _receipts: url_for("places.street", street=kept.id),
            open_to_asker=bool(here),
            around={
                "called": place_words.name(kept),
                "other": place_words.name(gone),
                "lines": words.side_by_side(_counts(kept), _counts(gone)),
                "back": url_for("places.street", street=kept.id),
                "other_way": url_for("made_one.street", street=gone.id, other=kept.id),
                "why_not": _("These two are one already.") if kept.id == gone.id else "",
                "means": words.means(A_STREET),
            },
        )
    )


def _chosen_from(
    called: str, back: str, others: Sequence[tuple[str, Record]], *, part: str, more: bool
) -> ResponseReturnValue:
    return render_template(
        "supervisor/same_as.html", called=called, back=back, others=others[:OFFERED], part=part, more=more
    )


def _book(subject: UUID) -> Book:
    book = book_of(subject)
    if book.kind and book.kind not in KINDS:
        abort(404)
    return book


def _demand(kind: str, book: Book) -> None:
    if not may_say(kind, book):
        abort(403)


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One of the two: its own name, and what its entries say of it, line by line."""

    called: str
    lines: Sequence[tuple[str, str]]


def _side(tx: Tx, id: UUID, *, kind: str) -> Side | None:
    """None where it is not in scope, or of another kind."""
    story = story_of_book(asker().scope, tx, of=id)
    if story is None or not story.told or words.KIND_OF.get(story.told[0].entry.kind) != kind:
        return None
    return Side(called=called_themselves(asker().scope, tx, ids=[id])[id], lines=_lines(story))


def _lines(story: Story) -> list[tuple[str, str]]:
    return words.lines(tell(story))


def _why_not(tx: Tx, kept: UUID, other: UUID) -> str:
    """Why these two are not to be made one, empty where they may be: what is kept already leads back to the other."""
    of_kept, of_other = (sameness(asker().scope, tx, id=each) for each in (kept, other))
    if kept == other:
        return _("It is the same record.")
    if of_other and of_other.kept:
        return _("“{name}” is kept for this one already. Make that one the same as another, if it is.").format(
            name=of_other.kept.called
        )
    if of_kept and of_kept.kept:
        return _("This record goes on as “{name}”. Make the other one with that.").format(name=of_kept.kept.called)
    if (of_kept and of_kept.ring) or (of_other and of_other.ring):
        return _("One of them is in a ring of records that are kept for each other. That has to be put right first.")
    return ""


def _names(kept: ListedPlace, gone: ListedPlace) -> dict[str, str]:
    said = {"street": kept.street, "town": kept.town, "other_street": gone.street, "other_town": gone.town}
    return {name: text for name, text in said.items() if text}


def _counts(of: ListedPlace) -> list[tuple[str, str]]:
    return [
        (_("Leaks"), str(of.leaks)),
        (_("Open"), str(of.open)),
        (_("Calls"), str(of.calls)),
        (_("Digs"), str(of.digs)),
    ]
