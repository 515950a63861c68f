"""Records: the leaks that somebody asks for, in a list, as a file, and as stories to print."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.beside.preferred import preferred_units
from repairlog.records.queries.crews import CrewRow, crews_in
from repairlog.records.queries.leaks import Edge, LeakRow, Wanted, how_many_leaks, leaks
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.records.story import Story, stories_of
from repairlog.trade.area import Area
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.leak_filter import BY, Asked, asked, edge_after, edge_of, filtered, leaks_page, wanted
from repairlog.web.officer.looked_at import may_read
from repairlog.words import _, story
from repairlog.words import leaks as words
from repairlog.words import records as record_words
from repairlog.words.addresses import address_of_leak

A_PAGE = 50
"""Leaks on a page of the list."""

MOST_STORIES = 60
"""Stories on one page to be printed; a further page has the next ones."""

routes = room("records", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What an address asks for. `of`: its filter as it was read; `where`: the same as a question to the book."""

    of: Asked
    where: Wanted
    beyond: Edge | None
    within: Sequence[Area]
    crews: Sequence[CrewRow]


@routes.get("/records")
def page() -> ResponseReturnValue:
    """The leaks that fit, a page of them, and how many there are; with `as=csv` all of them as a file, unless some of
    the filter cannot be read: then the page says what."""
    scope = asker().scope
    with store().reading() as tx:
        question = _question(tx)
        to_file = csv_wanted() and not question.of.wrong
        rows = [] if to_file else leaks(scope, tx, where=question.where, beyond=question.beyond, most=A_PAGE + 1)
        count = 0 if to_file else how_many_leaks(scope, tx, where=question.where)
    if to_file:
        return _file(question)
    return render_template("officer/records.html", **_shown(question, rows, count=count))


@routes.get("/records/stories")
def stories() -> ResponseReturnValue:
    """The stories of the leaks that fit, the newest report first, so many of them as one page takes: each begins on a
    page of its own where they are printed."""
    scope = asker().scope
    with store().reading() as tx:
        liked = preferred_units(tx, asker().actor.person)
        question = _question(tx)
        rows = leaks(scope, tx, where=question.where, beyond=question.beyond, most=MOST_STORIES + 1)
        count = how_many_leaks(scope, tx, where=question.where)
        at = url_for("records.stories")
        shown = leaks_page(rows, at_most=MOST_STORIES, of=question.of, beyond=question.beyond, at=at)
        found = stories_of(scope, tx, leaks=[row.id for row in shown.rows])
    return render_template(
        "officer/stories.html",
        stories=[_told(row, found[row.id], liked=liked) for row in shown.rows if row.id in found],
        said=record_words.stories(len(found), of=count),
        page=shown,
        back=filtered(url_for("records.page"), question.of.typed),
        wrong=_wrong(question.of),
        asked_for=record_words.asked_for(question.of.typed, crews={str(each.id): each.name for each in question.crews}),
        words=words,
    )


def _question(tx: Tx) -> Question:
    scope = asker().scope
    within, crews = areas(scope, tx), crews_in(scope, tx)
    of = asked(request.args, areas=within, crews=[crew.id for crew in crews])
    where = wanted(of, streets=streets_named(scope, tx, part=of.street) if of.street else None)
    return Question(of=of, where=where, beyond=edge_of(request.args), within=within, crews=crews)


def _wrong(of: Asked) -> dict[str, str]:
    return {name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()}


def _shown(question: Question, rows: Sequence[LeakRow], *, count: int) -> dict[str, object]:
    of = question.of
    page = leaks_page(rows, at_most=A_PAGE, of=of, beyond=question.beyond, at=url_for("records.page"))
    readable = {name: text for name, text in of.typed.items() if name not in of.wrong}
    return {
        "page": page,
        "count": record_words.found(len(page.rows), of=count),
        "file": csv_address(without=of.wrong),
        "stories": filtered(url_for("records.stories"), readable),
        "typed": of.typed,
        "wrong": _wrong(of),
        "areas": question.within,
        "crews": question.crews,
        "by": {each: record_words.by(each) for each in BY},
        "address": address_of_leak,
        "words": words,
        "may_read_looks": may_read(question.within),
    }


def _file(question: Question) -> ResponseReturnValue:
    scope, where = asker().scope, question.where

    def after(tx: Tx, last: LeakRow | None) -> Sequence[LeakRow]:
        return leaks(scope, tx, where=where, beyond=edge_after(last), most=AT_ONCE)

    of = [area for area in question.within if where.area in (None, area.id)]
    return as_csv(name=_("records"), areas=of, columns=words.columns(question.within), after=after)


def _told(row: LeakRow, found: Story, *, liked: Mapping[str, str]) -> dict[str, object]:
    return {
        "leak": row,
        "address": address_of_leak(row),
        "facts": story.head(found, units=liked),
        "entries": story.tell(found, units=liked),
        "moved_away": story.moved_away(found),
        "times": story.times(found),
    }
